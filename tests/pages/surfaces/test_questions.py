"""Questions are asked, settled with an answer and opened again."""

import pytest

from tests import builders
from tests.reading import field_errors, headings, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/questions"
ASKED = {"words": "Can a screw reach the cable?", "kind": "danger", "surface": "E", "who": "a viewer", "on": "8 May"}


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        return builders.a_surface(session, build).row_id


def test_the_form_begins_with_the_surface_one_came_from(client, east):
    page = client.get(f"{BASE}/new?surface=E")
    assert soup(page).select_one("#f-surface option[selected]")["value"] == "E"


def test_a_danger_question_says_that_it_stops_and_to_stand_clear(client, east):
    answer = client.post(BASE, data=ASKED)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{BASE}/1")
    page = client.get(f"{BASE}/1")
    assert "asked on 8 May 2026 by a viewer. It stops the closing" in words(page)
    assert "Your local authority and licensed people decide." in words(page)
    assert ASKED["words"] in words(client.get("/builds/bindery/surfaces/E"))


def test_a_question_without_words_is_drawn_again(client, east):
    answer = client.post(BASE, data=ASKED | {"words": "", "on": "2027-01-01"})
    assert set(field_errors(answer)) == {"words", "on"}
    assert soup(answer).select_one("#f-who")["value"] == "a viewer"


def test_settling_needs_an_answer_and_a_day_that_can_be(client, database, build, east):
    client.post(BASE, data=ASKED)
    bad = client.post(f"{BASE}/1/settle", data={"answer": "", "on": "1 May"})
    assert set(field_errors(bad)) == {"answer", "on"}
    assert client.post(f"{BASE}/1/settle", data={"answer": "2 in apart, measured", "on": "10 May"}).status_code == 303
    assert "Settled on 10 May 2026" in headings(client.get(f"{BASE}/1"))
    with database.reading() as session:
        assert store.get_question(session, build.id, 1).answer == "2 in apart, measured"


def test_an_answer_that_does_not_hold_is_kept_and_the_question_open(client, east):
    client.post(BASE, data=ASKED)
    client.post(f"{BASE}/1/settle", data={"answer": "2 in apart", "on": "10 May"})
    assert "does not hold" in field_errors(client.post(f"{BASE}/1/open-again", data={"why": ""}))["why"]
    assert client.post(f"{BASE}/1/open-again", data={"why": "wrong stud"}).status_code == 303
    page = client.get(f"{BASE}/1")
    assert "Settle it" in headings(page)
    assert "2 in apart (2026-05-10)" in words(page)


@pytest.mark.parametrize("path", ["", "/1/settle", "/1/open-again"])
def test_a_stranger_asks_and_settles_nothing(stranger, east, path):
    assert stranger.post(f"{BASE}{path}", data=ASKED).status_code in {303, 401}


def test_a_question_of_nowhere_is_not_found(client):
    assert client.get(f"{BASE}/7").status_code == 404
    assert client.post(f"{BASE}/7/settle", data={"answer": "yes"}).status_code == 404
