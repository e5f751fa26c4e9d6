"""Days as typed on site, shown on sheets and counted by a permit's clock."""

from datetime import date, datetime, timedelta

import pytest

from webapp.values.dates import (
    add_working_days,
    days_between,
    in_days,
    lapse_day,
    parse_day,
    question_year,
    show_date,
    show_day,
    show_long_day,
    show_moment,
)
from webapp.values.errors import BadInput
from webapp.values.own_words import spoken

TODAY = date(2026, 5, 16)
NINTH = date(2026, 5, 9)


@pytest.mark.parametrize(
    "typed",
    [
        "2026-05-09",
        "2026-5-9",
        "2026/05/09",
        "9 May 2026",
        "9 May",
        "9th may",
        "9-May-2026",
        "May 9",
        "May 9, 2026",
        "Sat 9 May",
        "Saturday, 9 May 2026",
        " 9  MAY ",
    ],
)
def test_the_ninth_of_may_in_every_way_it_is_typed(typed):
    assert parse_day(typed, TODAY) == NINTH


@pytest.mark.parametrize(
    ("typed", "day"), [("today", TODAY), ("Yesterday", date(2026, 5, 15)), ("tomorrow", date(2026, 5, 17))]
)
def test_days_around_today_have_names(typed, day):
    assert parse_day(typed, TODAY) == day


@pytest.mark.parametrize(
    ("typed", "day"),
    [("15 Nov", date(2026, 11, 15)), ("16 Nov", date(2025, 11, 16)), ("1 Jan", date(2026, 1, 1))],
)
def test_a_day_without_a_year_is_the_latest_not_more_than_183_days_ahead(typed, day):
    assert TODAY + timedelta(days=183) == date(2026, 11, 15)
    assert parse_day(typed, TODAY) == day


def test_a_day_without_a_year_in_autumn_can_lie_in_the_next_year():
    assert parse_day("9 May", date(2025, 11, 16)) == NINTH


@pytest.mark.parametrize(
    ("typed", "sentence", "likely"),
    [
        ("2026-04-31", "April has 30 days. Did you mean 30 April or 1 May 2026?", ("2026-04-30", "2026-05-01")),
        ("31 April", "April has 30 days. Did you mean 30 April or 1 May 2026?", ("2026-04-30", "2026-05-01")),
        (
            "29 Feb 2026",
            "February 2026 has 28 days. Did you mean 28 February or 1 March 2026?",
            ("2026-02-28", "2026-03-01"),
        ),
        ("2026-12-32", "December has 31 days. There is no day 32 in it.", ()),
        ("2026-13-04", "There is no month 13. Did you mean 13 April 2026?", ("2026-04-13",)),
        ("9 May 26", "Write the year with four digits, such as 2026.", ("2026-05-09",)),
        ("9/5/26", "Write the year with four digits, such as 2026-05-16.", ()),
        ("26-05-09", "Write the year with four digits, such as 2026-05-16.", ()),
        ("0202-05-09", "The year 202 lies outside 1900 to 2199. Look at its digits.", ()),
        (
            "5/9/2026",
            "Day and month can be swapped in 5/9/2026. Did you mean 9 May 2026 or 5 September 2026?",
            ("2026-05-09", "2026-09-05"),
        ),
        ("Sun 9 May", "9 May 2026 is a Saturday. Is the day right?", ("2026-05-09",)),
    ],
)
def test_a_slip_of_the_finger_is_explained_and_likely_days_are_offered(typed, sentence, likely):
    with pytest.raises(BadInput) as caught:
        parse_day(typed, TODAY)
    assert (caught.value.sentence, caught.value.likely) == (sentence, likely)


@pytest.mark.parametrize("typed", ["", "soon", "mon", "9 Ma", "9 Mai 2026", "May 2026", "2026-05", "20260509", "٩ May"])
def test_what_is_no_day_is_answered_with_todays_date_as_example(typed):
    with pytest.raises(BadInput, match=r"^Write a day such as 2026-05-16 or 16 May 2026\.$"):
        parse_day(typed, TODAY)


def test_the_29th_of_february_is_there_in_leap_years():
    assert parse_day("2028-02-29", TODAY) == date(2028, 2, 29)


def test_days_are_shown_as_long_as_the_place_needs():
    assert show_day(TODAY, TODAY) == "Sat 16 May"
    assert show_day(TODAY) == "Sat 16 May 2026"
    assert show_long_day(TODAY) == "Saturday 16 May 2026"
    assert show_date(TODAY) == "16 May 2026"
    assert show_moment(datetime(2026, 5, 16, 17, 20)) == "16 May 17:20"


def test_a_day_of_another_year_keeps_its_year_only_when_it_is_far():
    assert show_day(date(2025, 11, 17), TODAY) == "Mon 17 Nov"
    assert show_day(date(2025, 11, 16), TODAY) == "Sun 16 Nov 2025"
    assert show_day(date(2026, 12, 31), TODAY) == "Thu 31 Dec"


@pytest.mark.parametrize(
    ("days", "shown"),
    [
        (0, "today"),
        (1, "tomorrow"),
        (-1, "yesterday"),
        (3, "in 3 days"),
        (-3, "3 days ago"),
        (27, "in 27 days"),
        (28, "in 4 weeks"),
        (35, "in 5 weeks"),
        (41, "in 5 weeks"),
        (-35, "5 weeks ago"),
        (730, "in 104 weeks"),
        (731, "in 2 years"),
        (-8 * 365 - 2, "8 years ago"),
    ],
)
def test_a_distance_in_days_is_said_in_words(days, shown):
    assert in_days(TODAY + timedelta(days=days), TODAY) == shown


def test_days_between_counts_backwards_too():
    assert days_between(NINTH, TODAY) == 7
    assert days_between(TODAY, NINTH) == -7


@pytest.mark.parametrize(
    ("days", "closed", "day"),
    [
        (0, (), date(2026, 5, 16)),
        (1, (), date(2026, 5, 18)),
        (5, (), date(2026, 5, 22)),
        (6, (date(2026, 5, 25),), date(2026, 5, 26)),
        (-1, (), date(2026, 5, 15)),
        (-6, (), date(2026, 5, 8)),
    ],
)
def test_working_days_leave_out_weekends_and_days_off(days, closed, day):
    assert add_working_days(TODAY, days, frozenset(closed)) == day


def test_an_office_open_two_days_a_week_takes_longer():
    tuesday_and_thursday = frozenset({1, 3})
    assert add_working_days(TODAY, 3, frozenset(), tuesday_and_thursday) == date(2026, 5, 26)


def test_an_office_that_never_opens_is_a_mistake():
    with pytest.raises(ValueError, match="weekday"):
        add_working_days(TODAY, 1, frozenset(), frozenset())


@pytest.mark.parametrize(
    ("last", "lapses"),
    [
        (date(2025, 1, 15), date(2025, 7, 14)),
        (date(2025, 11, 30), date(2026, 5, 29)),
        (date(2026, 1, 12), date(2026, 7, 11)),
    ],
)
def test_a_permit_of_the_model_codes_180_days_stands_until_this_day(last, lapses):
    """IRC R105.5, 180 days after issue or after the last approved inspection, as town pages read it ("Do permits
    expire?"). The days themselves are counted, not printed there; the local authority decides.
    """
    assert lapse_day(last, 180) == lapses


def test_the_permit_last_approved_on_12_january_lapses_on_a_saturday():
    assert show_long_day(lapse_day(date(2026, 1, 12), 180)) == "Saturday 11 July 2026"


def zeller_weekday(day):
    """Monday as 0, by Zeller's congruence for the Gregorian calendar (Acta Mathematica 9, 1887; from memory)."""
    month, year = (day.month + 12, day.year - 1) if day.month < 3 else (day.month, day.year)
    century, rest = divmod(year, 100)
    return (day.day + 13 * (month + 1) // 5 + rest + rest // 4 + century // 4 + 5 * century + 5) % 7


def test_weekdays_agree_with_zellers_congruence_through_leap_years_and_centuries():
    names = ("Mon", "Tue", "Wed", "Thu", "Fri", "Sat", "Sun")
    for number in range(0, 110_000, 37):
        day = date(1900, 1, 1) + timedelta(days=number)
        assert show_day(day).startswith(names[zeller_weekday(day)])


ISSUED = date(2025, 8, 29)


@pytest.mark.parametrize(
    ("day", "not_before", "question"),
    [
        (
            date(2025, 5, 9),
            ISSUED,
            "9 May 2025 is before the permit was issued (29 August 2025). Did you mean 9 May 2026?",
        ),
        (date(2027, 5, 9), ISSUED, "9 May 2027 is after today (16 May 2026). Did you mean 9 May 2026?"),
        (date(2027, 5, 9), None, "9 May 2027 is after today (16 May 2026). Did you mean 9 May 2026?"),
    ],
)
def test_a_wrong_year_is_asked_about_with_the_likely_day(day, not_before, question):
    asked, likely = question_year(day, not_before, TODAY)
    assert (spoken(asked), likely) == (question, ("2026-05-09",))


def test_two_fitting_years_are_both_offered():
    _, likely = question_year(date(2022, 5, 9), date(2024, 8, 29), TODAY)
    assert likely == ("2026-05-09", "2025-05-09")


def test_where_no_year_fits_the_day_itself_is_asked_about():
    question, likely = question_year(date(2025, 6, 9), ISSUED, TODAY)
    assert spoken(question) == "9 June 2025 is before the permit was issued (29 August 2025). Is the day right?"
    assert likely == ()
    assert question_year(date(2024, 2, 29), ISSUED, TODAY)[1] == ()


@pytest.mark.parametrize(("day", "not_before"), [(ISSUED, ISSUED), (TODAY, ISSUED), (date(2020, 1, 1), None)])
def test_a_day_within_the_permit_is_not_asked_about(day, not_before):
    assert question_year(day, not_before, TODAY) is None
