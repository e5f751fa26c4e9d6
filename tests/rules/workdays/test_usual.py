"""What is usual: hours of days like this one, a lost day's own words, lost days counted by their reason."""

from datetime import date, timedelta

from webapp.workdays.rules.said import STOPS
from webapp.workdays.rules.usual import by_reason, own_reasons, reason_of, usual_minutes

WEDNESDAY, SATURDAY = date(2026, 5, 13), date(2026, 5, 16)


def days(first: date, *minutes: int) -> tuple[tuple[date, int], ...]:
    """One week apart, the newest first."""
    return tuple((first - timedelta(weeks=number), one) for number, one in enumerate(minutes))


def test_an_evening_is_like_other_evenings_and_a_saturday_like_other_saturdays():
    listed = (*days(WEDNESDAY, 150, 120, 150), *days(SATURDAY, 420, 360))
    assert usual_minutes(listed, WEDNESDAY) == (150, 120)
    assert usual_minutes(listed, SATURDAY) == (420, 360)


def test_three_are_offered_and_the_most_usual_is_the_first():
    assert usual_minutes(days(WEDNESDAY, 60, 90, 120, 120, 150), WEDNESDAY) == (120, 60, 90)


def test_without_a_day_of_this_sort_the_others_speak_for_it():
    assert usual_minutes(days(WEDNESDAY, 150), SATURDAY) == (150,)
    assert usual_minutes((), SATURDAY) == ()


def test_what_was_usual_long_ago_is_forgotten():
    assert usual_minutes(days(WEDNESDAY, *[120] * 12, *[60] * 30), WEDNESDAY) == (120,)


def test_a_lost_day_is_counted_by_what_took_it_whatever_words_follow():
    assert by_reason(["Rain: all day", "rain", "Ill", "Snow: roads closed", "RAIN: again"]) == (
        ("Rain", 3),
        ("Ill", 1),
        ("Snow", 1),
    )
    assert reason_of("") == "No reason noted"


def test_own_words_are_offered_again_and_long_ones_are_not():
    said = ["Snow: roads closed", "Rain", "a wedding", "Nobody could say when the truck would come at all", "snow", ""]
    assert own_reasons(said, STOPS) == ("Snow", "A wedding")
