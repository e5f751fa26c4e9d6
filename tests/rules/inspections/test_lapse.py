"""Each permit's own clock.

Outside check: International Residential Code, R105.5 (permit invalid unless work starts within 180 days after issue, or
when work is suspended for 180 days), as cities print it; the two dates are derived from that clause.
"""

from datetime import date

import pytest
from dateutil.relativedelta import relativedelta

from tests.rules.inspections.test_results import a_result as a_may_result
from tests.rules.inspections.test_results import an_inspection
from webapp.inspections.rules.clocks import ExtensionFacts, RuleFacts
from webapp.inspections.rules.facts import PermitFacts, ResultFacts
from webapp.inspections.rules.lapse import clock_of


def a_rule(kind: str = "no approved visit", count: int | None = 180, span: str = "days") -> RuleFacts:
    return RuleFacts(id=len(kind), permit_id=1, kind=kind, count=count, span=span, words="", source="IRC R105.5")


def a_permit(issued: date | None = date(2025, 1, 15), days: int | None = 180, **more: object) -> PermitFacts:
    values = dict.fromkeys(("asked_on", "started_on", "hired_id", "closed_on"))
    values |= dict.fromkeys(("covers", "number", "started_how", "code_family", "code_edition"), "")
    values |= {"rules": (a_rule(count=days),)} | more
    return PermitFacts(id=1, code="BLD", name="Building", issued_on=issued, **values)


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


START, FIXED = "not started", "fixed life"


def test_not_started_runs_from_issue_until_work_begins():
    """R105.5: invalid unless the work is commenced within 180 days after issue; issued 2025-01-15, the last day is
    2025-07-14."""
    permit = a_permit(rules=(a_rule(START),))
    assert last_day(permit) == date(2025, 7, 14)
    assert last_day(a_permit(rules=(a_rule(START),), started_on=date(2025, 7, 14))) is None
    late = a_permit(rules=(a_rule(START),), started_on=date(2025, 7, 15))
    assert last_day(late) == date(2025, 7, 14), "work begun a day too late finds it invalid"
    assert last_day(permit, on(date(2025, 6, 1))) is None, "a pass says that work has begun"
    assert last_day(permit, on(date(2025, 6, 1), kind="failed")) == date(2025, 7, 14)


def test_the_earliest_of_the_rules_decides_and_each_keeps_its_own_day():
    rules = (a_rule(FIXED, 12, "months"), a_rule(START), a_rule(count=180))
    found = clock_of(a_permit(rules=rules), [an_inspection()], [on(date(2025, 6, 30))])
    assert [(each.rule.kind, each.last_day, each.met) for each in found.rules] == [
        ("not started", date(2025, 7, 14), True),
        ("no approved visit", date(2025, 12, 27), False),
        ("fixed life", date(2026, 1, 15), False),
    ]
    assert (found.deciding.rule.kind, found.last_day) == ("no approved visit", date(2025, 12, 27))
    later = clock_of(a_permit(rules=rules), [an_inspection()], [on(date(2025, 8, 1))])
    assert (later.deciding.rule.kind, later.last_day) == (FIXED, date(2026, 1, 15)), "no visit moves the whole life"


@pytest.mark.parametrize(
    ("issued", "count", "last"),
    [
        (date(2026, 1, 31), 1, date(2026, 2, 28)),
        (date(2024, 1, 31), 1, date(2024, 2, 29)),
        (date(2025, 8, 31), 6, date(2026, 2, 28)),
        (date(2025, 12, 31), 2, date(2026, 2, 28)),
        (date(2024, 2, 29), 12, date(2025, 2, 28)),
        (date(2025, 3, 15), 12, date(2026, 3, 15)),
    ],
)
def test_months_are_those_of_the_calendar(issued, count, last):
    """By hand, and as dateutil's `relativedelta` counts (its documentation: "adding one month will never cross the
    month boundary")."""
    assert last == issued + relativedelta(months=count)
    assert last_day(a_permit(issued, rules=(a_rule(FIXED, count, "months"),))) == last


def test_days_over_a_leap_day_and_over_the_year_s_end():
    """By hand: 2024 had a 29 February, so 60 days from 1 January end on 1 March; in 2025 on 2 March. 30 days after
    15 December are 14 January."""
    assert last_day(a_permit(date(2024, 1, 1), 60)) == date(2024, 3, 1)
    assert last_day(a_permit(date(2025, 1, 1), 60)) == date(2025, 3, 2)
    assert last_day(a_permit(date(2025, 12, 15), 30)) == date(2026, 1, 14)


def an_extension(until: date | None, **more: object) -> ExtensionFacts:
    values = {"asked_on": date(2025, 7, 1), "why": "", "answered_on": date(2025, 7, 8), "granted": True} | more
    values = {"words": "", "paper_id": None, "photo": "a" * 64, "fee_id": None, "withdrawn_on": None} | values
    return ExtensionFacts(id=1, permit_id=1, until_day=until, **values)


def test_an_extension_in_writing_moves_the_day_if_it_is_later():
    found = clock_of(a_permit(extensions=(an_extension(date(2025, 10, 12)),)), [an_inspection()], [])
    assert (found.last_day, found.deciding.last_day) == (date(2025, 10, 12), date(2025, 7, 14))
    assert found.extension is not None
    earlier = clock_of(a_permit(extensions=(an_extension(date(2025, 7, 1)),)), [an_inspection()], [])
    assert (earlier.last_day, earlier.extension) == (date(2025, 7, 14), None)
    renewed = a_permit(extensions=(an_extension(date(2025, 10, 12)),))
    assert last_day(renewed, on(date(2025, 9, 1))) == date(2026, 2, 28), "a later pass goes further than the letter"


@pytest.mark.parametrize(
    "less", [{"granted": None}, {"granted": False}, {"photo": ""}, {"withdrawn_on": date(2025, 8, 1)}]
)
def test_an_extension_asked_for_refused_said_only_or_given_back_moves_nothing(less):
    assert last_day(a_permit(extensions=(an_extension(date(2025, 10, 12), **less),))) == date(2025, 7, 14)
