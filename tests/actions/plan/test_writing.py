"""Builds, phases and tasks written down, changed and put in another order."""

from dataclasses import replace

import pytest

from tests import builders
from webapp.plan import actions, store
from webapp.plan.actions import NewBuild, PlannedTask, TypedNeed
from webapp.values.errors import NotFound

DUCT = PlannedTask("Extractor duct", "ducting", low_min=60, likely_min=90, high_min=240)


@pytest.fixture
def build(session):
    return builders.a_build(session)


def titles(session, phase):
    return [task.title for task in store.list_phase_tasks(session, phase.row_id)]


def test_several_builds_get_addresses_of_their_own(session):
    slugs = [actions.add_build(session, NewBuild(name)).slug for name in ("Café", "Cafe", "***", "###")]
    assert slugs == ["cafe", "cafe-2", "build", "build-2"]


def test_a_new_build_is_empty(session):
    made = actions.add_build(session, NewBuild("Bindery", length_unit="mm", currency="EUR"))
    assert store.list_phases(session, made.row_id) == ()
    assert (made.length_unit, made.currency) == ("mm", "EUR")


def test_phases_stand_in_the_order_they_are_moved_to(session, build):
    one, two, three = (actions.add_phase(session, build.row_id, title) for title in ("One", "Two", "Three"))
    actions.order_phases(session, build.row_id, (one.row_id, three.row_id, two.row_id))
    assert [phase.title for phase in store.list_phases(session, build.row_id)] == ["One", "Three", "Two"]
    assert [phase.position for phase in (one, three, two)] == [1, 2, 3]


def test_positions_that_were_equal_are_put_right_by_a_move(session, build):
    made = [builders.a_phase(session, build, title, position=1) for title in ("One", "Two", "Three")]
    actions.order_phases(session, build.row_id, (made[1].row_id, made[0].row_id, made[2].row_id))
    assert [phase.title for phase in store.list_phases(session, build.row_id)] == ["Two", "One", "Three"]


def test_a_moved_task_says_what_it_now_stands_before(session, build):
    phase = actions.add_phase(session, build.row_id, "Board")
    duct = actions.add_task(session, build.row_id, phase.row_id, DUCT)
    board = actions.add_task(session, build.row_id, phase.row_id, PlannedTask("Ceiling board", "board"))
    actions.add_need(session, store.list_builds(session)[0], TypedNeed(board.row_id, duct.row_id))
    broken = actions.order_tasks(session, build.row_id, phase.row_id, (board.row_id, duct.row_id))
    assert broken == (("Ceiling board", "Extractor duct"),)
    assert titles(session, phase) == ["Ceiling board", "Extractor duct"]
    assert actions.order_tasks(session, build.row_id, phase.row_id, (duct.row_id, board.row_id)) == ()


def test_a_task_changed_to_another_phase_goes_to_its_end(session, build):
    first, second = (actions.add_phase(session, build.row_id, title) for title in ("Rough", "Board"))
    duct = actions.add_task(session, build.row_id, first.row_id, DUCT)
    actions.add_task(session, build.row_id, second.row_id, PlannedTask("Ceiling board", "board"))
    actions.edit_task(session, build.row_id, duct.row_id, replace(DUCT, title="Duct", wait_days=2), second.row_id)
    assert titles(session, first) == []
    assert titles(session, second) == ["Ceiling board", "Duct"]
    assert duct.wait_days == 2


def test_a_phase_or_task_of_another_build_is_not_there(session, build):
    other = builders.a_build(session, "Shed")
    phase = builders.a_phase(session, other)
    with pytest.raises(NotFound):
        actions.add_task(session, build.row_id, phase.row_id, DUCT)
    with pytest.raises(NotFound):
        actions.edit_phase(session, build.row_id, phase.row_id, "Mine", "")
