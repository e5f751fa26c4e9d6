"""A finished task without a day, with a wait after it: each page stops there and leads to giving the day."""

from datetime import date

import pytest

from tests import builders
from tests.reading import headings, links, words
from webapp.plan.models import Task


@pytest.fixture
def mud(client, database, build):
    """Paint needs mud that dries for three days; the mud is done, nobody wrote down when. Gives both ids."""
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        wait = {"wait_days": 3, "wait_reason": "drying", "state": "done", "done_on": None}
        mud = builders.a_task(session, phase, "Mud and tape", kind="mud", **wait)
        paint = builders.a_task(session, phase, "Paint", 2, kind="paint")
        builders.a_need(session, paint, mud)
        return mud.row_id, paint.row_id


def test_what_waits_is_stopped_and_the_line_leads_to_giving_the_day(client, mud):
    before, after = (f"/builds/bindery/tasks/{one}" for one in mud)
    stopped = client.get(f"/builds/bindery/what-stops?task={mud[1]}")
    assert "It began on an unknown day: give the day it was done." in words(stopped)
    assert any(href == f"{before}/day" for href in links(stopped).values())
    assert "drying: begun on an unknown day" in words(client.get(after))
    assert "since an unknown day" in words(client.get("/builds/bindery/today"))


def test_the_task_says_what_is_missing_and_its_day_can_be_given(client, database, mud):
    task = f"/builds/bindery/tasks/{mud[0]}"
    page = client.get(task)
    assert "Give that day below" in words(page)
    assert links(page)["Give the day it was done"] == f"{task}/day"
    assert headings(client.get(f"{task}/day"))[0] == "The day it was done"
    assert client.post(f"{task}/day", data={"on": "10 May"}).status_code == 303
    with database.reading() as session:
        assert session.get_one(Task, mud[0]).done_on == date(2026, 5, 10)
    assert "unknown day" not in words(client.get(f"/builds/bindery/what-stops?task={mud[1]}"))
    assert "The day it was done is wrong" in links(client.get(task))
