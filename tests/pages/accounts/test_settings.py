"""Settings: the name, the password, the phones and laptops signed in."""

from datetime import timedelta

import pytest

from tests.reading import field_errors, soup, words
from webapp.accounts import actions, store
from webapp.accounts.guard import COOKIE
from webapp.core import clock

OLD, NEW = "mud and tape in may", "a stud every sixteen inches"


@pytest.fixture
def two_devices(stranger, database, build):
    """The builder on a phone (this client) and on a laptop (the returned cookie)."""
    with database.writing() as session:
        token = actions.offer_set_up(session)
        owner = actions.set_up_owner(session, token, "the builder", actions.hash_password(OLD))
        phone = actions.begin_sign_in(session, owner, "Phone, Slate 14")
        laptop = actions.begin_sign_in(session, owner, "Laptop or desk")
    stranger.cookies.set(COOKIE, phone)
    return stranger, laptop


def test_every_sign_in_is_listed_and_this_one_says_so(two_devices):
    phone, _ = two_devices
    answer = phone.get("/settings")
    assert "Phone, Slate 14" in words(answer)
    assert "Laptop or desk" in words(answer)
    assert [tag.get_text() for tag in soup(answer).select(".rows .r.let")] == ["here"]


def test_a_laptop_is_signed_out_from_the_phone(two_devices):
    phone, laptop = two_devices
    path = soup(phone.get("/settings")).select_one("form[action^='/sign-ins/']")["action"]
    assert phone.post(path).headers["location"] == "/settings"
    assert "Laptop or desk: signed out." in words(phone.get("/settings"))
    phone.cookies.set(COOKIE, laptop)
    assert phone.get("/settings").status_code == 303


def test_a_sign_in_that_is_not_there_is_not_found(two_devices):
    phone, _ = two_devices
    assert phone.post("/sign-ins/999/end").status_code == 404


def test_a_new_name_is_kept_and_an_empty_one_is_not(two_devices):
    phone, _ = two_devices
    assert phone.post("/settings", data={"name": "the binder"}).status_code == 303
    assert soup(phone.get("/settings")).select_one("[name=name]")["value"] == "the binder"
    refused = phone.post("/settings", data={"name": " "})
    assert (refused.status_code, set(field_errors(refused))) == (422, {"name"})


def test_a_new_password_ends_every_other_sign_in(two_devices):
    phone, laptop = two_devices
    answer = phone.post("/settings/password", data={"current": OLD, "password": NEW, "again": NEW})
    assert answer.status_code == 303
    assert "1 other sign-in ended" in words(phone.get("/settings"))
    phone.cookies.set(COOKIE, laptop)
    assert phone.get("/settings").status_code == 303
    assert phone.post("/sign-in", data={"name": "the builder", "password": NEW}).status_code == 303


@pytest.mark.parametrize(
    ("sent", "field"),
    [
        ({"current": "not this one at all", "password": NEW, "again": NEW}, "current"),
        ({"current": OLD, "password": "short", "again": "short"}, "password"),
        ({"current": OLD, "password": NEW, "again": OLD}, "again"),
        ({"current": "", "password": NEW, "again": NEW}, "current"),
    ],
)
def test_a_password_is_not_changed_by_a_bad_form(two_devices, sent, field):
    phone, _ = two_devices
    answer = phone.post("/settings/password", data=sent)
    assert answer.status_code == 422
    assert set(field_errors(answer)) == {field}
    assert OLD not in answer.text
    assert NEW not in answer.text
    assert phone.post("/sign-in", data={"name": "the builder", "password": OLD}).status_code == 303


def test_wrong_passwords_are_slowed_here_too(two_devices):
    phone, _ = two_devices
    sent = {"current": "not this one at all", "password": NEW, "again": NEW}
    assert [phone.post("/settings/password", data=sent).status_code for _ in range(6)] == [422] * 5 + [429]


def test_a_stranger_changes_nothing(stranger, build):
    for path in ("/settings", "/settings/password", "/sign-ins/1/end", "/sign-out"):
        assert stranger.post(path, data={"name": "a stranger"}).status_code == 401
    assert stranger.get("/settings").status_code == 303


def test_when_it_was_seen_is_written_at_most_once_an_hour_and_never_by_looking(two_devices, database, monkeypatch):
    phone, _ = two_devices

    def seen():
        with database.reading() as session:
            return max(sign_in.seen_at for sign_in in store.list_sign_ins(session, 1))

    first = seen()
    phone.post("/settings", data={"name": "the builder"})
    assert seen() == first, "an hour has not passed"
    real = clock.now
    monkeypatch.setattr(actions, "now", lambda: real() + timedelta(hours=2))
    phone.get("/settings")
    assert seen() == first, "a look writes nothing"
    phone.post("/settings", data={"name": "the builder"})
    assert seen() - first > timedelta(hours=1)
