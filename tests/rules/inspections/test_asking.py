"""What is odd about a visit as booked; days worked by hand over a weekend, as for a permit about to lapse:
notice of two working days, asked for by 15:30; a visit on Friday 10 July 2026 is asked for by Wednesday 8 July.
"""

from datetime import date

import pytest

from webapp.inspections.rules.asking import Asking, odd, window_hours
from webapp.values.dates import add_working_days
from webapp.values.errors import BadInput

WEDNESDAY, FRIDAY, SATURDAY, MONDAY = date(2026, 7, 8), date(2026, 7, 10), date(2026, 7, 11), date(2026, 7, 13)


def asking(**more: object) -> Asking:
    values = {
        "permit": "BLD",
        "issued_on": date(2026, 1, 5),
        "comes_on": lambda day: day.weekday() < 5,
        "ask_by": lambda day: add_working_days(day, -2, frozenset()),
        "ask_hour": "15:30",
    }
    return Asking(**(values | more))


def told(day: date | None, asked_on: date | None = None, window: str = "", today: date = WEDNESDAY, **more) -> dict:
    return odd(day, asked_on, window_hours(window), asking(**more), today)


def test_nothing_is_odd_about_a_visit_asked_for_in_time():
    assert told(FRIDAY, WEDNESDAY, "09:00 to 12:00") == {}
    assert told(FRIDAY) == {}, "it can still be asked for today"


def test_the_day_after_the_last_for_asking_is_told_with_day_and_hour():
    assert told(FRIDAY, today=date(2026, 7, 9)) == {"day": "It had to be asked for by Wed 8 Jul 15:30. That is past."}
    late = told(FRIDAY, date(2026, 7, 9), today=date(2026, 7, 9))
    assert late == {"day": "It had to be asked for by Wed 8 Jul 15:30; you asked on Thu 9 Jul."}


def test_two_working_days_before_a_monday_are_the_thursday():
    assert told(MONDAY, date(2026, 7, 9), today=date(2026, 7, 9)) == {}
    assert "by Thu 9 Jul 15:30" in told(MONDAY, FRIDAY, today=FRIDAY)["day"]


def test_a_day_on_which_nobody_comes_is_told():
    assert "Saturday 11 July 2026 is no day on which the office visits." in told(SATURDAY, WEDNESDAY)["day"]
    only_tuesdays = told(FRIDAY, WEDNESDAY, comes_on=lambda day: day.weekday() == 1, office="Building office")
    assert only_tuesdays == {"day": "Friday 10 July 2026 is no day on which Building office visits."}


def test_a_visit_or_an_asking_before_the_permit_is_told():
    assert told(FRIDAY, issued_on=None) == {"day": "BLD is not issued yet."}
    early = told(FRIDAY, WEDNESDAY, issued_on=date(2026, 8, 1))
    assert set(early) == {"day", "asked_on"}
    assert "is before BLD was issued (1 August 2026)." in early["day"]


def test_a_year_off_is_told():
    assert "10 July 2028 is more than a year off." in told(date(2028, 7, 10))["day"]


def test_hours_outside_those_of_the_office_are_told():
    hours = {"from_time": "09:00", "until_time": "15:00"}
    assert told(FRIDAY, WEDNESDAY, "08:00 to 12:00", **hours) == {"window": "The office visits from 09:00 to 15:00."}
    assert told(FRIDAY, WEDNESDAY, "9:00 to 15:00", **hours) == {}
    assert told(FRIDAY, WEDNESDAY, "in the morning", **hours) == {}


@pytest.mark.parametrize("typed", ["12:00 to 09:00", "09:00 to 09:00", "25:00 to 26:00", "09:60 to 10:00"])
def test_hours_that_cannot_be_meant_are_refused(typed):
    with pytest.raises(BadInput):
        window_hours(typed)
