"""Typed needs whose other end is gone, and a visit between two tasks that close one wall."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from webapp.inspections.models import InspectionSurface
from webapp.plan.models import Need
from webapp.plan.store import get_build
from webapp.readiness import actions
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import WaitsFor
from webapp.values.errors import RuleBroken


@pytest.fixture
def layers(session, here):
    """A west wall closed by two layers of board; the visit comes between them and holds the wall."""
    west = builders.a_surface(session, here, "W", "West wall", position=2, facing="W")
    permit = builders.a_permit(session, here, "FIR", issued_on=date(2026, 5, 1))
    visit = builders.an_inspection(session, permit, "Board nailing", (west,))
    phase = builders.a_phase(session, here, "Board")
    first, second = (builders.a_task(session, phase, name, at) for at, name in ((1, "First layer"), (2, "Second")))
    for task in (first, second):
        builders.works_on(session, task, west, closes=True)
    session.add(_need(here, ("task", second), ("inspection", visit), west))
    session.add(_need(here, ("inspection", visit), ("task", first)))
    return {"wall": west, "visit": visit, "first": first, "second": second, "permit": permit}


def _need(here, what, needs, place=None) -> Need:
    return Need(
        build_id=here.row_id,
        what_kind=what[0],
        what_id=what[1].row_id,
        needs_kind=needs[0],
        needs_id=needs[1].row_id,
        needs_surface_id=place.row_id if place else 0,
    )


def _finish(session, here, task):
    session.flush()
    build = get_build(session, here.slug)
    return actions.finish_task(session, build, task.row_id, date(2026, 5, 16), date(2026, 5, 16))


def test_a_visit_between_two_layers_stops_the_second_and_the_wall_but_not_the_first(layers, site):
    network = site().network
    visit = keys.inspection(layers["visit"].row_id, layers["wall"].row_id)
    assert network.loop is None
    assert network.can_start(keys.task(layers["first"].row_id))
    for waiter in (keys.task(layers["second"].row_id), keys.cover(layers["wall"].row_id)):
        assert visit in {need.node.key for need in network.unmet(waiter) if need.hard}


def test_the_first_layer_is_finished_without_closing_the_wall_and_the_second_closes_it(session, here, layers):
    assert _finish(session, here, layers["first"]) == ()
    with pytest.raises(RuleBroken) as refused:
        _finish(session, here, layers["second"])
    assert [reason.sentence for reason in refused.value.verdict.reasons] == ["Board nailing, W"]
    held = builders.a_visit(session, layers["visit"], date(2026, 5, 16))
    builders.a_result(session, held, layers["wall"], kind="passed")
    assert [wall.code for wall in _finish(session, here, layers["second"])] == ["W"]


def test_the_first_layer_still_waits_for_all_that_does_not_come_after_it(session, here, layers):
    builders.a_question(session, here, layers["wall"], kind="danger", words="Is the cable dead?")
    with pytest.raises(RuleBroken) as refused:
        _finish(session, here, layers["first"])
    assert [reason.sentence for reason in refused.value.verdict.reasons] == ["Is the cable dead?"]


def test_a_visit_after_every_closing_task_of_the_wall_it_holds_stays_a_circle_to_be_seen(session, here, layers, site):
    session.add(_need(here, ("inspection", layers["visit"]), ("task", layers["second"])))
    network = site().network
    assert network.loop is not None
    assert not network.can_start(keys.task(layers["second"].row_id))


def test_a_need_of_a_wall_that_left_its_inspection_still_stops_and_says_so(session, here, layers, site):
    north = builders.a_surface(session, here, "N", "North wall", position=3, facing="N")
    session.add(InspectionSurface(inspection_id=layers["visit"].row_id, surface_id=north.row_id))
    session.flush()
    place = session.exec(select(InspectionSurface).where(InspectionSurface.surface_id == layers["wall"].row_id)).one()
    session.delete(place)
    second = layers["second"]
    network = site().network
    lost = next(need.node for need in network.unmet(keys.task(second.row_id)) if need.node.kind == "question")
    assert lost.title == "This need points nowhere any more: Board nailing, W"
    assert (lost.waits_for, lost.href) == (WaitsFor.ANSWER, f"/builds/bindery/tasks/{second.row_id}/waits")
    session.delete(session.exec(select(Need).where(Need.needs_kind == "inspection")).one())
    assert not any("points nowhere" in need.node.title for need in site().network.unmet(keys.task(second.row_id)))


def test_a_need_of_pictures_that_nobody_lists_any_more_still_stops(session, here, layers, site):
    session.add(_need(here, ("task", layers["first"]), ("pictures", layers["wall"])))
    stops = [need.node.title for need in site().network.unmet(keys.task(layers["first"].row_id)) if need.hard]
    assert "This need points nowhere any more: pictures of a surface, W" in stops
    builders.a_slot(session, layers["wall"], 1, what="Plumbing")
    stops = [need.node.title for need in site().network.unmet(keys.task(layers["first"].row_id)) if need.hard]
    assert not any("points nowhere" in title for title in stops)
    assert "Picture 1: plumbing" in stops
