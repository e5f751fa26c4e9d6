"""When an owed picture counts as taken."""

from datetime import date

import pytest

from webapp.surfaces.rules.owed import SlotState, slot_state, taken_day


def test_nothing_in_the_slot_is_owed():
    assert slot_state(filled=False, taken_at=None) is SlotState.OWED


def test_a_picture_of_unknown_date_does_not_settle_it():
    assert slot_state(filled=True, taken_at=None) is SlotState.DATE_UNKNOWN


def test_a_dated_picture_of_the_open_surface_settles_it():
    assert slot_state(filled=True, taken_at="2026-05-09T17:48:00") is SlotState.FILLED


@pytest.mark.parametrize(
    ("taken_at", "state"),
    [
        ("2026-02-21T23:59:59", SlotState.FILLED),
        ("2026-02-22T08:00:00", SlotState.FILLED),
        ("2026-02-23T00:00:00", SlotState.TAKEN_TOO_LATE),
    ],
)
def test_a_picture_of_a_later_day_than_the_closing_shows_nothing_of_before(taken_at, state):
    assert slot_state(filled=True, taken_at=taken_at, covered_on=date(2026, 2, 22)) is state


def test_the_day_of_a_capture_time_is_its_local_day():
    assert taken_day("2026-05-09T23:59:00") == date(2026, 5, 9)
    assert taken_day(None) is None
