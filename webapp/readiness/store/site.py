"""How a build stands today: the record and the graph made from it, kept until something is written."""

import gc
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.rules.nearest import nearness
from webapp.readiness.rules.network import Network
from webapp.readiness.store.links import INSULATION, all_links
from webapp.readiness.store.nodes import all_nodes, task_nodes
from webapp.readiness.store.record import Record, read_record
from webapp.surfaces.rules.section import SurfaceState
from webapp.surfaces.store import SurfaceFacts

SERVICES = {"wiring", "low voltage", "plumbing", "ducting", "gas"}


@dataclass(frozen=True, slots=True)
class Site:
    """One build on one day."""

    build: BuildFacts
    today: date
    record: Record
    network: Network
    states: Mapping[int, SurfaceState]
    """surface -> what its cross-section shows"""


def _state(record: Record, network: Network, surface_id: int) -> SurfaceState:
    tasks = [record.task[task] for task in record.surface_tasks.get(surface_id, ()) if task in record.task]
    done = {task.kind for task in tasks if task.state == TaskState.DONE}
    insulating = {keys.task(task.id) for task in tasks if task.kind == INSULATION}
    owed = [one for one in record.inspections if one.holds_cover and surface_id in one.surface_ids]
    early = [
        one
        for one in owed
        if not insulating & {link.needs for link in network.links_of(keys.inspection(one.id, surface_id))}
    ]
    cover = keys.cover(surface_id)
    return SurfaceState(
        kind=record.surface[surface_id].kind,
        services=bool(done & SERVICES),
        seen=bool(early) and all(record.standings[one.id][surface_id].passed for one in early),
        insulated=INSULATION in done,
        may_be_covered=network.can_start(cover),
        covered=network.node(cover).settled,
        by_mistake=any(one.surface_id == surface_id for one in record.coverings),
    )


@contextmanager
def _uncollected() -> Iterator[None]:
    """No search for rubbish meanwhile: among tens of thousands of new facts it finds none and doubles the time."""
    collecting = gc.isenabled()
    gc.disable()
    try:
        yield
    finally:
        if collecting:
            gc.enable()


def look_over(session: Session, build: BuildFacts, today: date) -> Site:
    """How the build stands, computed afresh."""
    with _uncollected():
        record = read_record(session, build.id)
        nodes = all_nodes(record, task_nodes(session, build), build, today)
        network = Network(nodes, all_links(record, {node.key for node in nodes}), today)
        states = {surface.id: _state(record, network, surface.id) for surface in record.surfaces}
        return Site(build, today, record, network, states)


def nearest_first(found: Site) -> tuple[SurfaceFacts, ...]:
    """The open surfaces, nearest to closing first."""
    network = found.network

    def near(at: int) -> tuple[int, int, int, int]:
        surface = found.record.surfaces[at]
        cover = keys.cover(surface.id)
        return nearness(network, cover, cover_answer(network, cover, surface.name), at)

    still_open = (at for at, one in enumerate(found.record.surfaces) if one.covered_on is None)
    return tuple(found.record.surfaces[at] for at in sorted(still_open, key=near))


def site(session: Session, build: BuildFacts, today: date) -> Site:
    """How the build stands; computed once after each write, since every page asks."""
    return remembered(session, ("site", build, today), lambda: look_over(session, build, today))
