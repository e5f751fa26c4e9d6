"""Which visit would still renew a permit, and when only an extension is left. Days by hand on a calendar of 2026."""

from dataclasses import replace
from datetime import date

import pytest

from tests.rules.inspections.test_lapse import FIXED, START, a_permit, a_rule
from tests.rules.inspections.test_results import an_inspection
from webapp.inspections.rules.booking import OfficeFacts, Offices
from webapp.inspections.rules.facts import VisitFacts
from webapp.inspections.rules.lapse import clock_of
from webapp.inspections.rules.renewing import last_words, way_of, way_words
from webapp.inspections.rules.timeline import timeline

MAY, ISSUED = date(2026, 5, 16), date(2026, 1, 12)


def a_visit(day: date, outcome: str = "planned") -> VisitFacts:
    return VisitFacts(1, 1, None, day, "", outcome, "", "")


def way(today: date = MAY, visits=(), owed=None, permit=None, offices: Offices | None = None):
    permit = permit or a_permit(ISSUED)
    owed = [an_inspection()] if owed is None else owed
    return way_of(permit, clock_of(permit, owed, []), owed, visits, offices or Offices(), today)


def test_the_last_useful_day_and_its_moment_to_ask_are_said():
    found = way()
    assert way_words(found, MAY) == "Rough electrical would renew it, if it passes."
    assert last_words(found, MAY) == ("Fri 10 Jul", "Wed 8 Jul 15:30")


@pytest.mark.parametrize(
    ("today", "only"), [(date(2026, 7, 8), False), (date(2026, 7, 9), True), (date(2026, 7, 11), True)]
)
def test_after_the_last_moment_to_ask_only_an_extension_is_left(today, only):
    found = way(today)
    assert found.only_extension is only
    assert ("What is left is an extension in writing." in way_words(found, today)) is only
    assert (last_words(found, today) == ("", "")) is only


def test_a_visit_asked_for_in_time_is_a_way_out_even_past_the_last_moment_to_ask():
    found = way(date(2026, 7, 9), [a_visit(date(2026, 7, 10), "asked")])
    assert not found.only_extension
    assert "Asked for: Friday 10 July 2026." in way_words(found, MAY)


def test_a_planned_visit_says_by_when_it_is_asked_for_and_one_too_late_to_ask_for_is_none():
    assert "Planned for Friday 10 July 2026: ask by Wednesday 8 July 2026 15:30." in way_words(
        way(visits=[a_visit(date(2026, 7, 10))]), MAY
    )
    assert way(date(2026, 7, 9), [a_visit(date(2026, 7, 10))]).only_extension
    assert way(visits=[a_visit(date(2026, 7, 13), "asked")]).chance.booked is None, "it comes after the last day"


def test_what_is_asked_for_comes_before_what_is_first_in_order():
    second = replace(an_inspection(), id=2, name="Framing")
    booked = replace(a_visit(date(2026, 7, 7), "asked"), inspection_id=2)
    assert way(owed=[an_inspection(), second], visits=[booked]).chance.inspection.name == "Framing"


def test_an_inspection_that_renews_nothing_or_is_passed_is_no_way_out():
    found = way(owed=[replace(an_inspection(), renews_permit=False)])
    assert found.only_extension and "is still owed would renew it" in way_words(found, MAY)
    assert way(owed=[]).only_extension


def test_no_visit_moves_the_whole_life_and_work_that_has_not_begun_has_to():
    life = way(permit=a_permit(ISSUED, rules=(a_rule(FIXED, 12, "months"),)))
    assert life.only_extension and "no visit moves that day" in way_words(life, MAY)
    begin = way(permit=a_permit(ISSUED, rules=(a_rule(START),)))
    assert not begin.only_extension and "Work under it has to begin by then." in way_words(begin, MAY)


def test_an_office_that_does_not_come_before_then_is_said():
    never = OfficeFacts(7, "Town", frozenset(), "", "", 2, "15:30", "", 0, "", "", "")
    found = way(owed=[replace(an_inspection(), office_id=7)], offices=Offices((never,)))
    assert found.only_extension and "comes on no day before then" in way_words(found, MAY)


def test_nothing_is_said_once_it_has_lapsed_or_was_never_issued():
    assert way(date(2026, 7, 12)) is None
    assert way(permit=a_permit(None)) is None


def test_the_line_of_its_time_keeps_its_labels_apart_and_says_itself():
    line = timeline(ISSUED, MAY, date(2026, 7, 11), date(2026, 7, 1))
    assert line.says == "From 12 Jan, 124 days gone; 56 days left to 11 Jul."
    assert (line.now_x, line.ask_x) == (238, 325)
    assert timeline(ISSUED, date(2026, 7, 12), date(2026, 7, 11), None).says == "It ran from 12 Jan to 11 Jul."
    assert timeline(ISSUED, MAY, ISSUED, None) is None
