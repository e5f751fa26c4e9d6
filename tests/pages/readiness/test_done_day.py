"""The day a done task was really done: what it closed moves with it, and no closing slips before its last pass."""

from datetime import date

import pytest
from sqlmodel import select

from tests.reading import field_errors, headings, soup, words
from webapp.surfaces.models import Cover


@pytest.fixture
def boarded(client, settled):
    """The east wall, closed by its board on Saturday 16 May; insulation was seen on Friday the 15th."""
    board = f"/builds/bindery/tasks/{settled.board.row_id}"
    assert client.post(f"{board}/finish", data={"on": "today"}).status_code == 303
    return board


def covered_on(database) -> date:
    with database.reading() as session:
        return session.exec(select(Cover)).one().covered_on


def test_the_closing_moves_with_the_task_that_closed_it(client, database, boarded):
    assert "East wall was closed by it" in words(client.get(f"{boarded}/day"))
    assert client.post(f"{boarded}/day", data={"on": "15 May", "why": "typed a day late"}).status_code == 303
    assert covered_on(database) == date(2026, 5, 15)
    assert "done 16 May 2026" in words(client.get(boarded)), "the old day stays readable"
    wall = words(client.get("/builds/bindery/surfaces/E"))
    assert "Closed on: 16 May 2026, now 15 May 2026" in wall
    assert "typed a day late" in wall


def test_a_day_before_the_last_pass_is_refused_and_changes_nothing(client, database, boarded):
    answer = client.post(f"{boarded}/day", data={"on": "14 May"})
    assert answer.status_code == 409
    assert "East wall was still open then" in words(answer)
    assert covered_on(database) == date(2026, 5, 16)
    assert "done Sat 16 May" in words(client.get(boarded))


def test_the_edit_page_has_no_way_round(client, database, boarded):
    """A day of being done sent to the edit page is not read at all."""
    page = soup(client.get(f"{boarded}/edit"))
    assert page.select_one("[name=done_on]") is None
    data = {tag["name"]: tag.get("value", "") for tag in page.select("#task input[type=text]")}
    data |= {tag["name"]: tag.select_one("option[selected]")["value"] for tag in page.select("#task select")}
    answer = client.post(f"{boarded}/edit", data=data | {"done_on": "2026-05-02"})
    assert answer.status_code == 303, words(answer)
    assert covered_on(database) == date(2026, 5, 16)
    assert "done Sat 16 May" in words(client.get(boarded))


@pytest.mark.parametrize(
    ("typed", "sentence"), [("", "Write the day"), ("18 May", "still to come"), ("31 April", "30")]
)
def test_a_day_that_cannot_be_is_said_beside_its_field(client, boarded, typed, sentence):
    answer = client.post(f"{boarded}/day", data={"on": typed, "why": "it was raining"})
    assert answer.status_code == 422
    assert sentence in field_errors(answer)["on"]
    assert "it was raining" in answer.text


def test_a_task_that_is_not_done_has_no_such_day(client, wall):
    answer = client.post(f"/builds/bindery/tasks/{wall.board.row_id}/day", data={"on": "today"})
    assert answer.status_code == 404
    assert headings(answer) == ["Not here"]
