"""A day is put right; what it said before stays readable, and what it dated follows."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.actions.workdays.conftest import SATURDAY, a_day, a_photo, site_of
from webapp.footage.models import Shot
from webapp.money import store as money
from webapp.money.models import Spend
from webapp.plan.models import Task
from webapp.plan.store import task_history
from webapp.surfaces.models import Cover
from webapp.values.errors import NotFound, RuleBroken
from webapp.workdays import store
from webapp.workdays.actions import amend_day, log_day
from webapp.workdays.models import Workday
from webapp.workdays.rules.hours import Hours
from webapp.workdays.rules.said import Bought, Work

FRIDAY = date(2026, 5, 15)


def changes(session, workday_id):
    return {(one.field, one.was, one.became) for one in store.list_changes(session, workday_id)}


def test_every_part_that_changed_keeps_what_it_was_and_no_other_does(session, east):
    first = a_day(own=120, said={"done": "Plates", "weather": "dry"})
    day = log_day(session, site_of(session), first).workday_id
    amend_day(session, site_of(session), day, a_day(own=150, said={"done": "Plates and straps", "weather": "dry"}))
    assert changes(session, day) == {
        ("My hours", "2 h", "2½ h"),
        ("What got done", "Plates", "Plates and straps"),
    }


def test_what_was_empty_or_is_emptied_reads_as_nothing(session, east):
    day = log_day(session, site_of(session), a_day(own=60, said={"next_step": "Snips"})).workday_id
    amend_day(session, site_of(session), day, a_day(hours=Hours(own=60, unpaid=120)))
    assert changes(session, day) == {("Next first step", "Snips", "nothing"), ("Unpaid help", "nothing", "2 h")}


def test_saving_a_day_unchanged_writes_no_history(session, east):
    form = a_day(own=60, work=(Work(east.wiring.row_id, 60),))
    day = log_day(session, site_of(session), form).workday_id
    amend_day(session, site_of(session), day, form)
    assert changes(session, day) == set()


def test_work_told_differently_or_taken_out_stays_readable(session, east):
    day = log_day(session, site_of(session), a_day(own=120, work=(Work(east.wiring.row_id, 60),))).workday_id
    amend_day(session, site_of(session), day, a_day(own=120, work=(Work(east.wiring.row_id, 90),)))
    amend_day(session, site_of(session), day, a_day(own=120))
    assert changes(session, day) == {
        ("Work", "Pull the circuit: worked on, 1 h", "Pull the circuit: worked on, 1½ h"),
        ("Work", "Pull the circuit: worked on, 1½ h", "Pull the circuit: taken out"),
    }
    assert store.list_entries(session, day) == ()


def test_a_task_finished_by_amending_goes_through_the_gate_and_frees(session, east):
    day = log_day(session, site_of(session), a_day(own=60, work=(Work(east.wiring.row_id),))).workday_id
    form = a_day(own=60, work=(Work(east.wiring.row_id, finished=True),))
    logged = amend_day(session, site_of(session), day, form)
    assert f"task:{east.board.row_id}" in logged.freed
    assert ("Work", "Pull the circuit: worked on", "Pull the circuit: finished") in changes(session, day)


def test_a_finished_task_stays_in_the_day_even_if_the_form_leaves_it_out(session, east):
    day = log_day(session, site_of(session), a_day(work=(Work(east.wiring.row_id, finished=True),))).workday_id
    amend_day(session, site_of(session), day, a_day(own=60))
    assert [entry.finished for entry in store.list_entries(session, day)] == [True]


def test_a_corrected_date_takes_task_spend_and_shot_with_it(session, build, east):
    """A day typed wrong by a day: everything dated by it follows, and each keeps its old date in its own history."""
    shot = builders.a_shot(session, build)
    words = {
        "work": (Work(east.wiring.row_id, finished=True),),
        "bought": (Bought("Screws", 995),),
        "shot_ids": (shot.row_id,),
    }
    day = log_day(session, site_of(session), a_day(SATURDAY, **words)).workday_id
    amend_day(session, site_of(session), day, a_day(FRIDAY, work=words["work"]))
    task = session.get(Task, east.wiring.row_id)
    assert (task.started_on, task.done_on) == (FRIDAY, FRIDAY)
    assert any("done 16 May 2026" in change.was for change in task_history(session, task.row_id))
    spend_id = store.spend_ids(session, day)[0]
    assert session.get(Spend, spend_id).day == FRIDAY
    assert [change.was for change in money.list_spend_changes(session, spend_id)] == ["16 May 2026"]
    assert session.get(Shot, shot.row_id).filmed_on == FRIDAY
    assert ("Day", "16 May 2026", "15 May 2026") in changes(session, day)


def test_a_corrected_date_takes_the_closing_along_but_not_before_the_wall_was_seen(session, east):
    """The wall was last seen on 7 May; a refused day leaves every word of the day as it was."""
    work = tuple(Work(task.row_id, finished=True) for task in (east.wiring, east.board))
    day = log_day(session, site_of(session), a_day(SATURDAY, work=work)).workday_id
    amend_day(session, site_of(session), day, a_day(FRIDAY, work=work))
    assert session.exec(select(Cover)).one().covered_on == FRIDAY
    with pytest.raises(RuleBroken) as refused:
        amend_day(session, site_of(session), day, a_day(date(2026, 5, 6), own=60, work=work))
    assert "was still open then" in refused.value.verdict.reasons[0].sentence
    session.expire_all()
    assert session.exec(select(Cover)).one().covered_on == FRIDAY
    assert session.get(Task, east.board.row_id).done_on == FRIDAY
    assert (session.get(Workday, day).day, session.get(Workday, day).own_min) == (FRIDAY, 0)


def test_a_third_line_of_spend_and_more_pictures_come_by_amending(session, east):
    day = log_day(session, site_of(session), a_day(own=60, bought=(Bought("Screws", 995),))).workday_id
    photo = a_photo(session)
    more = a_day(own=60, bought=(Bought("Tape", 450),), photo_ids=(photo.row_id,))
    amend_day(session, site_of(session), day, more)
    assert len(store.spend_ids(session, day)) == 2
    assert store.day_photo_ids(session, day) == (photo.row_id,)


def test_a_day_of_another_build_is_not_found(session, east):
    other = builders.a_build(session, "Shed")
    row = builders.kept(session, Workday(build_id=other.row_id, day=SATURDAY, logged_at=builders.AT))
    with pytest.raises(NotFound):
        amend_day(session, site_of(session), row.row_id, a_day(own=60))
