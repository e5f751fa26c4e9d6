"""What stands before a visit, what runs by itself, and circles that nobody typed."""

from datetime import date, timedelta

import pytest

from tests import builders
from webapp.inspections.models import AskedItem
from webapp.plan.models import Need
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import WaitsFor
from webapp.values.own_words import spoken


@pytest.fixture
def plumbing(session, here):
    """A west wall whose plumbing failed; insulating it needs the visit passed."""
    west = builders.a_surface(session, here, "W", "West wall", position=2, facing="W")
    permit = builders.a_permit(session, here, "PLB", name="Plumbing permit")
    inspection = builders.an_inspection(session, permit, "Rough plumbing", (west,))
    visit = builders.a_visit(session, inspection, date(2026, 5, 12))
    result = builders.a_result(session, visit, west, kind="failed")
    phase = builders.a_phase(session, here, "Insulation")
    batts = builders.a_task(session, phase, "Batts, west", kind="insulation")
    builders.works_on(session, batts, west)
    session.add(
        Need(
            build_id=here.row_id,
            what_kind="task",
            what_id=batts.row_id,
            needs_kind="inspection",
            needs_id=inspection.row_id,
            needs_surface_id=west.row_id,
        )
    )
    return {"wall": west, "permit": permit, "inspection": inspection, "visit": visit, "result": result, "batts": batts}


def test_an_unpaid_fee_that_stops_visits_stands_above_asking_for_one(session, plumbing, site):
    fee = builders.a_fee(session, plumbing["permit"], plumbing["visit"])
    insulation = keys.task(plumbing["batts"].row_id)
    visit = keys.inspection(plumbing["inspection"].row_id, plumbing["wall"].row_id)
    network = site().network
    assert [root.node.title for root in network.roots(insulation)] == ["Pay the fee, USD 100.00"]
    assert network.chain(insulation) == (keys.fee(fee.row_id), visit, insulation)
    fee.paid_on = date(2026, 5, 16)
    assert [root.node.ready_says for root in site().network.roots(insulation)] == [
        "Ask for the visit: Rough plumbing, W again"
    ]


def test_a_fee_to_pay_is_named_before_everything_else(session, plumbing, site):
    builders.a_correction(session, plumbing["visit"], plumbing["result"], words="Strap the vent")
    builders.a_fee(session, plumbing["permit"], due_on=date(2026, 6, 30))
    roots = site().network.roots(keys.task(plumbing["batts"].row_id))
    assert [root.node.title for root in roots] == ["Pay the fee, USD 100.00", "Strap the vent"]


def test_a_fee_that_stops_nothing_is_no_stop(session, plumbing, site):
    builders.a_fee(session, plumbing["permit"], stops_visits=False)
    roots = site().network.roots(keys.task(plumbing["batts"].row_id))
    assert [root.node.kind for root in roots] == ["inspection"]


def test_what_the_inspector_asked_for_stops_his_visit_until_it_is_there(session, here, plumbing, site):
    asked = AskedItem(
        build_id=here.row_id,
        inspection_id=plumbing["inspection"].row_id,
        words="A ladder",
        source="asked by inspector",
        asked_on=date(2026, 5, 12),
        stops=True,
    )
    session.add(asked)
    session.flush()
    roots = site().network.roots(keys.task(plumbing["batts"].row_id))
    assert [(root.node.title, root.node.detail) for root in roots] == [("A ladder", "Asked by inspector, Tue 12 May.")]
    asked.done_on = date(2026, 5, 16)
    assert site().network.can_start(keys.inspection(plumbing["inspection"].row_id, plumbing["wall"].row_id))


def test_no_visit_before_the_permit_is_issued(session, plumbing, site):
    plumbing["permit"].issued_on = None
    roots = site().network.roots(keys.task(plumbing["batts"].row_id))
    assert [spoken(root.node.ready_says) for root in roots] == ["Ask for the permit: Plumbing permit"]


def test_a_visit_that_is_asked_for_waits_for_the_inspector_until_its_day(session, plumbing, site):
    builders.a_visit(session, plumbing["inspection"], date(2026, 5, 20), outcome="asked")
    root = site().network.roots(keys.task(plumbing["batts"].row_id))[0]
    assert (root.waits_for, root.until) == (WaitsFor.INSPECTOR, date(2026, 5, 20))
    late = site(date(2026, 5, 21)).network.roots(keys.task(plumbing["batts"].row_id))[0]
    assert late.node.ready_says == "Record the result: Rough plumbing, W"


def test_a_cure_runs_by_itself_and_ends_on_its_day(session, here, site):
    phase = builders.a_phase(session, here, "Slab")
    pour = builders.a_task(
        session, phase, "Pour the patch", wait_days=7, wait_reason="cure", state="done", done_on=date(2026, 5, 14)
    )
    grind = builders.a_task(session, phase, "Grind the patch", position=2)
    builders.a_need(session, grind, pour, lag_days=7)
    key = keys.task(grind.row_id)
    root = site().network.roots(key)[0]
    assert (root.waits_for, root.until) == (WaitsFor.DRYING, date(2026, 5, 21))
    assert not site(date(2026, 5, 20)).network.can_start(key)
    assert site(date(2026, 5, 21)).network.can_start(key)


def test_insulation_waits_for_the_pictures_that_it_will_hide(session, plumbing, site):
    plumbing["result"].kind = "passed"
    slot = builders.a_slot(session, plumbing["wall"], 3, what="Drain and supply", picture_set="before")
    builders.a_slot(session, plumbing["wall"], 4, what="Whole wall", picture_set="after")
    needs = site().network.unmet(keys.task(plumbing["batts"].row_id))
    assert [(need.node.key, need.reason) for need in needs] == [(keys.slot(slot.row_id), "hidden by the insulation")]


def test_a_circle_of_what_follows_by_itself_is_named_and_nothing_in_it_looks_free(session, wall, site):
    """Somebody typed that a visit comes after the board which it is meant to be seen before."""
    session.add(
        Need(
            build_id=wall.board.build_id,
            what_kind="inspection",
            what_id=wall.insulation.row_id,
            needs_kind="task",
            needs_id=wall.board.row_id,
        )
    )
    _fail_insulation(session, wall)
    network = site().network
    visit = keys.inspection(wall.insulation.row_id, wall.surface.row_id)
    assert set(network.loop or ()) == {visit, keys.task(wall.board.row_id)}
    roots = {root.node.key: root.waits_for for root in network.roots(keys.cover(wall.surface.row_id))}
    assert roots[visit] is WaitsFor.ANSWER
    assert not network.can_start(visit)
    assert not network.can_start(keys.task(wall.board.row_id))


def _fail_insulation(session, wall) -> None:
    visit = builders.a_visit(session, wall.insulation, date(2026, 5, 16))
    builders.a_result(session, visit, wall.surface, kind="failed")


def test_every_day_gives_the_same_answer_when_nothing_waits_for_a_day(wall, site, today):
    for days in (0, 30, 400):
        network = site(today + timedelta(days=days)).network
        assert len(network.unmet(keys.cover(wall.surface.row_id))) == 4
