"""Surfaces, hidden things, owed pictures and counts: put right without losing what was said."""

from dataclasses import replace
from datetime import date

import pytest

from tests import builders
from webapp.plan.store import get_build, task_history
from webapp.surfaces import actions, store
from webapp.surfaces.actions import ItemDraft, SurfaceDraft
from webapp.values.errors import BadInput, NotFound
from webapp.values.length import NM_PER_INCH as INCH

WALL = SurfaceDraft(
    "East wall", "wall", 161 * INCH, 108 * INCH, "NE", "SE", "2x4", 16 * INCH, None, False, "E", "board", "", True
)
BOX = ItemDraft("Receptacle", "receptacle", "electric", None, "NE", 14 * INCH, 16 * INCH, None, "", is_box=True)


@pytest.fixture
def build(session):
    return builders.a_build(session)


@pytest.fixture
def east(session, build):
    return actions.add_surface(session, build.row_id, "E", WALL)


def test_surfaces_stand_in_the_order_they_were_walked(session, build, east):
    for code in "SWN":
        actions.add_surface(session, build.row_id, code, replace(WALL, name=f"{code} wall"))
    assert [surface.code for surface in store.list_surfaces(session, build.row_id)] == ["E", "S", "W", "N"]


def test_two_surfaces_of_one_build_do_not_share_a_short_name(session, build, east):
    with pytest.raises(BadInput, match="“e” is the short name of another surface"):
        actions.add_surface(session, build.row_id, "e", WALL)
    other = builders.a_build(session, "Boathouse")
    assert actions.add_surface(session, other.row_id, "E", WALL).id


def test_a_measure_put_right_keeps_the_one_before(session, build, east):
    actions.edit_surface(session, build.row_id, east.row_id, replace(WALL, length_nm=162 * INCH))
    change = store.list_changes(session, build.row_id)[0]
    assert (change.field, change.was, change.became) == ("length_nm", str(161 * INCH), str(162 * INCH))
    assert store.get_surface(session, build.row_id, "E").length_nm == 162 * INCH


def test_a_thing_that_was_moved_stays_where_it_was_marked_with_the_day(session, build, east):
    old = actions.add_item(session, build.row_id, east.row_id, BOX)
    new = actions.move_item(session, build.row_id, old.row_id, replace(BOX, x_nm=30 * INCH), date(2026, 5, 16))
    items = {item.id: item for item in store.list_items(session, build.row_id)}
    assert (items[old.row_id].x_nm, items[old.row_id].replaced_on) == (14 * INCH, date(2026, 5, 16))
    assert (items[new.row_id].x_nm, items[new.row_id].replaced_on) == (30 * INCH, None)


def test_owed_pictures_are_numbered_on(session, build, east):
    made = [actions.add_slot(session, build.row_id, east.row_id, what, "before", "must") for what in ("whole", "half")]
    assert [slot.number for slot in made] == [1, 2]


def test_a_count_that_changes_keeps_the_first_one_and_its_reason(session, build, east):
    actions.count_boxes(session, east.row_id, before=7)
    actions.count_boxes(session, east.row_id, before=8, after=7, why="one behind the panel was missed")
    surface = store.get_surface(session, build.row_id, "E")
    assert (surface.boxes_before, surface.boxes_after) == (8, 7)
    change = store.list_changes(session, build.row_id)[0]
    assert (change.was, change.became, change.why) == ("7", "8", "one behind the panel was missed")


def test_a_task_works_on_one_surface_and_closes_another(session, build, east):
    south = actions.add_surface(session, build.row_id, "S", replace(WALL, name="South wall"))
    task = builders.a_task(session, builders.a_phase(session, build))
    chosen = {east.row_id: True, south.row_id: False}
    actions.set_task_surfaces(session, get_build(session, build.slug), task.row_id, chosen)
    links = store.list_task_surfaces(session, build.row_id)
    assert {(link.surface_id, link.closes) for link in links} == {(east.id, True), (south.id, False)}
    actions.set_task_surfaces(session, get_build(session, build.slug), task.row_id, {south.row_id: True})
    links = store.list_task_surfaces(session, build.row_id)
    assert [(link.surface_id, link.closes) for link in links] == [(south.id, True)]
    history = [(line.was, line.became) for line in task_history(session, task.row_id)]
    both = "closes East wall, works on South wall"
    assert sorted(history) == [(both, "closes South wall"), ("no surface", both)]


def test_a_shot_is_taken_of_its_surfaces(session, build, east):
    shot = builders.a_shot(session, build)
    for _ in range(2):
        actions.set_shot_surfaces(session, build.row_id, shot.row_id, [east.row_id])
    assert [link.surface_id for link in store.list_shot_surfaces(session, build.row_id)] == [east.id]
    actions.set_shot_surfaces(session, build.row_id, shot.row_id, [])
    assert store.list_shot_surfaces(session, build.row_id) == ()


def test_another_build_s_surface_is_not_there(session, build, east):
    other = builders.a_build(session, "Boathouse")
    with pytest.raises(NotFound):
        actions.add_item(session, other.row_id, east.row_id, BOX)
    with pytest.raises(NotFound):
        actions.add_slot(session, other.row_id, east.row_id, "whole", "before", "must")
