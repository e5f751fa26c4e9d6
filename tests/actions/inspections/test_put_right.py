"""Putting a result right: my mistake, or theirs. What relied on it locks again; nothing is lost."""

from datetime import date

import pytest

from tests import builders
from tests.actions.inspections.test_record_result import scene, where_it_stands  # noqa: F401 (a fixture)
from webapp.inspections import actions, store
from webapp.inspections.models import CorrectionChange, VisitChange
from webapp.inspections.rules.kinds import ResultKind
from webapp.inspections.rules.record import NewCorrection, NewResult, VisitRecord
from webapp.values.errors import RuleBroken

DAY, LATER = date(2026, 5, 7), date(2026, 5, 16)


@pytest.fixture
def south_passed(session, scene):  # noqa: F811
    build_id, inspection, visit_id, north, south = scene
    record = VisitRecord(DAY, (NewResult(south, ResultKind.PASSED),))
    (result_id,) = actions.record_result(session, build_id, visit_id, record)
    return build_id, inspection, visit_id, north, south, result_id


def test_a_withdrawn_result_locks_the_surface_again_and_stays_readable(session, south_passed):
    build_id, inspection, _, _, south, result_id = south_passed
    actions.withdraw_result(session, build_id, result_id, LATER, "the building office", "stand-in was not cleared")
    assert not where_it_stands(session, build_id, inspection)[south].passed
    kept = store.get_result(session, build_id, result_id)
    assert (kept.kind, kept.state, kept.changed_by) == ("passed", "withdrawn", "theirs")
    assert (kept.changed_who, kept.changed_why) == ("the building office", "stand-in was not cleared")


def test_a_mistyped_surface_is_put_right_by_a_new_result(session, south_passed):
    build_id, inspection, _, north, south, result_id = south_passed
    new = NewResult(north, ResultKind.PASSED)
    new_id = actions.correct_result(session, build_id, result_id, new, LATER, "typed S in the car")
    found = where_it_stands(session, build_id, inspection)
    assert (found[north].passed, found[south].passed) == (True, False)
    old = store.get_result(session, build_id, result_id)
    assert (old.state, old.changed_by, old.replaced_by_id) == ("replaced", "my mistake", new_id)
    assert store.get_result(session, build_id, new_id).day == DAY


def test_a_result_is_taken_back_once(session, south_passed):
    build_id, _, _, _, south, result_id = south_passed
    actions.withdraw_result(session, build_id, result_id, LATER, "office", "letter")
    with pytest.raises(RuleBroken, match="withdrawn already"):
        actions.correct_result(session, build_id, result_id, NewResult(south, ResultKind.FAILED), LATER, "")


def test_a_correction_goes_with_its_result_to_the_right_wall(session, scene):  # noqa: F811
    build_id, inspection, visit_id, north, south = scene
    record = VisitRecord(DAY, (NewResult(south, ResultKind.FAILED),), (NewCorrection("Plates", south),))
    (result_id,) = actions.record_result(session, build_id, visit_id, record)
    actions.correct_result(session, build_id, result_id, NewResult(north, ResultKind.FAILED), LATER, "wrong wall")
    found = where_it_stands(session, build_id, inspection)
    assert [each.words for each in found[north].owed] == ["Plates"]
    assert found[south].owed == ()
    (correction,) = store.list_corrections(session, build_id)
    (change,) = store.list_correction_changes(session, correction.id)
    assert (change.was, change.became) == ("on South wall", "on North wall")


def test_a_wall_that_has_its_own_result_is_not_overwritten(session, scene):  # noqa: F811
    build_id, _, visit_id, north, south = scene
    both = VisitRecord(DAY, (NewResult(north, ResultKind.PASSED), NewResult(south, ResultKind.FAILED)))
    first, _ = actions.record_result(session, build_id, visit_id, both)
    with pytest.raises(RuleBroken, match="South wall has a result of this visit already"):
        actions.correct_result(session, build_id, first, NewResult(south, ResultKind.PASSED), LATER, "")


def test_the_day_of_a_visit_is_put_right_and_its_results_follow(session, south_passed):
    build_id, _, visit_id, _, _, result_id = south_passed
    actions.correct_visit_day(session, build_id, visit_id, date(2026, 5, 9), "typed a wrong day")
    assert store.get_visit(session, build_id, visit_id).day == date(2026, 5, 9)
    assert store.get_result(session, build_id, result_id).day == date(2026, 5, 9)
    changes = store.list_visit_changes(session, visit_id)
    assert [(each.field, each.was, each.became) for each in changes[-2:]] == [
        ("day", "Thursday 7 May 2026", "Saturday 9 May 2026"),
        (f"day of result {result_id}", "7 May 2026", "9 May 2026"),
    ]


def test_a_later_pass_clears_and_its_withdrawal_opens_again(session, scene):  # noqa: F811
    build_id, inspection, visit_id, _, south = scene
    failed = VisitRecord(DAY, (NewResult(south, ResultKind.FAILED),), (NewCorrection("Plates", south),))
    actions.record_result(session, build_id, visit_id, failed)
    again = builders.a_visit(session, inspection, date(2026, 5, 13), outcome="asked")
    record = VisitRecord(date(2026, 5, 13), (NewResult(south, ResultKind.PASSED),))
    (passed,) = actions.record_result(session, build_id, again.row_id, record)
    assert where_it_stands(session, build_id, inspection)[south].owed == ()
    actions.withdraw_result(session, build_id, passed, LATER, "office", "by letter")
    found = where_it_stands(session, build_id, inspection)[south]
    assert (found.passed, [each.words for each in found.owed]) == (False, ["Plates"])


def test_what_was_kept_of_changes_has_its_own_tables():
    assert {"was", "became", "why", "at"} <= set(VisitChange.__table__.columns.keys())
    assert {"was", "became", "why", "at"} <= set(CorrectionChange.__table__.columns.keys())
