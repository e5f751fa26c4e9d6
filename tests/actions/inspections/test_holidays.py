"""Notice over public holidays, as the library knows them.

Outside check: 5 U.S.C. 6103 names the holidays of the United States; days counted by hand.
"""

from datetime import date

import pytest

from webapp.inspections.rules.booking import ClosedFacts, DaysOff, Terms
from webapp.inspections.store.holidays import PublicHolidays, holidays_in, known


def closed(day: date, until: date | None = None, *, is_open: bool = False) -> ClosedFacts:
    return ClosedFacts(1, None, day, until, is_open, "")


@pytest.mark.parametrize(
    ("visit", "notice", "ask"),
    [
        (date(2026, 7, 6), 1, date(2026, 7, 2)),  # Monday; Friday 3 July is kept for Saturday's Independence Day
        (date(2026, 5, 26), 2, date(2026, 5, 21)),  # Tuesday after Memorial Day
        (date(2026, 1, 2), 2, date(2025, 12, 30)),  # over New Year's Day
        (date(2027, 1, 4), 2, date(2026, 12, 30)),  # Monday; Friday is New Year's Day, so Thursday and Wednesday
        (date(2028, 3, 1), 1, date(2028, 2, 29)),  # a leap day is a Tuesday like any other
        (date(2026, 12, 28), 1, date(2026, 12, 24)),  # Monday after Christmas Day, a Friday
        (date(2026, 7, 8), 0, date(2026, 7, 8)),
    ],
)
def test_notice_runs_over_weekends_holidays_leap_day_and_year_end(visit, notice, ask):
    assert Terms(notice_days=notice, off=DaysOff(PublicHolidays("US"))).ask_by(visit) == ask


def test_the_library_has_the_legal_holidays_of_the_united_states():
    """5 U.S.C. 6103(a) and (b): eleven days; one that falls on a Saturday is kept on the Friday before (E.O. 11582)."""
    days = holidays_in("US", 2026)
    named = {(1, 1), (1, 19), (2, 16), (5, 25), (6, 19), (7, 4), (9, 7), (10, 12), (11, 11), (11, 26), (12, 25)}
    assert {(day.month, day.day) for day in days} == named | {(7, 3)}
    assert known("US-OR") and known("CA-ON") and known("GB-ENG")
    assert not known("US-XX") and not known("nowhere") and not known("")
    assert holidays_in("XX", 2026) == {}


def test_own_closed_days_count_and_an_office_can_be_open_on_a_holiday():
    off = DaysOff(
        PublicHolidays("US"), (closed(date(2026, 6, 19), is_open=True), closed(date(2026, 7, 6), date(2026, 7, 8)))
    )
    assert date(2026, 6, 19) not in off
    assert [day for day in range(1, 12) if date(2026, 7, day) in off] == [3, 4, 6, 7, 8]
    terms = Terms(notice_days=2, off=off)
    assert terms.ask_by(date(2026, 7, 10)) == date(2026, 7, 2), "Thursday 9, then back over the closed days to 2 July"
    assert terms.last_useful_visit(date(2026, 7, 8)) == date(2026, 7, 2)
