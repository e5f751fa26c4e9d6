"""The way in: set up once, sign in, be slowed down, sign out, from the outside as a browser sees it."""

from datetime import timedelta

import pytest

from tests.reading import field_errors, links, soup, words
from webapp.accounts import actions
from webapp.accounts.guard import COOKIE
from webapp.core import clock

PASSWORD = "mud and tape in may"


@pytest.fixture
def set_up_path(database):
    with database.writing() as session:
        return f"/set-up/{actions.offer_set_up(session)}"


@pytest.fixture
def owner(database):
    """The builder, set up with a password, signed in nowhere."""
    with database.writing() as session:
        token = actions.offer_set_up(session)
        return actions.set_up_owner(session, token, "the builder", actions.hash_password(PASSWORD))


def sign_in(who, name="the builder", password=PASSWORD, **more):
    return who.post("/sign-in", data={"name": name, "password": password, "next": "/", **more})


def test_the_set_up_address_makes_the_owner_and_signs_in(stranger, set_up_path):
    assert words(stranger.get(set_up_path), "h1") == "Set up your name and password"
    answer = stranger.post(set_up_path, data={"name": "the builder", "password": PASSWORD, "again": PASSWORD})
    assert (answer.status_code, answer.headers["location"]) == (303, "/")
    assert stranger.get("/settings").status_code == 200


def test_the_set_up_address_works_once(stranger, set_up_path):
    stranger.post(set_up_path, data={"name": "the builder", "password": PASSWORD, "again": PASSWORD})
    for answer in (stranger.get(set_up_path), stranger.post(set_up_path, data={"name": "a stranger"})):
        assert answer.status_code == 404
        assert "used already" in words(answer)
        assert links(answer)


def test_a_bad_set_up_keeps_the_name_and_never_shows_the_password(stranger, set_up_path):
    answer = stranger.post(set_up_path, data={"name": "the builder", "password": "short-one", "again": "short-two"})
    assert answer.status_code == 422
    assert "at least 10 characters" in field_errors(answer)["password"]
    assert 'value="the builder"' in answer.text
    assert "short-" not in answer.text
    twice = stranger.post(set_up_path, data={"name": "", "password": PASSWORD, "again": "mud and tape in march"})
    assert set(field_errors(twice)) == {"name", "again"}


def test_name_and_password_lead_back_to_the_page_asked_for(stranger, owner):
    form = soup(stranger.get("/sign-in?next=/builds/bindery/surfaces/E"))
    assert form.select_one("[name=next]")["value"] == "/builds/bindery/surfaces/E"
    answer = sign_in(stranger, next="/builds/bindery/surfaces/E")
    assert (answer.status_code, answer.headers["location"]) == (303, "/builds/bindery/surfaces/E")


def test_a_sign_in_never_leads_to_another_server(stranger, owner):
    assert soup(stranger.get("/sign-in?next=//elsewhere.example")).select_one("[name=next]")["value"] == "/"
    assert sign_in(stranger, next="//elsewhere.example").headers["location"] == "/"


def test_the_cookie_is_out_of_reach_for_scripts_and_other_sites(stranger, owner):
    stays = sign_in(stranger, stay="1").headers["set-cookie"].lower()
    assert all(part in stays for part in ("httponly", "samesite=lax", f"max-age={90 * 24 * 3600}", "path=/"))
    assert "max-age" not in sign_in(stranger).headers["set-cookie"].lower(), "without the tick it ends with the browser"


def test_over_https_the_cookie_is_bound_to_the_host(app, owner, stranger):
    answer = stranger.post(
        "https://127.0.0.1/sign-in",
        data={"name": "the builder", "password": PASSWORD},
        headers={"origin": "https://127.0.0.1"},
    )
    cookie = answer.headers["set-cookie"]
    assert cookie.startswith("__Host-studbay=")
    assert "Secure" in cookie


@pytest.mark.parametrize(("name", "password"), [("the builder", "wrong words in a row"), ("somebody", PASSWORD)])
def test_what_does_not_fit_gets_a_sentence_and_keeps_the_name(stranger, owner, name, password):
    answer = sign_in(stranger, name, password)
    assert answer.status_code == 422
    assert field_errors(answer)["password"] == "Name and password do not fit together."
    assert soup(answer).select_one("[name=name]")["value"] == name
    assert password not in answer.text
    assert COOKIE not in answer.cookies


def test_the_fifth_wrong_try_has_to_wait_and_so_has_the_right_one(stranger, owner, monkeypatch):
    for _ in range(5):
        assert sign_in(stranger, password="wrong words in a row").status_code == 422
    slowed = sign_in(stranger)
    assert slowed.status_code == 429
    assert int(slowed.headers["retry-after"]) in {1, 2}
    assert "Wait" in field_errors(slowed)["password"]
    real = clock.now
    monkeypatch.setattr(actions, "now", lambda: real() + timedelta(seconds=3))
    assert sign_in(stranger).status_code == 303


def test_signing_out_ends_the_sign_in_on_the_server_too(client, token):
    assert client.post("/sign-out").headers["location"] == "/sign-in"
    client.cookies.set(COOKIE, token)
    assert client.get("/settings").status_code == 303


def test_a_sign_in_of_three_months_ago_is_over(client, monkeypatch):
    monkeypatch.setattr("webapp.accounts.store.now", lambda: clock.now() + timedelta(days=400))
    assert client.get("/settings").status_code == 303


def test_the_look_is_kept_on_the_phone_and_leads_back(stranger):
    answer = stranger.post("/look", data={"look": "sun", "back": "/sign-in"})
    assert (answer.status_code, answer.headers["location"]) == (303, "/sign-in")
    assert soup(stranger.get("/sign-in")).html["data-look"] == "sun"
    assert stranger.post("/look", data={"look": "neon", "back": "//elsewhere.example"}).headers["location"] == "/"
    assert soup(stranger.get("/sign-in")).html["data-look"] == "sun"
