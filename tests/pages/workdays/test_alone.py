"""Before ladder, roof, saw or trench: tell somebody. The builder ticks it, and what was told stays with the day."""

from datetime import datetime

import pytest
from sqlmodel import select

from tests import builders
from tests.pages.workdays.conftest import LOG
from tests.reading import field_errors, headings, links, soup, words
from webapp.core import clock
from webapp.plan.models import TaskDanger
from webapp.workdays.models import Told

BASE = "/builds/bindery"
ALONE, TODAY = f"{BASE}/alone", f"{BASE}/today"
EDIT = {"kind": "fitting", "low": "1", "likely": "2", "high": "3"}


@pytest.fixture
def at(app):
    """Puts the site's clock on an hour of Saturday."""

    def put(hour: str) -> None:
        moment = datetime.fromisoformat(f"2026-05-16T{hour}:00+00:00")
        app.dependency_overrides[clock.local_now] = lambda: moment

    put("17:05")
    return put


@pytest.fixture
def soffit(client, database, build, at) -> int:
    """A task for one evening, ticked "on a ladder" and "with a saw" on its own page."""
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build), "Trim the soffit", likely_min=90)
        number = task.row_id
    sent = EDIT | {"title": "Trim the soffit", "danger": ["saw", "ladder"]}
    assert client.post(f"{BASE}/tasks/{number}/edit", data=sent).status_code == 303
    return number


def told(database) -> list[Told]:
    with database.reading() as session:
        return list(session.exec(select(Told).order_by(Told.id)))


def test_nothing_is_guessed_from_the_words_of_a_task(client, database, build, at):
    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build), "Cut the roof from the ladder", kind="roofing")
    for path in (TODAY, LOG):
        assert "Tell somebody" not in words(client.get(path))
    assert "Ladder, roof, saw, trench? Tick it" in links(client.get(f"{BASE}/tasks/1"))


def test_a_tick_is_kept_shown_and_can_be_taken_out(client, database, soffit):
    form = soup(client.get(f"{BASE}/tasks/{soffit}/edit"))
    assert [tag["value"] for tag in form.select("[name=danger][checked]")] == ["ladder", "saw"]
    page = words(client.get(f"{BASE}/tasks/{soffit}"), "#alone")
    assert page.startswith("Done on a ladder and with a saw.")
    assert "29 CFR 1926.1053(b)(5)(i)" in page
    client.post(f"{BASE}/tasks/{soffit}/edit", data=EDIT | {"title": "Trim the soffit", "danger": "saw"})
    with database.reading() as session:
        assert [row.danger for row in session.exec(select(TaskDanger))] == ["saw"]
    wrong = client.post(f"{BASE}/tasks/{soffit}/edit", data=EDIT | {"title": "", "danger": ["saw", "roof"]})
    assert [tag["value"] for tag in soup(wrong).select("[name=danger][checked]")] == ["roof", "saw"]


def test_live_work_goes_to_a_licensed_electrician_and_a_trench_is_no_place_to_be_alone(client, soffit):
    sent = EDIT | {"title": "Land the feeder", "danger": ["live wires", "trench"]}
    client.post(f"{BASE}/tasks/{soffit}/edit", data=sent)
    page = words(client.get(ALONE))
    assert "Live wires: this is for a licensed electrician." in page
    # 29 CFR 1926.651(c)(2): a way out within 25 ft from 4 ft depth; 1926.652(a)(1): protection from 5 ft depth.
    assert "from 4 ft deep a ladder or ramp within 25 ft; from 5 ft it is sloped, shored or shielded first" in page


def test_the_reminder_comes_where_such_work_can_be_begun_alone_and_not_with_help(client, soffit):
    said = "“Trim the soffit” is done on a ladder and with a saw. Alone? Tell somebody where you are"
    assert said in words(client.get(TODAY), "#alone")
    assert said in words(client.get(LOG))
    assert "Tell somebody where you are" not in words(client.get(f"{TODAY}?hands=helper"))
    assert "Tell somebody where you are" not in words(client.get(f"{TODAY}?time=60"))


def test_what_was_told_is_on_today_until_i_am_back_and_stays_with_the_day(client, database, soffit, at):
    page = client.get(f"{ALONE}?task={soffit}")
    assert soup(page).select_one("[name=task] option[selected]")["value"] == str(soffit)
    assert "It makes nothing harmless, and Studbay calls nobody" in words(page)
    sent = {"whom": "Sam", "back_by": "7 pm", "task": str(soffit), "sent_id": "t1"}
    for _ in range(2):  # the button pressed twice
        assert client.post(ALONE, data=sent).headers["location"] == TODAY
    assert len(told(database)) == 1
    today = words(client.get(TODAY), "#alone")
    assert today.startswith("Working alone Told Sam, back by 19:00. I am back")
    assert "That hour has come" not in today
    at("18:59")
    assert "That hour has come" not in words(client.get(TODAY), "#alone")
    at("19:00")
    assert "Told Sam, back by 19:00. That hour has come. If you are longer, tell them" in words(
        client.get(TODAY), "#alone"
    )
    client.post(LOG, data={"own": "2"})
    assert client.post(f"{ALONE}/back", data={"sent_id": "b1"}).headers["location"] == TODAY
    assert "Working alone" not in headings(client.get(TODAY))
    day = words(client.get(f"{BASE}/workdays/1"))
    assert "Working alone Told Sam, back by 19:00, told at " in day
    assert ", back at " in day


def test_a_day_after_it_is_still_asked(client, database, build, soffit, app, at):
    with database.writing() as session:
        yesterday = builders.AT.replace(day=15)
        builders.kept(
            session, Told(build_id=build.row_id, day=yesterday.date(), whom="Sam", back_by="23:00", told_at=yesterday)
        )
    assert "That hour has come" in words(client.get(TODAY), "#alone")


def test_later_than_i_said_is_told_again_and_both_stay(client, database, soffit, at):
    client.post(ALONE, data={"whom": "Sam", "back_by": "18:00"})
    at("18:10")
    client.post(ALONE, data={"whom": "Sam", "back_by": "19:30"})
    assert [(one.back_by, one.ended_how) for one in told(database)] == [("18:00", "told again"), ("19:30", "")]
    assert "Told Sam, back by 19:30." in words(client.get(TODAY), "#alone")
    lines = words(client.get(ALONE))
    assert "Told Sam, back by 18:00" in lines


def test_saving_the_day_with_its_tick_says_that_i_am_back(client, database, soffit, at):
    client.post(ALONE, data={"whom": "Sam", "back_by": "18:00"})
    form = client.get(LOG)
    assert "Told Sam, back by 18:00: I am back" in words(form)
    assert soup(form).select_one("[name=back]").get("checked") is None, "the builder says it, nobody guesses it"
    assert client.post(LOG, data={"own": "2", "back": "yes"}).status_code == 303
    assert told(database)[0].ended_how == "back"
    assert "I am back" not in words(client.get(LOG))


@pytest.mark.parametrize(
    ("sent", "field", "says"),
    [
        ({"whom": "", "back_by": "19:00"}, "whom", "Write whom you told."),
        ({"whom": "Sam", "back_by": ""}, "back_by", "Write the hour you said"),
        ({"whom": "Sam", "back_by": "17:05"}, "back_by", "It is 17:05 now."),
        ({"whom": "Sam", "back_by": "26:00"}, "back_by", "A day has hours from 00:00 to 23:59."),
        ({"whom": "Sam", "back_by": "late"}, "back_by", "Write an hour such as 18:40."),
    ],
)
def test_what_would_help_nobody_is_asked_about_beside_its_field(client, database, soffit, sent, field, says):
    refused = client.post(ALONE, data=sent)
    assert refused.status_code == 422
    assert says in field_errors(refused)[field]
    assert soup(refused).select_one("[name=whom]")["value"] == sent["whom"], "what was typed stays"
    assert told(database) == []


def test_a_stranger_learns_nothing_of_it(stranger, soffit):
    assert stranger.get(ALONE).status_code in {303, 401}
    assert stranger.post(ALONE, data={"whom": "X", "back_by": "23:00"}).status_code in {303, 401}
