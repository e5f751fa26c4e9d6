"""The builder's order of tasks and of inspections against the one graph: which hold points it breaks, and which of
those are kept knowingly.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.inspections.rules.trades import SERVICES, is_work_of, looks_at
from webapp.plan.rules.ends import kind_of, number_of
from webapp.plan.rules.graph import Link
from webapp.plan.rules.kinds import NeedKind, TaskState
from webapp.plan.store.booked import BreachFacts, list_breaches
from webapp.readiness.rules import keys
from webapp.readiness.rules.hold_points import Broken, Hold, broken_by_tasks, broken_by_visits
from webapp.readiness.rules.wording import inside
from webapp.readiness.store.links import INSULATION
from webapp.readiness.store.site import Site, site


@dataclass(frozen=True, slots=True)
class BreachLine:
    """One hold point that the order breaks, in words. `kept`: knowingly, with its reason, or nothing said by now."""

    broken: Broken
    words: str
    detail: str
    href: str
    kept: BreachFacts | None = None

    @property
    def surface_id(self) -> int:
        return self.broken.surface_id


def _holds(found: Site, *, all_kinds: bool = False) -> Iterator[Hold]:
    """Inspections not passed: those that hold a closing, or all."""
    for one in found.record.inspections:
        if one.holds_cover or all_kinds:
            for place in one.places:
                key = keys.inspection(one.id, place)
                if not found.network.node(key).settled:
                    yield Hold(key, one.id, place)


def _hides(found: Site) -> dict[str, Collection[int]]:
    """Open tasks that hide what is on a surface: by closing it, or by insulating it."""
    hidden: dict[str, set[int]] = {}
    record = found.record
    still_open = {one.id for one in record.surfaces if one.covered_on is None}
    for surface_id in still_open:
        closers = record.closers.get(surface_id, ())
        insulating = (one for one in record.surface_tasks.get(surface_id, ()) if record.task[one].kind == INSULATION)
        for task in (*closers, *insulating):
            if task in record.task and record.task[task].state != TaskState.DONE:
                hidden.setdefault(keys.task(task), set()).add(surface_id)
    return dict(hidden)


def _work_to_be_seen(found: Site) -> Iterator[Link]:
    """Open work of the trade an inspection looks at, on its surface, where nobody typed what it needs.

    Common practice, no source: only asked about when something is moved, never said of an order as it stands.
    """
    record = found.record
    typed = {need.what_id for need in record.needs if need.what_kind == NeedKind.INSPECTION}
    for one in record.inspections:
        trades = [service for service in SERVICES if looks_at(one.name, service)]
        for place in one.places if one.id not in typed else ():
            for task in record.surface_tasks.get(place, ()) if place else ():
                kind = record.task[task].kind
                if record.task[task].state != TaskState.DONE and any(is_work_of(kind, each) for each in trades):
                    yield Link(keys.inspection(one.id, place), keys.task(task))


def open_order(found: Site) -> tuple[int, ...]:
    """The tasks that are not done, in the builder's order."""
    return tuple(task.id for task in found.record.tasks if task.state != TaskState.DONE)


def broken_at(
    found: Site,
    tasks: Sequence[int] | None = None,
    inspections: Sequence[int] | None = None,
    *,
    asking: bool = False,
) -> tuple[Broken, ...]:
    """What the order breaks, as it stands or as it would be. `asking`: with what a trade's work suggests as well."""
    hides = _hides(found)
    links = (*found.network.links, *(_work_to_be_seen(found) if asking else ()))
    order = tuple(keys.task(one) for one in (open_order(found) if tasks is None else tasks))
    visits = tuple(one.id for one in found.record.inspections) if inspections is None else tuple(inspections)
    return (
        *broken_by_tasks(order, links, tuple(_holds(found)), hides),
        *broken_by_visits(visits, links, tuple(_holds(found, all_kinds=True)), hides),
    )


def surface_words(found: Site, surface_id: int) -> str:
    return f"the {inside(found.record.surface[surface_id].name)}"


def breach_line(found: Site, broken: Broken, kept: BreachFacts | None = None) -> BreachLine:
    """ "Duct and line set, rough would be hidden on the ceiling"."""
    record = found.record
    kinds = {one.id: one for one in record.inspections}
    name = kinds[broken.inspection_id].name
    what, number = kind_of(broken.what), number_of(broken.what)
    own = record.task[number].title if what == NeedKind.TASK else kinds[number].name
    because = found.network.node(broken.because).title if broken.because in found.network else ""
    base = found.build.base
    if not broken.surface_id:
        words = f"{own} stands before {inside(name)}, which it needs"
        return BreachLine(broken, words, "", f"{base}/inspections/{kinds[number].code}", kept)
    words = f"{name} would be hidden on {surface_words(found, broken.surface_id)}"
    if what == NeedKind.TASK:
        detail = f"“{own}” stands before “{because}”, which that visit needs." if because else ""
        return BreachLine(broken, words, detail, f"{base}/tasks/{number}", kept)
    detail = f"“{own}” stands first, and it comes after “{because}”." if because else ""
    return BreachLine(broken, words, detail, f"{base}/inspections/{kinds[number].code}", kept)


def _about(broken: Broken) -> tuple[str, int, int, int]:
    return kind_of(broken.what), number_of(broken.what), broken.inspection_id, broken.surface_id


def kept_by(found: Sequence[BreachFacts]) -> Mapping[tuple[str, int, int, int], BreachFacts]:
    """Those that stand, by what they are about."""
    return {(one.what_kind, one.what_id, one.needs_id, one.surface_id): one for one in found if one.ended_on is None}


def mended(rows: Sequence[BreachFacts], broken: Iterable[Broken]) -> frozenset[int]:
    """Kept breaches whose order was mended, or whose inspection passed meanwhile."""
    there = {_about(one) for one in broken}
    return frozenset(one.id for about, one in kept_by(rows).items() if about not in there)


def _breach_lines(session: Session, found: Site) -> tuple[BreachLine, ...]:
    kept = kept_by(list_breaches(session, found.build.id))
    as_it_stands = broken_at(found)
    known = {_about(one) for one in as_it_stands}
    more = [one for one in broken_at(found, asking=True) if _about(one) in kept.keys() - known] if kept else []
    return tuple(breach_line(found, one, kept.get(_about(one))) for one in (*as_it_stands, *more))


def breach_lines(session: Session, found: Site) -> tuple[BreachLine, ...]:
    """Every hold point the order breaks today, kept knowingly or not said anything about; none once it passed."""
    build, today = found.build, found.today
    return remembered(session, ("breaches", build, today), lambda: _breach_lines(session, site(session, build, today)))
