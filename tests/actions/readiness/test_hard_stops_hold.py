"""What might slip past "Do not cover": stops that come later, are of the whole building, or were let go elsewhere."""

from datetime import date

import pytest

from tests import builders
from tests.eastwall import a_photo
from webapp.readiness.rules import keys
from webapp.readiness.store import let_go
from webapp.surfaces.models import Lifted

SATURDAY = date(2026, 5, 16)


@pytest.fixture
def settled(session, wall):
    """Nothing is owed on the east wall."""
    wall.correction.state, wall.correction.cleared_on = "cleared", date(2026, 5, 15)
    wall.shot.state, wall.shot.filmed_on = "filmed", date(2026, 5, 15)
    for slot in wall.slots[5:]:
        slot.photo_id = a_photo(session, 100 + slot.number).row_id
    return wall


def a_word(session, surface, key: str, on: date = date(2026, 5, 14), by: str = "authority") -> Lifted:
    return builders.kept(
        session,
        Lifted(
            surface_id=surface.row_id,
            node_key=key,
            what="it",
            by=by,
            who="the inspector",
            why="Seen from the street",
            on_day=on,
            at=builders.AT,
        ),
    )


def test_word_on_one_wall_does_not_free_another_of_a_whole_building_inspection(session, here, settled, owed):
    north = builders.a_surface(session, here, "N", "North wall", position=2)
    whole = builders.an_inspection(session, settled.permit, "Shell", position=9)
    assert "Shell" in owed(settled.surface) and "Shell" in owed(north)
    a_word(session, north, keys.inspection(whole.row_id, None))
    assert "Shell" not in owed(north)
    assert "Shell" in owed(settled.surface)


def test_a_failure_after_the_authoritys_word_stops_again(session, settled, owed):
    a_word(session, settled.surface, keys.inspection(settled.electrical.row_id, settled.surface.row_id))
    visit = builders.a_visit(session, settled.electrical, date(2026, 5, 15))
    builders.a_result(session, visit, settled.surface, "failed")
    assert "Rough electrical, E" in owed(settled.surface)


def test_small_items_on_the_whole_building_stop_every_wall(session, here, settled, owed):
    whole = builders.an_inspection(session, settled.permit, "Shell", position=9)
    visit = builders.a_visit(session, whole)
    said = builders.a_result(session, visit, None, "passed, small items on my honour")
    builders.a_correction(session, visit, said, words="Strap the header", clears_by="own word")
    assert "Strap the header" in owed(settled.surface)


def test_put_right_but_not_seen_again_stops_though_its_inspection_holds_nothing(session, settled, owed):
    kind = builders.an_inspection(session, settled.permit, "Wrap", (settled.surface,), position=9, holds_cover=False)
    visit = builders.a_visit(session, kind)
    said = builders.a_result(session, visit, settled.surface, "failed")
    builders.a_correction(session, visit, said, words="Flash the sill", clears_by="re-visit", state="done, to be seen")
    assert owed(settled.surface)


def test_result_of_a_day_to_come_frees_nothing(session, settled, owed):
    visit = builders.a_visit(session, settled.electrical, date(2026, 5, 20))
    settled.passed.state = "withdrawn"
    builders.a_result(session, visit, settled.surface, "passed")
    assert owed(settled.surface)


def test_failed_the_same_day_as_passed(session, settled, owed):
    visit = builders.a_visit(session, settled.electrical, date(2026, 5, 7))
    builders.a_result(session, visit, settled.surface, "failed", recorded_at=builders.AT.replace(hour=10))
    assert owed(settled.surface)


def test_word_on_a_correction_of_the_whole_building_frees_one_wall(session, here, settled, owed):
    north = builders.a_surface(session, here, "N", "North wall", position=2)
    whole = builders.an_inspection(session, settled.permit, "Shell", position=9)
    visit = builders.a_visit(session, whole)
    said = builders.a_result(session, visit, None, "passed, small items on my honour")
    one = builders.a_correction(session, visit, said, words="Strap the header", clears_by="own word")
    a_word(session, north, keys.correction(one.row_id))
    assert "Strap the header" not in owed(north)
    assert "Strap the header" in owed(settled.surface)


def test_word_after_a_failure_stands_and_one_wall_each_is_listed(session, here, settled, owed, site):
    north = builders.a_surface(session, here, "N", "North wall", position=2)
    whole = builders.an_inspection(session, settled.permit, "Shell", position=9)
    builders.a_result(session, builders.a_visit(session, whole, date(2026, 5, 7)), None, "failed")
    for surface in (north, settled.surface):
        a_word(session, surface, keys.inspection(whole.row_id, None))
    assert owed(settled.surface) == []
    assert [len(let_go(site(), surface.row_id)) for surface in (north, settled.surface)] == [1, 1]
    builders.a_result(session, builders.a_visit(session, whole, date(2026, 5, 15)), None, "failed")
    assert owed(settled.surface) == ["Shell"]


def test_a_task_that_closes_two_walls_waits_until_the_word_was_said_of_both(session, here, settled, site):
    north = builders.a_surface(session, here, "N", "North wall", position=2)
    builders.works_on(session, settled.board, north, closes=True)
    whole = builders.an_inspection(session, settled.permit, "Shell", position=9)
    a_word(session, settled.surface, keys.inspection(whole.row_id, None))
    assert not site().network.can_start(keys.task(settled.board.row_id))
    a_word(session, north, keys.inspection(whole.row_id, None))
    assert site().network.can_start(keys.task(settled.board.row_id))
