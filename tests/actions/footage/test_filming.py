"""Shots: filmed, put right, skipped with a reason, owed again."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from webapp.footage import actions, store
from webapp.footage.actions import ShotDraft
from webapp.footage.models import ShotChange
from webapp.values.errors import BadInput, NotFound

MAY_9 = date(2026, 5, 9)


@pytest.fixture
def build(session):
    return builders.a_build(session)


def facts(session, build, shot):
    return store.get_shot(session, build.row_id, shot.row_id)


def test_what_is_filmed_knows_its_day_its_card_and_its_files(session, build):
    shot = builders.a_shot(session, build)
    actions.film(session, shot.row_id, MAY_9, " card 6 ", "B071")
    known = facts(session, build, shot)
    assert (known.state, known.filmed_on, known.where_it_lies, known.files) == ("filmed", MAY_9, "card 6", "B071")


def test_a_day_put_right_keeps_the_one_before(session, build):
    shot = builders.a_shot(session, build)
    actions.film(session, shot.row_id, MAY_9, "card 6")
    actions.film(session, shot.row_id, date(2026, 5, 8), "drive B")
    changes = {change.field: (change.was, change.became) for change in session.exec(select(ShotChange))}
    assert changes["filmed_on"] == ("2026-05-09", "2026-05-08")
    assert changes["where_it_lies"] == ("card 6", "drive B")


def test_filming_it_twice_the_same_way_changes_nothing(session, build):
    shot = builders.a_shot(session, build, state="filmed", filmed_on=MAY_9, where_it_lies="card 6")
    actions.film(session, shot.row_id, MAY_9, "card 6")
    assert session.exec(select(ShotChange)).all() == []


def test_a_wish_is_skipped_with_a_reason_that_stays(session, build):
    shot = builders.a_shot(session, build, strength="wish")
    with pytest.raises(BadInput, match="stays on record for ever"):
        actions.skip_shot(session, shot.row_id, MAY_9, "  ")
    actions.skip_shot(session, shot.row_id, MAY_9, "no camera")
    assert facts(session, build, shot).skipped_why == "no camera"


def test_what_must_be_filmed_is_not_skipped_here(session, build):
    shot = builders.a_shot(session, build, strength="must")
    with pytest.raises(BadInput, match="under Before cover"):
        actions.skip_shot(session, shot.row_id, MAY_9, "no camera")
    assert facts(session, build, shot).state == "owed"


def test_a_lost_file_owes_it_again_and_says_what_was_there(session, build):
    shot = builders.a_shot(session, build)
    actions.film(session, shot.row_id, MAY_9, "card 6")
    actions.not_filmed(session, shot.row_id, "the card is broken")
    assert facts(session, build, shot).state == "owed"
    change = session.exec(select(ShotChange).where(ShotChange.field == "state", ShotChange.became != "filmed")).one()
    assert change.was == "filmed 2026-05-09, card 6"
    assert "the card is broken" in change.became


def test_a_shot_stands_with_its_task_in_the_order_of_the_plan(session, build):
    phase = builders.a_phase(session, build)
    late, soon = builders.a_task(session, phase, "Paint", 2), builders.a_task(session, phase, "Board", 1)
    for task in (late, None, soon):
        builders.a_shot(session, build, task)
    assert [shot.task for shot in store.list_shots(session, build.row_id)] == ["Board", "Paint", None]


def test_a_task_of_another_build_takes_no_shot(session, build):
    other = builders.a_build(session, "Boathouse")
    task = builders.a_task(session, builders.a_phase(session, other))
    draft = ShotDraft("Whole wall", task.row_id, once=True, strength="must", note="")
    with pytest.raises(NotFound):
        actions.add_shot(session, build.row_id, draft)
