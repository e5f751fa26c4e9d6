"""A day is put on record wholly or not at all, and says what it freed."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.actions.workdays.conftest import SATURDAY, a_day, a_photo, site_of
from webapp.footage.models import Shot
from webapp.money.models import Spend
from webapp.plan.models import Task
from webapp.surfaces.models import PicturePlace, PictureSlot
from webapp.values.errors import RuleBroken
from webapp.workdays import store
from webapp.workdays.actions import log_day
from webapp.workdays.models import Workday, WorkdayPhoto, WorkEntry
from webapp.workdays.rules.hours import Hours
from webapp.workdays.rules.said import Bought, Place, Work


def test_the_task_worked_on_is_under_way_from_that_day(session, east):
    log_day(session, site_of(session), a_day(date(2026, 5, 14), work=(Work(east.wiring.row_id, 90),)))
    task = session.get(Task, east.wiring.row_id)
    assert (task.state, task.started_on) == ("under way", date(2026, 5, 14))
    assert session.exec(select(WorkEntry)).one().minutes == 90


def test_a_late_note_moves_the_day_a_task_was_begun(session, east):
    log_day(session, site_of(session), a_day(work=(Work(east.wiring.row_id),)))
    log_day(session, site_of(session), a_day(date(2026, 5, 9), work=(Work(east.wiring.row_id),)))
    assert session.get(Task, east.wiring.row_id).started_on == date(2026, 5, 9)


def test_finishing_the_wiring_frees_the_board(session, east):
    logged = log_day(session, site_of(session), a_day(work=(Work(east.wiring.row_id, finished=True),)))
    assert f"task:{east.board.row_id}" in logged.freed
    assert session.get(Task, east.wiring.row_id).done_on == SATURDAY


def test_a_day_without_a_finished_task_frees_nothing(session, east):
    assert log_day(session, site_of(session), a_day(work=(Work(east.wiring.row_id),))).freed == ()


def test_a_wall_that_may_not_be_covered_refuses_the_board_with_every_reason(session, build, east):
    builders.a_slot(session, east.surface, 1)
    builders.a_slot(session, east.surface, 2, position=2, what="Vent pipe")
    with pytest.raises(RuleBroken) as refused:
        log_day(session, site_of(session), a_day(own=60, work=(Work(east.board.row_id, finished=True),)))
    told = refused.value.verdict.reasons
    assert len(told) >= 2
    assert all(f"Stops “{east.board.title}”." in reason.detail for reason in told)
    assert all(reason.href for reason in told)


def test_a_refused_day_leaves_nothing_of_itself(session, build, east):
    builders.a_slot(session, east.surface, 1)
    form = a_day(
        own=60,
        work=(Work(east.wiring.row_id, finished=True), Work(east.board.row_id, finished=True)),
        bought=(Bought("Screws", 995),),
    )
    with pytest.raises(RuleBroken):
        log_day(session, site_of(session), form)
    assert session.exec(select(Workday)).all() == []
    assert session.exec(select(Spend)).all() == []
    assert session.get(Task, east.wiring.row_id).state == "not started"


def test_the_same_day_is_saved_with_the_board_as_worked_on(session, build, east):
    builders.a_slot(session, east.surface, 1)
    form = a_day(own=60, work=(Work(east.board.row_id, finished=True),), as_worked=True)
    logged = log_day(session, site_of(session), form)
    assert logged.held_back == ("Hang the board on E",)
    assert session.get(Task, east.board.row_id).state == "under way"
    assert not session.exec(select(WorkEntry)).one().finished


def test_the_last_picture_and_the_closing_may_come_on_one_day(session, east):
    """The gate is asked last, when the pictures of the day are in."""
    slot = builders.a_slot(session, east.surface, 1)
    photo = a_photo(session, taken_at="2026-05-16T09:00:00", taken_from="camera")
    form = a_day(
        work=(Work(east.wiring.row_id, finished=True), Work(east.board.row_id, finished=True)),
        photo_ids=(photo.row_id,),
        place=Place(east.surface.row_id, slot_id=slot.row_id),
    )
    log_day(session, site_of(session), form)
    assert session.get(Task, east.board.row_id).state == "done"
    assert site_of(session).record.surface[east.surface.row_id].covered_on == SATURDAY


def test_only_the_first_picture_fills_the_owed_one_and_all_are_placed(session, east):
    slot = builders.a_slot(session, east.surface, 1)
    photos = [a_photo(session) for _ in range(3)]
    ids = tuple(photo.row_id for photo in photos)
    place = Place(east.surface.row_id, slot_id=slot.row_id)
    log_day(session, site_of(session), a_day(photo_ids=ids, place=place))
    assert session.get(PictureSlot, slot.row_id).photo_id == ids[0]
    assert {row.photo_id for row in session.exec(select(PicturePlace)).all()} == set(ids)


def test_a_picture_named_twice_counts_once(session, east):
    photo = a_photo(session).row_id
    log_day(session, site_of(session), a_day(photo_ids=(photo, photo)))
    assert len(session.exec(select(WorkdayPhoto)).all()) == 1


def test_a_helper_day_keeps_its_hours_apart_and_costs_only_what_was_paid(session, east):
    """Scenario of a Saturday: I 7 h, two friends 4.5 h each unpaid, one paid 80 for 4.5 h."""
    form = a_day(hours=Hours(own=420, unpaid=540, paid=270), bought=(Bought("Paid helper", 8_000, kind="paid labour"),))
    logged = log_day(session, site_of(session), form)
    day = session.get(Workday, logged.workday_id)
    assert (day.own_min, day.helper_unpaid_min, day.helper_paid_min, day.hired_min) == (420, 540, 270, 0)
    assert [line.total_cents for line in session.exec(select(Spend)).all()] == [8_000]


def test_spend_carries_the_receipt_and_the_day_it_was_spent(session, east):
    receipt = a_photo(session)
    bought = Bought("Screws", 995, "The yard", receipt_photo_id=receipt.row_id)
    log_day(session, site_of(session), a_day(date(2026, 5, 9), bought=(bought,)))
    line = session.exec(select(Spend)).one()
    assert (line.day, line.supplier, line.receipt_photo_id) == (date(2026, 5, 9), "The yard", receipt.row_id)


def test_a_shot_filmed_that_day_is_not_owed_any_more(session, build, east):
    shot = builders.a_shot(session, build, east.board)
    form = a_day(shot_ids=(shot.row_id,), files_lie="Card 3")
    logged = log_day(session, site_of(session), form)
    row = session.get(Shot, shot.row_id)
    assert (row.state, row.filmed_on, row.where_it_lies) == ("filmed", SATURDAY, "Card 3")
    assert store.shot_ids(session, logged.workday_id) == (shot.row_id,)


def test_a_task_ticked_as_done_before_its_day_is_written_stays_done(session, east):
    east.wiring.state, east.wiring.started_on, east.wiring.done_on = "done", SATURDAY, SATURDAY
    session.add(east.wiring)
    log_day(session, site_of(session), a_day(work=(Work(east.wiring.row_id, 60, finished=True),)))
    assert session.exec(select(WorkEntry)).one().finished
    assert session.get(Task, east.wiring.row_id).done_on == SATURDAY
