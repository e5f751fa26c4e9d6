"""What a task needs and what needs it, as lines to show."""

from collections.abc import Iterable
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
from webapp.values.words import join_words, plural


@dataclass(frozen=True, slots=True)
class NeedLine:
    """The other end of a need. `met`: it stops nothing any more; `hard`: otherwise only a wish."""

    need_id: int
    title: str
    detail: str
    href: str
    hard: bool
    met: bool


@dataclass(frozen=True, slots=True)
class Around:
    """The tasks on either side, what is not met first; and in words what else there is: "an inspection and a shot".

    The plan knows only tasks by title; the rest is named on the sheet of what a task waits for.
    """

    needs: tuple[NeedLine, ...]
    waiting: tuple[NeedLine, ...]
    also_needs: str
    also_waiting: str


def around(session: Session, here: Here, task_id: int) -> Around:
    """What `task_id` needs, and what needs it."""
    typed = store.needs_around(session, task_id)
    needed = [need for need in typed if (need.what_kind, need.what_id) == (NeedKind.TASK, task_id)]
    ends = [
        (need, need.needs_kind, need.needs_id) if need in needed else (need, need.what_kind, need.what_id)
        for need in typed
    ]
    numbers = frozenset(number for _, kind, number in ends if kind == NeedKind.TASK)
    tasks = store.tasks_by_id(session, here.build.id, numbers)
    by_title = [(need, tasks[number]) for need, kind, number in ends if kind == NeedKind.TASK and number in tasks]
    needs = [_needed(here, need, task) for need, task in by_title if need in needed]
    return Around(
        needs=tuple(sorted(needs, key=lambda line: (line.met, not line.hard))),
        waiting=tuple(_waiter(here, need, task) for need, task in by_title if need not in needed),
        also_needs=_others(kind for need, kind, _ in ends if kind != NeedKind.TASK and need in needed),
        also_waiting=_others(kind for need, kind, _ in ends if kind != NeedKind.TASK and need not in needed),
    )


def _others(kinds: Iterable[str]) -> str:
    """ "an inspection and a shot": each kind once, however many there are."""
    return join_words(list(dict.fromkeys(NAMELESS[kind] for kind in kinds)))


def _needed(here: Here, need: NeedFacts, task: TaskFacts) -> NeedLine:
    return NeedLine(
        need_id=need.id,
        title=task.title,
        detail=_join(_standing(task, need, here.today), need.reason),
        href=f"{here.base}/tasks/{task.id}",
        hard=need.strength == Strength.HARD,
        met=_met(task, need, here.today),
    )


def _waiter(here: Here, need: NeedFacts, task: TaskFacts) -> NeedLine:
    wait = f"waits {plural(need.lag_days, 'day')} after this" if need.lag_days else ""
    return NeedLine(
        need_id=need.id,
        title=task.title,
        detail=_join(state_words(task, here.today), wait, need.reason),
        href=f"{here.base}/tasks/{task.id}",
        hard=need.strength == Strength.HARD,
        met=task.state == TaskState.DONE,
    )


def _standing(task: TaskFacts, need: NeedFacts, today: date) -> str:
    running = wait_words(task, today, need.lag_days)
    planned = planned_wait_words(task, need.lag_days) if task.state != TaskState.DONE else ""
    return _join(state_words(task, today), running or (planned and f"then {planned}"))


def _met(task: TaskFacts, need: NeedFacts, today: date) -> bool:
    done, days = task.state == TaskState.DONE, wait_of(task.wait_days, need.lag_days)
    return done and running_until(task.done_on, days, today) is None and not begun_unknown(done, task.done_on, days)


def _join(*parts: str) -> str:
    return ", ".join(part for part in parts if part)
