"""Hours and estimates as a tired builder types them."""

import pytest

from webapp.values.duration import field_hours, parse_hours, show_minutes
from webapp.values.errors import BadInput
from webapp.values.estimate import Estimate


@pytest.mark.parametrize(
    ("typed", "minutes"),
    [
        ("2½", 150),
        ("2.5", 150),
        ("2,5", 150),
        ("2 1/2 h", 150),
        ("2-1/2 hours", 150),
        ("2:30", 150),
        ("2 h 30", 150),
        ("2h30m", 150),
        ("2 hrs 30 min", 150),
        ("150 min", 150),
        ("45 min", 45),
        ("45m", 45),
        ("¾", 45),
        ("0:05", 5),
        ("0", 0),
        ("24", 1440),
        ("1.33", 80),
    ],
)
def test_hours_are_read_as_builders_write_them(typed, minutes):
    assert parse_hours(typed) == minutes


@pytest.mark.parametrize("typed", ["", "long", "-2", "2:3", "2:300", "2..5", "1/0", "1e1", ":30", "9" * 70])
def test_what_is_no_duration_is_answered_with_an_example(typed):
    with pytest.raises(BadInput, match=r"^Write hours such as 2\.5 or 2:30, or minutes such as 45 min\.$"):
        parse_hours(typed)


@pytest.mark.parametrize("typed", ["1:75", "2 h 90", "2h60m"])
def test_sixty_minutes_beside_hours_are_refused(typed):
    with pytest.raises(BadInput, match="An hour has 60 minutes"):
        parse_hours(typed)


def test_more_than_a_day_in_one_entry_is_refused_and_minutes_are_offered():
    with pytest.raises(BadInput, match=r"more than 24 h.*Did you mean 90 minutes") as caught:
        parse_hours("90")
    assert caught.value.likely == ("90 min",)
    with pytest.raises(BadInput, match="more than 24 h") as caught:
        parse_hours("24:01")
    assert caught.value.likely == ()


def test_the_most_one_entry_can_hold_is_the_callers_choice():
    assert parse_hours("90", most_minutes=100 * 60) == 5400
    with pytest.raises(BadInput, match=r"more than 1½ h"):
        parse_hours("2", most_minutes=90)


@pytest.mark.parametrize(
    ("minutes", "shown", "field"),
    [
        (0, "0 min", "0"),
        (25, "25 min", "0:25"),
        (30, "30 min", "0.5"),
        (60, "1 h", "1"),
        (75, "1¼ h", "1.25"),
        (100, "1 h 40 min", "1:40"),
        (120, "2 h", "2"),
        (150, "2½ h", "2.5"),
        (1125, "18¾ h", "18.75"),
        (61, "1 h 1 min", "1:01"),
    ],
)
def test_minutes_are_shown_as_hours_and_edited_as_typed(minutes, shown, field):
    assert show_minutes(minutes) == shown
    assert field_hours(minutes) == field


def test_a_difference_of_hours_can_be_negative():
    assert show_minutes(-150) == "−2½ h"


@pytest.mark.parametrize(
    ("guesses", "shown"),
    [
        ((240, 360, 540), "4 to 9 h, likely 6 h"),
        ((20, 30, 45), "20 to 45 min, likely 30 min"),
        ((45, 75, 120), "45 min to 2 h, likely 1¼ h"),
        ((100, 120, 130), "1 h 40 min to 2 h 10 min, likely 2 h"),
        ((40, 60, 70), "40 min to 1 h 10 min, likely 1 h"),
        ((60, 60, 60), "1 h"),
    ],
)
def test_an_estimate_is_shown_as_a_range_with_the_likely_guess(guesses, shown):
    assert Estimate.of(*guesses).show() == shown


@pytest.mark.parametrize(
    ("guesses", "sentence"),
    [
        ((360, 240, 540), "The low guess (6 h) is more than the likely one (4 h)."),
        ((240, 540, 360), "The high guess (6 h) is less than the likely one (9 h)."),
        ((-1, 0, 1), "A guess of hours cannot be less than nothing."),
    ],
)
def test_guesses_out_of_order_are_named(guesses, sentence):
    with pytest.raises(BadInput) as caught:
        Estimate.of(*guesses)
    assert caught.value.sentence == sentence
