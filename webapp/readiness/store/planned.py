"""The plan's part of the record: tasks, where they work, and what they need of each other."""

from collections import defaultdict
from collections.abc import Iterable, Iterator, Mapping
from dataclasses import dataclass
from typing import TypeVar

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.plan import store as plan
from webapp.plan.rules.graph import Link
from webapp.plan.rules.kinds import NeedKind, Strength, TaskState
from webapp.plan.store import NeedFacts, TaskFacts
from webapp.readiness.rules import keys
from webapp.surfaces import store as surfaces

Row = TypeVar("Row")
Key = TypeVar("Key")


def grouped(pairs: Iterable[tuple[Key, Row]]) -> Mapping[Key, tuple[Row, ...]]:
    found: dict[Key, list[Row]] = defaultdict(list)
    for key, row in pairs:
        found[key].append(row)
    return {key: tuple(found_rows) for key, found_rows in found.items()}


@dataclass(frozen=True, slots=True)
class Planned:
    """Late in a build this is nearly all there is, and most writes leave it alone: it is kept apart from the rest."""

    tasks: tuple[TaskFacts, ...]
    needs: tuple[NeedFacts, ...]
    """between tasks and of everything else"""
    links: tuple[Link, ...]
    """needs between tasks, without those met long ago"""
    task: Mapping[int, TaskFacts]
    task_surfaces: Mapping[int, tuple[int, ...]]
    surface_tasks: Mapping[int, tuple[int, ...]]
    closers: Mapping[int, tuple[int, ...]]


def planned(session: Session, build_id: int) -> Planned:
    return remembered(session, ("planned", build_id), lambda: _planned(session, build_id))


def _planned(session: Session, build_id: int) -> Planned:
    tasks, needs = plan.list_tasks(session, build_id), plan.list_needs(session, build_id)
    places = surfaces.list_task_surfaces(session, build_id)
    by_id = {task.id: task for task in tasks}
    return Planned(
        tasks=tasks,
        needs=needs,
        links=tuple(_links(needs, by_id)),
        task=by_id,
        task_surfaces=grouped((place.task_id, place.surface_id) for place in places),
        surface_tasks=grouped((place.surface_id, place.task_id) for place in places),
        closers=grouped((place.surface_id, place.task_id) for place in places if place.closes),
    )


def between_tasks(need: NeedFacts) -> bool:
    return need.what_kind == NeedKind.TASK and need.needs_kind == NeedKind.TASK


def wait(need: NeedFacts, task: Mapping[int, TaskFacts]) -> int:
    """Days that run by themselves after the needed thing: its own wait (cure, drying), or what this need asks.

    Both speak of the same days on the calendar, so they are not added up.
    """
    needed = task.get(need.needs_id) if need.needs_kind == NeedKind.TASK else None
    return max(need.lag_days, needed.wait_days if needed else 0)


def _links(needs: Iterable[NeedFacts], task: Mapping[int, TaskFacts]) -> Iterator[Link]:
    for need in needs:
        if between_tasks(need):
            days, needed = wait(need, task), task.get(need.needs_id)
            # Met with no wait to follow: late in a build nearly all are.
            if days or needed is None or needed.state != TaskState.DONE:
                waiter = keys.task(need.what_id)
                yield Link(waiter, keys.task(need.needs_id), need.strength == Strength.HARD, days, need.reason)
