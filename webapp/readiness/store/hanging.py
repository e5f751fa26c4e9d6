"""What hangs on a visit: things booked for tasks after it, and visits of inspections that need it; and what has to be
moved because the days no longer fit.
"""

from collections.abc import Iterator
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.inspections.rules.facts import InspectionFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome
from webapp.plan.rules.graph import downstream_of_each
from webapp.plan.rules.kinds import BookedState
from webapp.plan.store.booked import BookedFacts, list_booked
from webapp.readiness.rules import keys
from webapp.readiness.rules.wording import inside
from webapp.readiness.store.nodes import next_visit
from webapp.readiness.store.site import Site, site
from webapp.values.dates import show_day

AHEAD = {Outcome.PLANNED, Outcome.ASKED}


@dataclass(frozen=True, slots=True)
class Hanging:
    """All that comes on a day because of what comes after one inspection."""

    booked: tuple[BookedFacts, ...]
    visits: tuple[VisitFacts, ...]


@dataclass(frozen=True, slots=True)
class ToMove:
    """Something whose day no longer fits, and why."""

    what: str
    why: str
    href: str


def _open_keys(found: Site, inspection: InspectionFacts) -> tuple[str, ...]:
    each = (keys.inspection(inspection.id, place) for place in inspection.places)
    return tuple(key for key in each if not found.network.node(key).settled)


def _after(found: Site) -> dict[int, frozenset[str]]:
    """By inspection, everything that waits for what of it is still open."""
    links = [link for link in found.network.links if link.hard]
    own = {one.id: _open_keys(found, one) for one in found.record.inspections}
    reached = downstream_of_each((key for each in own.values() for key in each), links)
    return {number: frozenset[str]().union(*(reached[key] for key in each)) for number, each in own.items()}


def hangs_on(session: Session, found: Site, inspection_id: int) -> Hanging:
    """What is booked ahead for a task downstream of the inspection in the one graph, and the visits that need it."""
    later = _after(found)[inspection_id]
    kinds = {one.id: one for one in found.record.inspections}
    return Hanging(
        booked=tuple(
            one
            for one in list_booked(session, found.build.id)
            if one.ahead and one.task_id is not None and keys.task(one.task_id) in later
        ),
        visits=tuple(
            visit
            for visit in found.record.visits
            if visit.outcome in AHEAD
            and visit.inspection_id != inspection_id
            and later & set(_open_keys(found, kinds[visit.inspection_id]))
        ),
    )


def _visits_first(found: Site) -> dict[str, list[tuple[InspectionFacts, VisitFacts | None]]]:
    """By key of what waits, the inspections it waits for and the next visit of each."""
    first: dict[str, list[tuple[InspectionFacts, VisitFacts | None]]] = {}
    kinds = {one.id: one for one in found.record.inspections}
    for number, later in _after(found).items():
        visit = next_visit(found.record, number)
        for key in later:
            first.setdefault(key, []).append((kinds[number], visit))
    return first


def _clash(found: Site, day: date, first: list[tuple[InspectionFacts, VisitFacts | None]]) -> str:
    """Why a day does not fit what has to come first; empty while it does, or while nobody gave that a day."""
    late = [
        (visit.day, kind.name)
        for kind, visit in first
        if visit is not None and visit.day is not None and visit.day > day
    ]
    if not late:
        return ""
    last, name = max(late)
    return f"{name} comes first, and that visit is on {show_day(last, found.today)}."


def _to_move(session: Session, found: Site) -> Iterator[ToMove]:
    first = _visits_first(found)
    for one in list_booked(session, found.build.id):
        if not one.ahead:
            continue
        day = show_day(one.day, found.today) if one.day else "no day"
        clash = _clash(found, one.day, first.get(keys.task(one.task_id), [])) if one.day and one.task_id else ""
        if one.state == BookedState.TO_MOVE or clash:
            why = clash or "What it comes for was put off."
            yield ToMove(f"{one.what}, {day}", why, f"{found.build.base}/booked/{one.id}")
    kinds = {one.id: one for one in found.record.inspections}
    for visit in found.record.visits:
        if visit.outcome not in AHEAD or visit.day is None or visit.day < found.today:
            continue
        kind = kinds[visit.inspection_id]
        firsts = [pair for key in _open_keys(found, kind) for pair in first.get(key, ()) if pair[0].id != kind.id]
        if clash := _clash(found, visit.day, firsts):
            what = f"Visit: {inside(kind.name)}, {show_day(visit.day, found.today)}"
            yield ToMove(what, clash, f"{found.build.base}/visits/{visit.id}/move")


def to_move(session: Session, found: Site) -> tuple[ToMove, ...]:
    """Everything booked or planned whose day no longer fits, by day."""
    build, today = found.build, found.today
    return remembered(session, ("to move", build, today), lambda: tuple(_to_move(session, site(session, build, today))))
