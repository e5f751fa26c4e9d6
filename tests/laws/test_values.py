"""Laws of lengths, money, hours, days and words that hold for every value, not only for the ones we thought of."""

import re
from datetime import date, timedelta
from fractions import Fraction

import pytest
from hypothesis import example, given
from hypothesis import strategies as st

from webapp.values.dates import add_working_days, parse_day, question_year, show_date, show_day, show_long_day
from webapp.values.duration import field_hours, parse_hours, show_minutes
from webapp.values.errors import BadInput
from webapp.values.estimate import Estimate
from webapp.values.length import (
    NM_PER_INCH,
    NM_PER_M,
    NM_PER_MM,
    UNITS,
    area_square_feet,
    area_square_metres,
    field_length,
    parse_length,
    show_length,
)
from webapp.values.money import parse_money, show_amount, show_money
from webapp.values.words import join_words, plain_slug

TEN_KM = 10_000 * NM_PER_M
sixty_fourths = st.integers(-TEN_KM * 64 // NM_PER_INCH + 1, TEN_KM * 64 // NM_PER_INCH)
any_nm = st.integers(-TEN_KM, TEN_KM)
most_cents = st.integers(-1_000_000_000, 1_000_000_000)
days = st.dates(date(1900, 1, 1), date(2199, 12, 31))
near_days = st.dates(date(2024, 1, 1), date(2030, 12, 31))


@given(sixty_fourths, st.sampled_from(["ft-in", "in"]))
def test_what_an_inch_tape_can_show_reads_back_exactly(marks, unit):
    nm = marks * NM_PER_INCH // 64
    shown = show_length(nm, unit)
    assert not shown.startswith("about")
    assert parse_length(shown, unit) == nm


@given(st.integers(-10_000_000, 10_000_000), st.sampled_from(["mm", "cm", "m"]))
def test_whole_millimetres_read_back_exactly(millimetres, unit):
    shown = show_length(millimetres * NM_PER_MM, unit)
    assert not shown.startswith("about")
    assert parse_length(shown, unit) == millimetres * NM_PER_MM


@given(any_nm, st.sampled_from(UNITS))
@example(1, "ft-in")
@example(-1, "m")
def test_an_input_field_never_changes_a_length(nm, unit):
    assert parse_length(field_length(nm, unit), unit) == nm


@given(st.integers(-TEN_KM // 2, TEN_KM // 2), st.sampled_from(["ft-in", "in"]))
def test_a_shown_length_is_within_half_a_sixteenth_and_says_about_only_when_rounded(nm, unit):
    shown = show_length(nm, unit)
    read = parse_length(shown.removeprefix("about "), unit)
    assert abs(read - nm) * 32 <= NM_PER_INCH
    assert shown.startswith("about ") == (nm * 64 % NM_PER_INCH != 0)


@given(st.integers(0, 900), st.integers(0, 11), st.integers(1, 63))
def test_feet_inches_and_fractions_add_up_like_rational_numbers(feet, inches, part):
    exact = (feet * 12 + inches + Fraction(part, 64)) * NM_PER_INCH
    assert parse_length(f"{feet}' {inches}-{part}/64\"", "mm") == exact


@given(st.integers(1, 10**12), st.integers(1, 10**12))
def test_square_feet_and_square_metres_are_the_same_area(length, height):
    """One square foot is 0.09290304 square metres exactly: NIST Special Publication 811 (2008), Appendix B.8."""
    exact = Fraction(9_290_304, 10**8)
    assert area_square_feet(length, height) * exact == area_square_metres(length, height)


number_soup = st.text(alphabet="0123456789 .,-/'\"½⅝′″ftincm:h$−⁄⁵", max_size=20)


@given(st.one_of(st.text(max_size=80), number_soup), st.sampled_from(UNITS))
@example("⅟", "mm")
@example("1⅟3", "in")
@example("㎜", "m")
def test_whatever_is_typed_is_read_or_answered_with_a_sentence(text, unit):
    today = date(2026, 5, 16)
    readers = (lambda: parse_length(text, unit), lambda: parse_money(text), lambda: parse_hours(text))
    for read in (*readers, lambda: parse_day(text, today)):
        try:
            read()
        except BadInput as bad:
            assert bad.sentence.endswith((".", "?"))


@given(number_soup, st.sampled_from(UNITS))
@example("5-6", "ft-in")
@example("6' 22\"", "m")
@example(".$⁵,388", "in")
@example("1,234,567 mm", "cm")
def test_every_likely_length_that_is_offered_can_be_read_and_is_named_in_the_sentence(text, unit):
    try:
        parse_length(text, unit)
    except BadInput as bad:
        for likely in bad.likely:
            parse_length(likely, unit)
            assert likely in bad.sentence
        assert ("Did you mean" in bad.sentence) == bool(bad.likely)


@given(st.sampled_from(["", "-"]), st.integers(0, 900), st.integers(12, 99), st.sampled_from(UNITS))
def test_more_than_twelve_inches_beside_feet_are_offered_as_the_length_they_add_up_to(sign, feet, inches, unit):
    with pytest.raises(BadInput) as asked:
        parse_length(f"{sign}{feet}' {inches}\"", unit)
    (likely,) = asked.value.likely
    assert parse_length(likely, unit) == (-1 if sign else 1) * (feet * 12 + inches) * NM_PER_INCH


@given(st.integers(1, 300), st.integers(0, 999), st.sampled_from(["in", "mm", "cm"]))
def test_a_doubtful_comma_is_offered_as_thousands_and_as_decimals(whole, rest, unit):
    with pytest.raises(BadInput) as asked:
        parse_length(f"{whole},{rest:03}", unit)
    one = parse_length("1", unit)
    thousands, decimals = (parse_length(likely, unit) for likely in asked.value.likely)
    assert thousands == (whole * 1000 + rest) * one
    assert decimals == Fraction(whole * 1000 + rest, 1000) * one


@given(number_soup)
@example(".$⁵,388")
def test_every_likely_amount_or_hours_that_is_offered_can_be_read(text):
    for read in (parse_money, parse_hours):
        try:
            read(text)
        except BadInput as bad:
            for likely in bad.likely:
                read(likely)


@given(most_cents)
def test_a_shown_amount_reads_back_as_the_same_cents(cents):
    assert parse_money(show_amount(cents)) == cents
    assert parse_money(show_money(cents, "EUR"), "EUR") == cents


@given(st.integers(0, 24 * 60))
def test_shown_and_edited_hours_read_back_as_the_same_minutes(minutes):
    assert parse_hours(show_minutes(minutes)) == minutes
    assert parse_hours(field_hours(minutes)) == minutes


@given(st.lists(st.integers(0, 6000), min_size=3, max_size=3))
def test_guesses_are_an_estimate_exactly_when_they_are_in_order(guesses):
    if guesses == sorted(guesses):
        assert Estimate.of(*guesses).likely == guesses[1]
    else:
        with pytest.raises(BadInput):
            Estimate.of(*guesses)


@given(days, near_days)
def test_a_day_shown_with_its_year_reads_back_whatever_today_is(day, today):
    for shown in (day.isoformat(), show_date(day), show_long_day(day), show_day(day)):
        assert parse_day(shown, today) == day


@given(near_days, st.integers(-181, 183))
def test_a_day_near_today_reads_back_without_its_year(today, distance):
    day = today + timedelta(days=distance)
    if not (day.month == 2 and day.day == 29):
        assert parse_day(f"{day.day} {show_date(day).split()[1]}", today) == day


@given(
    near_days, st.integers(1, 60), st.frozensets(near_days, max_size=20), st.frozensets(st.integers(0, 6), min_size=1)
)
def test_working_days_land_on_an_open_day_and_count_exactly_the_open_ones(start, count, closed, weekdays):
    end = add_working_days(start, count, closed, weekdays)
    passed = [start + timedelta(days=step) for step in range(1, (end - start).days + 1)]
    is_open = [day for day in passed if day.weekday() in weekdays and day not in closed]
    assert len(is_open) == count
    assert is_open[-1] == end


@given(near_days, st.integers(1, 60), st.frozensets(near_days, max_size=20))
def test_going_back_as_many_working_days_returns_to_the_open_day_one_came_from(start, count, closed):
    start = add_working_days(start, 1, closed)
    assert add_working_days(add_working_days(start, count, closed), -count, closed) == start


@given(near_days, st.one_of(st.none(), near_days), near_days)
def test_a_question_about_the_year_only_offers_days_that_raise_no_question(day, not_before, today):
    asked = question_year(day, not_before, today)
    for likely in asked[1] if asked else ():
        assert question_year(date.fromisoformat(likely), not_before, today) is None


@given(st.text(max_size=200))
def test_an_address_has_only_plain_letters_and_stays_the_same_when_made_again(text):
    slug = plain_slug(text)
    assert re.fullmatch(r"(?:[a-z0-9]+(?:-[a-z0-9]+)*)?", slug)
    assert plain_slug(slug) == slug


@given(st.lists(st.sampled_from(["N", "E", "S", "W", "ceiling"]), max_size=6))
def test_joined_words_are_all_there_in_order(words):
    assert re.findall(r"\b(?!and\b)\w+", join_words(words)) == words
