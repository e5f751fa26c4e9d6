"""A visit as booked: with who is there, how it was asked for, by video; and what is odd about it is asked about."""

import pytest

from tests import builders
from tests.reading import field_errors, soup, words
from webapp.inspections.store import list_visits

PATH = "/builds/bindery/inspections/IREL"
GOOD = {"day": "2026-05-19", "asked_on": "2026-05-16", "window": "09:00 to 12:00"}


@pytest.fixture
def rough(database, build):
    with database.writing() as session:
        permit = builders.a_permit(session, build)
        builders.an_inspection(session, permit, "Rough electrical", code="IREL", who_there="me, all morning")


def test_everything_said_of_it_is_kept(client, database, build, rough):
    page = soup(client.get(PATH))
    assert page.select_one("#f-who_there")["value"] == "me, all morning", "as the inspection says"
    sent = GOOD | {"who_there": "my sister", "asked_how": "by telephone", "remote": "yes"}
    assert client.post(f"{PATH}/visits", data=sent).status_code == 303
    with database.reading() as session:
        (visit,) = list_visits(session, build.row_id)
    assert (visit.who_there, visit.asked_how, visit.remote) == ("my sister", "by telephone", True)
    sent = GOOD | {"day": "2026-05-20", "who_there": "me", "asked_how": "by telephone", "remote": "yes"}
    assert client.post("/builds/bindery/visits/1/move", data=sent).status_code == 303
    assert "Must be there: my sister, now me" in words(client.get("/builds/bindery/visits/1"))


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        ({"day": "2026-05-23"}, "day", "Saturday 23 May 2026 is no day on which the office visits."),
        ({"day": "2026-05-18", "asked_on": "2026-05-16"}, "day", "It had to be asked for by Fri 15 May 15:30"),
        ({"day": "2028-05-19"}, "day", "more than a year off"),
        ({"asked_on": "2025-05-16"}, "asked_on", "is before ELE was issued"),
    ],
)
def test_what_is_odd_is_asked_about_and_taken_once_it_is_right(client, rough, change, field, sentence):
    answer = client.post(f"{PATH}/visits", data=GOOD | change | {"note": "ring first"})
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("#f-note")["value"] == "ring first"
    assert soup(answer).select_one("[name=booking_right]")
    assert client.post(f"{PATH}/visits", data=GOOD | change | {"booking_right": "yes"}).status_code == 303


@pytest.mark.parametrize(
    ("change", "field"),
    [
        ({"day": "2026-05-01"}, "day"),
        ({"day": "2026-04-31"}, "day"),
        ({"asked_on": "2026-05-17"}, "asked_on"),
        ({"window": "12:00 to 09:00"}, "window"),
    ],
)
def test_what_cannot_be_is_refused_whatever_is_ticked(client, rough, change, field):
    answer = client.post(f"{PATH}/visits", data=GOOD | change | {"booking_right": "yes"})
    assert (answer.status_code, field in field_errors(answer)) == (422, True)


def test_a_visit_before_its_permit_is_asked_about(client, database, build):
    with database.writing() as session:
        permit = builders.a_permit(session, build, issued_on=None)
        builders.an_inspection(session, permit, "Rough electrical", code="IREL")
    answer = client.post(f"{PATH}/visits", data={"day": "2026-05-19"})
    assert "ELE is not issued yet." in field_errors(answer)["day"]
