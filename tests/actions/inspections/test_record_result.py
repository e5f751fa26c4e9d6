"""Writing down what came of a visit: wholly or not at all, surface by surface."""

from datetime import date

import pytest

from tests import builders
from webapp.inspections import actions, store
from webapp.inspections.models import Inspection
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, Evidence, ResultKind
from webapp.inspections.rules.record import NewAsked, NewCorrection, NewFee, NewResult, NotLookedAt, VisitRecord
from webapp.inspections.rules.results import standings
from webapp.values.errors import NotFound, RuleBroken

DAY = date(2026, 5, 7)


@pytest.fixture
def scene(session):
    """Build, inspection of N and S, and a planned visit."""
    build = builders.a_build(session)
    permit = builders.a_permit(session, build)
    north = builders.a_surface(session, build, "N", "North wall")
    south = builders.a_surface(session, build, "S", "South wall", position=2)
    inspection = builders.an_inspection(session, permit, surfaces=(north, south))
    visit = builders.a_visit(session, inspection, DAY, outcome="planned")
    return build.row_id, inspection, visit.row_id, north.row_id, south.row_id


def where_it_stands(session, build_id, inspection):
    facts = store.get_inspection_by_id(session, build_id, inspection.row_id)
    results, corrections = store.list_results(session, build_id), store.list_corrections(session, build_id)
    return standings(facts, results, corrections)


def test_all_that_came_of_a_visit_is_written_at_once(session, scene):
    build_id, inspection, visit_id, north, south = scene
    plates = NewCorrection("Plates on three studs", south)
    record = VisitRecord(
        DAY,
        (NewResult(north, ResultKind.PASSED), NewResult(south, ResultKind.FAILED)),
        (plates, NewCorrection("Tidy the staples", south, form=CorrectionForm.SAID, clears_by=ClearsBy.OWN_WORD)),
        (NewAsked("A strap over the ridge tie", stops=True),),
        NewFee(10_000, "second look", stops_visits=True),
        Evidence.NOTICE,
    )
    actions.record_result(session, build_id, visit_id, record)
    assert store.get_visit(session, build_id, visit_id).outcome == "came"
    found = where_it_stands(session, build_id, inspection)
    assert (found[north].passed, found[south].passed) == (True, False)
    assert [(each.number, each.form) for each in found[south].owed] == [(1, "written"), (2, "said, not written")]
    assert [each.source for each in store.list_asked(session, build_id)] == ["asked by inspector"]
    assert [each.amount_cents for each in store.list_fees(session, build_id)] == [10_000]


def test_more_of_what_was_said_can_follow_and_numbers_go_on(session, scene):
    build_id, _, visit_id, _, south = scene
    first = VisitRecord(DAY, (NewResult(south, ResultKind.FAILED),), (NewCorrection("Plates", south),))
    actions.record_result(session, build_id, visit_id, first)
    actions.record_result(session, build_id, visit_id, VisitRecord(DAY, (), (NewCorrection("Grounds", south),)))
    assert [each.number for each in store.list_corrections(session, build_id)] == [1, 2]
    assert len(store.list_results(session, build_id)) == 1


def test_a_surface_has_one_result_of_a_visit(session, scene):
    build_id, _, visit_id, north, _ = scene
    record = VisitRecord(DAY, (NewResult(north, ResultKind.PASSED),))
    actions.record_result(session, build_id, visit_id, record)
    with pytest.raises(RuleBroken, match="North wall has a result of this visit already: passed"):
        actions.record_result(session, build_id, visit_id, record)


def test_every_correction_that_fits_no_result_is_named(session, scene):
    build_id, _, visit_id, north, south = scene
    record = VisitRecord(
        DAY, (NewResult(north, ResultKind.PASSED),), (NewCorrection("Plates", north), NewCorrection("Box", south))
    )
    with pytest.raises(RuleBroken) as refused:
        actions.record_result(session, build_id, visit_id, record)
    assert [reason.sentence for reason in refused.value.verdict.reasons] == [
        "North wall is set to passed, yet this is to be seen again. Which is it?",
        "Say first how South wall came out; a correction belongs to a result.",
    ]
    assert store.list_results(session, build_id) == ()


def test_a_surface_the_inspection_does_not_look_at_is_refused(session, scene):
    build_id, _, visit_id, _, _ = scene
    with pytest.raises(NotFound):
        actions.record_result(session, build_id, visit_id, VisitRecord(DAY, (NewResult(999, ResultKind.PASSED),)))


def test_a_visit_that_was_called_off_takes_no_result(session, scene):
    build_id, _, visit_id, north, _ = scene
    actions.cancel_visit(session, build_id, visit_id, "ill")
    with pytest.raises(RuleBroken, match="called off"):
        actions.record_result(session, build_id, visit_id, VisitRecord(DAY, (NewResult(north, ResultKind.PASSED),)))


def test_not_ready_is_neither_passed_nor_failed_and_the_ladder_joins_the_list(session, scene):
    build_id, inspection, visit_id, north, _ = scene
    told = NotLookedAt(DAY, no_entry=False, reason="no ladder", asked=(NewAsked("ladder"),), fee=NewFee(6_000))
    actions.not_ready(session, build_id, visit_id, told)
    found = where_it_stands(session, build_id, inspection)
    assert (found[north].passed, found[north].words) == (False, "not looked at yet")
    assert store.list_results(session, build_id) == ()
    assert store.list_corrections(session, build_id) == ()
    assert [each.words for each in store.list_asked(session, build_id)] == ["ladder"]
    assert store.get_visit(session, build_id, visit_id).outcome == "not ready"


def test_not_ready_does_not_follow_a_result(session, scene):
    build_id, _, visit_id, north, _ = scene
    actions.record_result(session, build_id, visit_id, VisitRecord(DAY, (NewResult(north, ResultKind.PASSED),)))
    with pytest.raises(RuleBroken, match="something was looked at"):
        actions.not_ready(session, build_id, visit_id, NotLookedAt(DAY, no_entry=True, reason=""))


def test_no_table_keeps_whether_anything_passed():
    columns = set(Inspection.__table__.columns.keys())
    assert not {"passed", "state", "result", "standing"} & columns
