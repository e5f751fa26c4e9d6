"""Hours as they are typed on site, and how long lies between two."""

from datetime import date

import pytest

from webapp.linetests.rules.hours import minutes_between, parse_hour, show_span
from webapp.values.errors import BadInput

FRIDAY, SATURDAY = date(2026, 5, 15), date(2026, 5, 16)


@pytest.mark.parametrize(
    ("text", "hour"),
    [
        ("18:40", "18:40"),
        ("1840", "18:40"),
        ("6.40 pm", "18:40"),
        ("6:40pm", "18:40"),
        ("12:05 am", "00:05"),
        ("9", "09:00"),
    ],
)
def test_an_hour_is_read(text, hour):
    assert parse_hour(text) == hour


@pytest.mark.parametrize("text", ["25:00", "18:75", "13 pm", "soon", "0:30 pm", "-3"])
def test_what_is_no_hour_is_refused_with_a_sentence(text):
    with pytest.raises(BadInput):
        parse_hour(text)


@pytest.mark.parametrize(
    ("start", "end_day", "end", "minutes"),
    [("18:40", FRIDAY, "19:55", 75), ("22:00", SATURDAY, "06:30", 510), ("10:00", SATURDAY, "10:00", 1440)],
)
def test_the_length_is_worked_out_over_midnight_too(start, end_day, end, minutes):
    assert minutes_between(FRIDAY, start, end_day, end) == minutes


def test_an_end_before_the_beginning_is_negative():
    assert minutes_between(FRIDAY, "18:40", FRIDAY, "06:30") < 0


def test_lengths_are_said_in_hours_and_minutes():
    assert [show_span(one) for one in (0, 45, 60, 75, 510)] == ["0 min", "45 min", "1 h", "1 h 15 min", "8 h 30 min"]
