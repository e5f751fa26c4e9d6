"""What a task needs and what needs it, as lines to show."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.plan import store
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import planned_wait_words, state_words, wait_words
from webapp.plan.rules.ends import NAMELESS
from webapp.plan.rules.kinds import NeedKind, Strength, TaskState
from webapp.plan.rules.waits import begun_unknown, running_until, wait_of
from webapp.plan.store import NeedFacts, TaskFacts
from webapp.values.words import plural

_SETTLED_AT: Mapping[str, str] = {
    NeedKind.INSPECTION: "inspections",
    NeedKind.CORRECTION: "inspections",
    NeedKind.PERMIT: "permits",
    NeedKind.SHOT: "footage",
    NeedKind.PICTURES: "pictures",
    NeedKind.QUESTION: "before-cover",
}


@dataclass(frozen=True, slots=True)
class NeedLine:
    """The other end of a need. `met`: it stops nothing any more; `hard`: otherwise only a wish."""

    need_id: int
    title: str
    detail: str
    href: str
    hard: bool
    met: bool


def lines_around(session: Session, here: Here, task_id: int) -> tuple[tuple[NeedLine, ...], tuple[NeedLine, ...]]:
    """What `task_id` needs, what is not met first; and what needs it."""
    around = store.needs_around(session, task_id)
    others = frozenset(
        number
        for need in around
        for kind, number in ((need.what_kind, need.what_id), (need.needs_kind, need.needs_id))
        if kind == NeedKind.TASK and number != task_id
    )
    tasks = store.tasks_by_id(session, here.build.id, others)
    mine = [need for need in around if (need.what_kind, need.what_id) == (NeedKind.TASK, task_id)]
    needs = [_needed(here, need, tasks) for need in mine]
    waiting = [_waiter(here, need, tasks) for need in around if need not in mine]
    return tuple(sorted(needs, key=lambda line: (line.met, not line.hard))), tuple(waiting)


def _needed(here: Here, need: NeedFacts, tasks: Mapping[int, TaskFacts]) -> NeedLine:
    task = tasks.get(need.needs_id) if need.needs_kind == NeedKind.TASK else None
    if task is None:
        return _elsewhere(here, need.id, need.needs_kind, need.strength, need.reason)
    return NeedLine(
        need_id=need.id,
        title=task.title,
        detail=_join(_standing(task, need, here.today), need.reason),
        href=f"{here.base}/tasks/{task.id}",
        hard=need.strength == Strength.HARD,
        met=_met(task, need, here.today),
    )


def _waiter(here: Here, need: NeedFacts, tasks: Mapping[int, TaskFacts]) -> NeedLine:
    task = tasks.get(need.what_id) if need.what_kind == NeedKind.TASK else None
    if task is None:
        return _elsewhere(here, need.id, need.what_kind, need.strength, need.reason)
    wait = f"waits {plural(need.lag_days, 'day')} after this" if need.lag_days else ""
    return NeedLine(
        need_id=need.id,
        title=task.title,
        detail=_join(state_words(task, here.today), wait, need.reason),
        href=f"{here.base}/tasks/{task.id}",
        hard=need.strength == Strength.HARD,
        met=task.state == TaskState.DONE,
    )


def _elsewhere(here: Here, need_id: int, kind: str, strength: str, reason: str) -> NeedLine:
    """The plan knows only tasks by title; the other end is settled on its own sheet."""
    name = NAMELESS[kind]
    href = f"{here.base}/{_SETTLED_AT.get(kind, 'what-stops')}"
    return NeedLine(need_id, f"{name[:1].upper()}{name[1:]}", reason, href, strength == Strength.HARD, met=False)


def _standing(task: TaskFacts, need: NeedFacts, today: date) -> str:
    running = wait_words(task, today, need.lag_days)
    planned = planned_wait_words(task, need.lag_days) if task.state != TaskState.DONE else ""
    return _join(state_words(task, today), running or (planned and f"then {planned}"))


def _met(task: TaskFacts, need: NeedFacts, today: date) -> bool:
    done, days = task.state == TaskState.DONE, wait_of(task.wait_days, need.lag_days)
    return done and running_until(task.done_on, days, today) is None and not begun_unknown(done, task.done_on, days)


def _join(*parts: str) -> str:
    return ", ".join(part for part in parts if part)
