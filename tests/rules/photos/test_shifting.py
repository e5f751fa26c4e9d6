"""A clock put right, by hand: what becomes of a capture time, what has none to shift, how a shift is said."""

import pytest

from webapp.photos.rules.shifting import minutes_between, read_said_taken, said_taken, shifted, show_shift


@pytest.mark.parametrize(
    ("taken", "minutes", "becomes"),
    [
        ("2026-05-16T17:48:30", 60, "2026-05-16T18:48:30"),
        ("2026-05-16T00:20:00", -60, "2026-05-15T23:20:00"),
        ("2026-02-28T23:30:00", 60, "2026-03-01T00:30:00"),
        ("2024-02-28T12:00:00", 24 * 60, "2024-02-29T12:00:00"),
        ("2025-05-16T17:48:00", 365 * 24 * 60, "2026-05-16T17:48:00"),
    ],
)
def test_a_time_moves_by_so_many_minutes_over_days_and_leap_days(taken, minutes, becomes):
    assert shifted(taken, "camera", minutes) == becomes
    assert shifted(becomes, "owner", -minutes) == taken, "and back"


def test_what_has_no_time_has_none_afterwards_and_a_day_moves_by_whole_days_alone():
    assert shifted(None, "unknown", 60) is None
    assert shifted("2026-05-16T00:00:00", "owner", 60) is None
    assert shifted("2026-05-16T00:00:00", "owner", -1440) == "2026-05-15T00:00:00"
    assert shifted("2026-05-16T00:00:00", "camera", 60) == "2026-05-16T01:00:00", "a camera at midnight said the time"


def test_one_picture_tells_by_how_much_and_its_seconds_are_not_asked_for():
    assert minutes_between("2026-05-16T17:48:59", "2026-05-16T18:48:00") == 60
    assert minutes_between("2026-05-16T17:48:00", "2026-05-15T17:18:00") == -1470


def test_a_shift_is_said_in_days_hours_and_minutes():
    said = [show_shift(minutes) for minutes in (60, -1470, 2 * 1440, 1440 + 125, -5)]
    assert said == ["1 h later", "1 day 30 min earlier", "2 days later", "1 day 2 h 5 min later", "5 min earlier"]


@pytest.mark.parametrize(("taken", "source"), [("2026-05-16T17:48:00", "camera"), (None, "unknown")])
def test_what_the_history_says_can_be_read_back(taken, source):
    assert read_said_taken(said_taken(taken, source)) == (taken, source)
