"""Waits that run by themselves."""

from datetime import date

from webapp.plan.rules.waits import begun_unknown, earliest_end, running_until, wait_of

THURSDAY = date(2026, 5, 14)


def test_a_week_of_cure_begun_on_a_thursday_ends_on_the_next():
    # Outside check by the calendar: 14 May 2026 and 21 May 2026 are both Thursdays (ISO 8601 weekday 4).
    end = earliest_end(THURSDAY, 7)
    assert end == date(2026, 5, 21)
    assert end.isoweekday() == THURSDAY.isoweekday() == 4


def test_a_wait_that_has_not_begun_has_no_end():
    assert earliest_end(None, 7) is None
    assert earliest_end(THURSDAY, 0) is None


def test_on_its_last_day_a_wait_is_over():
    assert running_until(THURSDAY, 7, date(2026, 5, 20)) == date(2026, 5, 21)
    assert running_until(THURSDAY, 7, date(2026, 5, 21)) is None


def test_the_longer_of_two_waits_counts_and_not_their_sum():
    assert wait_of(7, 28) == 28
    assert wait_of(7) == 7


def test_only_what_is_done_without_a_day_and_then_waits_began_on_an_unknown_day():
    assert begun_unknown(done=True, done_on=None, days=7)
    assert not begun_unknown(done=True, done_on=THURSDAY, days=7)
    assert not begun_unknown(done=False, done_on=None, days=7)
    assert not begun_unknown(done=True, done_on=None, days=0)
