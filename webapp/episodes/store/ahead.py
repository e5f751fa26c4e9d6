"""What lies ahead as of today, in plain words: what stops the next phase and what can be done next."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.episodes.rules.facts import Line
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts, PhaseFacts
from webapp.readiness import store as readiness
from webapp.readiness.rules import keys
from webapp.readiness.rules.nodes import Root, WaitsFor
from webapp.readiness.store import Site

STOPS_TOLD = 6
COMING_TOLD = 3


@dataclass(frozen=True, slots=True)
class Ahead:
    next_phase: str
    stops: tuple[Line, ...]
    coming: tuple[Line, ...]


def _words(root: Root) -> str:
    """A fee is told without its amount: money is only ever shown where the builder allows it."""
    title = "a fee to pay" if root.node.kind == "fee" else root.node.title
    return f"{title} (drying)" if root.waits_for is WaitsFor.DRYING else title


def _next_phase(found: Site) -> tuple[PhaseFacts | None, list[str]]:
    """The phase after the first that has open tasks, or that one when it is the last; with keys of its open tasks."""
    open_tasks: dict[int, list[str]] = {}
    for task in found.record.tasks:
        if task.state != TaskState.DONE:
            open_tasks.setdefault(task.phase_id, []).append(keys.task(task.id))
    waiting = [phase for phase in found.record.phases if phase.id in open_tasks][:2]
    if not waiting:
        return None, []
    return waiting[-1], open_tasks[waiting[-1].id]


def ahead(session: Session, build: BuildFacts, today: date) -> Ahead:
    """Root causes that stop the next phase, soonest first, and the first tasks that can start."""
    found = readiness.site(session, build, today)
    phase, task_keys = _next_phase(found)
    own = set(task_keys)
    roots = [root for root in found.network.roots_of_all(task_keys) if root.node.key not in own]
    stops = tuple(
        Line(_words(root), f"Waits for: {root.waits_for.value}", root.node.href or build.base)
        for root in roots[:STOPS_TOLD]
    )
    if len(roots) > STOPS_TOLD:
        more = f"{len(roots) - STOPS_TOLD} more"
        href = f"{build.base}/what-stops?phase={phase.id if phase else ''}"
        stops += (Line(f"and {more}", f"{more} on the whole list", href),)
    nodes = sorted(found.network.startable(), key=lambda node: (not node.started, node.rank))[:COMING_TOLD]
    coming = tuple(
        Line(node.title, "Under way" if node.started else "Can start now", node.href or build.base) for node in nodes
    )
    return Ahead(phase.title if phase else "", stops, coming)
