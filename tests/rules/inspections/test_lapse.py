"""Each permit's own clock.

Outside check: International Residential Code, R105.5 (permit invalid unless work starts within 180 days after issue, or
when work is suspended for 180 days), as cities print it; the two dates are derived from that clause.
"""

from datetime import date

import pytest

from tests.rules.inspections.test_results import a_result as a_may_result
from tests.rules.inspections.test_results import an_inspection
from webapp.inspections.rules.facts import PermitFacts, ResultFacts
from webapp.inspections.rules.lapse import clock_of


def a_permit(issued: date | None = date(2025, 1, 15), days: int | None = 180, **more: object) -> PermitFacts:
    values = {"number": "", "asked_on": None, "lapse_rule": "", "rule_source": "IRC R105.5", "closed_on": None} | more
    return PermitFacts(id=1, code="BLD", name="Building", covers="", issued_on=issued, lapse_days=days, **values)


def on(day: date, number: int = 1, kind: str = "passed", **more: object) -> ResultFacts:
    made = a_may_result(number, kind, **more)
    return ResultFacts(**{name: getattr(made, name) for name in made.__dataclass_fields__} | {"day": day})


def last_day(permit: PermitFacts, *results: ResultFacts) -> date | None:
    return clock_of(permit, [an_inspection()], results).last_day


def test_a_permit_not_started_is_invalid_after_180_days_from_issue():
    assert last_day(a_permit()) == date(2025, 7, 14)


def test_the_last_approved_inspection_starts_the_180_days_anew():
    assert last_day(a_permit(), on(date(2025, 11, 30))) == date(2026, 5, 29)


def test_a_failed_visit_in_april_does_not_move_the_january_date():
    found = clock_of(
        a_permit(date(2025, 8, 29)),
        [an_inspection()],
        [on(date(2026, 1, 12)), on(date(2026, 4, 20), 2, "failed")],
    )
    assert found.last_day == date(2026, 7, 11)
    assert found.last_day.strftime("%A") == "Saturday"
    assert found.counts == "Rough electrical, passed"


@pytest.mark.parametrize("kind", ["failed", "seen at the next visit", "not looked at"])
def test_a_visit_that_approved_nothing_renews_nothing(kind):
    assert last_day(a_permit(), on(date(2025, 3, 1), kind=kind)) == date(2025, 7, 14)


@pytest.mark.parametrize("kind", ["passed", "part passed", "passed, small items on my honour"])
def test_a_pass_a_part_pass_and_one_with_small_items_renew(kind):
    assert last_day(a_permit(), on(date(2025, 3, 1), kind=kind)) == date(2025, 8, 28)


@pytest.mark.parametrize("state", ["withdrawn", "replaced"])
def test_a_result_taken_back_renews_nothing(state):
    assert last_day(a_permit(), on(date(2025, 3, 1), state=state)) == date(2025, 7, 14)


def test_an_inspection_that_does_not_renew_or_stands_under_another_permit_moves_nothing():
    other = an_inspection()
    not_renewing = type(other)(**{n: getattr(other, n) for n in other.__dataclass_fields__} | {"renews_permit": False})
    elsewhere = type(other)(**{n: getattr(other, n) for n in other.__dataclass_fields__} | {"permit_id": 2})
    for each in (not_renewing, elsewhere):
        assert clock_of(a_permit(), [each], [on(date(2025, 3, 1))]).last_day == date(2025, 7, 14)


def test_a_day_before_the_permit_was_issued_does_not_shorten_its_time():
    assert last_day(a_permit(), on(date(2024, 3, 1))) == date(2025, 7, 14)


def test_without_an_issue_day_no_clock_runs_and_without_days_or_when_closed_none_ends():
    assert clock_of(a_permit(None), [], []) is None
    assert last_day(a_permit(days=None)) is None
    assert last_day(a_permit(closed_on=date(2025, 5, 1))) is None
