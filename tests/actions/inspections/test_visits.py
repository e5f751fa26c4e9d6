"""Visits are booked, moved and called off; fees stop and are paid; permits and lists keep what they were."""

from dataclasses import replace
from datetime import date

import pytest

from tests import builders
from webapp.inspections import actions, store
from webapp.inspections.rules.kinds import ClockKind
from webapp.inspections.rules.record import InspectionForm, NewAsked, PermitForm, RuleForm
from webapp.money import store as money
from webapp.values.errors import RuleBroken
from webapp.values.own_words import own

TODAY, WEDNESDAY = date(2026, 5, 16), date(2026, 5, 20)


@pytest.fixture
def rough(session):
    build = builders.a_build(session)
    permit = builders.a_permit(session, build, "PLB")
    wall = builders.a_surface(session, build, "W", "West wall")
    return build, permit, builders.an_inspection(session, permit, "Rough plumbing", (wall,))


def test_an_unpaid_fee_keeps_visits_from_being_asked_for_until_it_is_paid(session, rough):
    build, permit, inspection = rough
    fee = builders.a_fee(session, permit, builders.a_visit(session, inspection), why="failed a second time")
    with pytest.raises(RuleBroken, match=r"A fee of 100\.00 is unpaid") as refused:
        actions.book_visit(session, build.row_id, inspection.row_id, WEDNESDAY, TODAY, base="/builds/bindery")
    assert refused.value.verdict.reasons[0].href == f"/builds/bindery/fees/{fee.row_id}"
    assert actions.book_visit(session, build.row_id, inspection.row_id, WEDNESDAY).outcome == "planned"
    actions.pay_fee(session, build.row_id, fee.row_id, TODAY)
    assert actions.book_visit(session, build.row_id, inspection.row_id, WEDNESDAY, TODAY).outcome == "asked"


def test_a_fee_paid_is_spend_of_the_kind_fees_and_is_paid_once(session, rough):
    build, permit, inspection = rough
    fee = builders.a_fee(session, permit, builders.a_visit(session, inspection), why="no ladder", amount_cents=6_000)
    actions.pay_fee(session, build.row_id, fee.row_id, TODAY, to="building office")
    (line,) = money.list_spend(session, build.row_id)
    assert (line.kind, line.total_cents, line.what, line.day) == ("fees", 6_000, "Fee: no ladder", TODAY)
    assert store.get_fee(session, build.row_id, fee.row_id).spend_id == line.id
    with pytest.raises(RuleBroken, match="paid on 16 May 2026"):
        actions.pay_fee(session, build.row_id, fee.row_id, TODAY)


def test_a_visit_moved_keeps_the_day_it_was_booked_for(session, rough):
    build, _, inspection = rough
    visit = actions.book_visit(session, build.row_id, inspection.row_id, WEDNESDAY, TODAY, "09:00 to 12:00")
    actions.move_visit(session, build.row_id, visit.row_id, date(2026, 5, 27), TODAY, "", "window is not in")
    (day, window) = store.list_visit_changes(session, visit.row_id)
    assert (day.was, day.became, day.why) == ("Wednesday 20 May 2026", "Wednesday 27 May 2026", "window is not in")
    assert (window.was, window.became) == ("09:00 to 12:00", "none")


def test_a_visit_called_off_stays_in_the_history_and_no_fee_is_invented(session, rough):
    build, _, inspection = rough
    visit = actions.book_visit(session, build.row_id, inspection.row_id, WEDNESDAY, TODAY)
    actions.cancel_visit(session, build.row_id, visit.row_id, "rain in the trench")
    kept = store.get_visit(session, build.row_id, visit.row_id)
    assert (kept.outcome, kept.reason, kept.day) == ("cancelled", "rain in the trench", WEDNESDAY)
    assert store.list_fees(session, build.row_id) == ()
    with pytest.raises(RuleBroken, match="over"):
        actions.move_visit(session, build.row_id, visit.row_id, WEDNESDAY, TODAY, "")


def test_a_permit_put_right_keeps_its_old_days(session, rough):
    build, permit, _ = rough
    form = PermitForm(permit.code, permit.name, issued_on=date(2025, 9, 29), rules=(RuleForm(ClockKind.IDLE, 180),))
    assert actions.edit_permit(session, build.row_id, "PLB", form, "misread the stamp") == 1
    (change,) = store.list_permit_changes(session, permit.row_id)
    assert (change.field, change.was, change.became) == ("Issued on", "29 August 2025", "29 September 2025")


def test_a_short_name_is_there_once(session, rough):
    build, permit, inspection = rough
    with pytest.raises(RuleBroken, match=f"another {own('permit')} with the short name PLB"):
        actions.add_permit(session, build.row_id, PermitForm("PLB", "Plumbing"))
    with pytest.raises(RuleBroken, match=f"another {own('inspection')}"):
        actions.add_inspection(session, build.row_id, InspectionForm(permit.row_id, inspection.code, "Again"))


def test_the_order_is_the_builders(session, rough):
    build, permit, first = rough
    second = actions.add_inspection(session, build.row_id, InspectionForm(permit.row_id, "FRM", "Framing"))
    actions.order_inspections(session, (second.row_id, first.row_id))
    assert [each.code for each in store.list_inspections(session, build.row_id)] == ["FRM", first.code]


def test_a_surface_with_results_stays_on_its_inspection(session, rough):
    build, permit, inspection = rough
    south = builders.a_surface(session, build, "S", "South wall")
    west = store.get_inspection(session, build.row_id, inspection.code).surface_ids[0]
    form = InspectionForm(permit.row_id, inspection.code, "Rough plumbing", (west, south.row_id))
    actions.edit_inspection(session, build.row_id, inspection.code, form)
    builders.a_result(session, builders.a_visit(session, inspection), south, "failed")
    with pytest.raises(RuleBroken, match="stays on its list"):
        actions.edit_inspection(session, build.row_id, inspection.code, replace(form, surface_ids=(west,)))


def test_what_was_asked_for_can_be_ticked_unticked_and_dropped(session, rough):
    build, _, inspection = rough
    item = actions.add_asked_item(session, build.row_id, inspection.row_id, NewAsked("a strap", stops=True), TODAY)
    actions.asked_item_done(session, build.row_id, item.row_id, TODAY)
    assert not store.get_asked(session, build.row_id, item.row_id).open
    actions.asked_item_done(session, build.row_id, item.row_id, None)
    actions.drop_asked_item(session, build.row_id, item.row_id, TODAY)
    assert store.get_asked(session, build.row_id, item.row_id).dropped_on == TODAY
