"""A closed wall is opened up: the work of closing it again stands on the list, and what it cost beside its history."""

import pytest

from tests import builders
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import actions

E = "/builds/bindery/surfaces/E"


@pytest.fixture
def closed(client, database, build):
    with database.writing() as session:
        wall = builders.a_surface(session, build, closed_by="board")
        builders.looked_at(session, build, wall)
        board = builders.a_task(session, builders.a_phase(session, build), state="done")
        builders.works_on(session, board, wall, closes=True)
        actions.mark_covered(session, wall.row_id, board.done_on or builders.AT.date(), "me", "board", [])


def opened(client, **more: str):
    return client.post(f"{E}/open-again", data={"on": "today", "why": "a screw met the drain", **more})


def test_it_is_offered_and_stands_in_the_phase_of_the_board(client, closed):
    form = soup(client.get(f"{E}/open-again"))
    assert form.select_one("[name=work]").has_attr("checked")
    assert form.select_one("[name=phase] [selected]").get_text() == "Board"
    assert opened(client, work="1", hours="1:30", phase="1").status_code == 303
    assert "Close E again" in words(client.get("/builds/bindery/phases/1"))


def test_finishing_it_asks_at_the_gate_and_closes_the_wall(client, closed):
    opened(client, work="1", hours="2", phase="1")
    task = links(client.get(E))["The work of it"]
    assert client.post(f"{task}/finish", data={"on": "today"}).status_code == 303
    assert "Closed Sat 16 May" in words(client.get(E))
    assert "Closed" in words(client.get(f"{E}/before-cover"), "h1")


def test_what_it_took_is_read_from_the_wall_for_ever(client, closed):
    opened(client, work="1", hours="2", phase="1")
    took = links(client.get(E))["Time and cost so far"]
    client.post("/builds/bindery/workdays/log", data={"own": "3", "worked": took.split("/")[-2]})
    assert "3 h my own logged" in words(client.get(took))
    part = client.get(took, headers={"HX-Request": "true", "HX-Request-Type": "partial"})
    assert "3 h my own logged" in part.text and "<html" not in part.text


def test_without_the_work_it_is_only_open(client, closed):
    assert opened(client).status_code == 303
    assert "The work of it" not in words(client.get(E))
    assert "Opened up Sat 16 May: a screw met the drain." in words(client.get(E))


def test_hours_that_cannot_be_read_come_back(client, closed):
    answer = opened(client, work="1", hours="soon")
    assert answer.status_code == 422 and set(field_errors(answer)) == {"hours"}
    assert "a screw met the drain" in answer.text
    assert "Closed" in words(client.get(f"{E}/before-cover"), "h1"), "nothing was written"
