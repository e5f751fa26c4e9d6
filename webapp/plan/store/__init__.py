"""Reading the plan: frozen facts, one query each."""

from collections.abc import Mapping
from dataclasses import dataclass, replace
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, Label, Select, and_, case, func, or_, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from webapp.core.database import kept_list, remembered, rows
from webapp.plan.models import Build, BuildWord, Need, Phase, Task, TaskChange
from webapp.plan.rules.kinds import NeedKind, Strength, TaskState
from webapp.values.errors import NotFound
from webapp.values.own_words import GENERAL, OwnWords

NO_BUILD = "There is no build of this name here."
NO_PHASE, NO_TASK = (f"There is no such {what} in this build." for what in ("phase", "task"))


@dataclass(frozen=True, slots=True)
class BuildFacts:
    """One build as other packages see it."""

    id: int
    slug: str
    name: str
    what: str
    unit: str
    currency: str
    lot_id: int | None = None
    words: OwnWords = ()

    @property
    def base(self) -> str:
        """Where its pages are: `/builds/bindery`."""
        return f"/builds/{self.slug}"


@dataclass(frozen=True, slots=True)
class PhaseFacts:
    id: int
    position: int
    title: str
    purpose: str


@dataclass(frozen=True, slots=True)
class TaskFacts:
    """One task, whole. `position` orders it within its phase; `wait_days` run by themselves once it is done."""

    id: int
    phase_id: int
    position: int
    title: str
    kind: str
    who: str
    hands: int
    weather: str
    low_min: int
    likely_min: int
    high_min: int
    wait_days: int
    wait_reason: str
    one_go: bool
    note: str
    state: str
    started_on: date | None
    done_on: date | None


@dataclass(frozen=True, slots=True)
class NeedFacts:
    """One need as typed; a surface id of 0 means no surface."""

    id: int
    what_kind: str
    what_id: int
    what_surface_id: int
    needs_kind: str
    needs_id: int
    needs_surface_id: int
    strength: str
    lag_days: int
    reason: str


@dataclass(frozen=True, slots=True)
class ChangeFacts:
    was: str
    became: str
    on_day: date | None
    why: str
    at: datetime


@dataclass(frozen=True, slots=True)
class NextStep:
    """The first task of a phase to turn to. `held`: a need typed for it is not met, or cannot be judged here."""

    task_id: int
    title: str
    state: str
    held: bool


_BUILD = (Build.id, Build.slug, Build.name, Build.what, Build.length_unit, Build.currency, Build.lot_id)
_WORD = (BuildWord.build_id, BuildWord.word, BuildWord.one, BuildWord.many)
_PHASE = (Phase.id, Phase.position, Phase.title, Phase.purpose)
_TASK = tuple(getattr(Task, name) for name in TaskFacts.__dataclass_fields__)
_NEED = tuple(getattr(Need, name) for name in NeedFacts.__dataclass_fields__)
_CHANGE = tuple(getattr(TaskChange, name) for name in ChangeFacts.__dataclass_fields__)


def _columns(columns: tuple[Any, ...]) -> Select[Any]:
    return select(*(col(column) for column in columns))


def _builds(session: Session) -> tuple[BuildFacts, ...]:
    said: dict[int, list[tuple[str, str]]] = {}
    for build_id, word, one, many in rows(session, _columns(_WORD).order_by(col(BuildWord.id))):
        said.setdefault(build_id, []).extend(((word, one), (dict(GENERAL)[word], many)))
    found = rows(session, _columns(_BUILD).order_by(col(Build.id).desc()))
    return tuple(replace(BuildFacts(*row), words=tuple(said.get(row[0], ()))) for row in found)


def list_builds(session: Session) -> tuple[BuildFacts, ...]:
    """All builds, the newest first."""
    return remembered(session, "builds", lambda: _builds(session))


def get_build(session: Session, slug: str) -> BuildFacts:
    for build in list_builds(session):
        if build.slug == slug:
            return build
    raise NotFound(NO_BUILD)


@kept_list
def list_phases(session: Session, build_id: int) -> tuple[PhaseFacts, ...]:
    """In the builder's order."""
    wanted = _columns(_PHASE).where(col(Phase.build_id) == build_id).order_by(col(Phase.position), col(Phase.id))
    return tuple(PhaseFacts(*row) for row in rows(session, wanted))


def get_phase(session: Session, build_id: int, phase_id: int) -> PhaseFacts:
    wanted = _columns(_PHASE).where(col(Phase.id) == phase_id, col(Phase.build_id) == build_id)
    for row in rows(session, wanted):
        return PhaseFacts(*row)
    raise NotFound(NO_PHASE)


def _tasks(session: Session, *conditions: ColumnElement[bool]) -> tuple[TaskFacts, ...]:
    """Tasks in the builder's order: by phase, then by position."""
    wanted = (
        _columns(_TASK)
        .join(Phase, col(Phase.id) == col(Task.phase_id))
        .where(*conditions)
        .order_by(col(Phase.position), col(Phase.id), col(Task.position), col(Task.id))
    )
    return tuple(TaskFacts(*row) for row in rows(session, wanted))


@kept_list
def list_tasks(session: Session, build_id: int) -> tuple[TaskFacts, ...]:
    """Every task of the build, phase by phase in the builder's order."""
    return _tasks(session, col(Task.build_id) == build_id)


def list_phase_tasks(session: Session, phase_id: int) -> tuple[TaskFacts, ...]:
    return _tasks(session, col(Task.phase_id) == phase_id)


def get_task(session: Session, build_id: int, task_id: int) -> TaskFacts:
    for task in _tasks(session, col(Task.id) == task_id, col(Task.build_id) == build_id):
        return task
    raise NotFound(NO_TASK)


def tasks_by_id(session: Session, build_id: int, task_ids: frozenset[int]) -> Mapping[int, TaskFacts]:
    """Those of `task_ids` that are tasks of this build."""
    found = _tasks(session, col(Task.build_id) == build_id, col(Task.id).in_(task_ids))
    return {task.id: task for task in found}


@kept_list
def list_needs(session: Session, build_id: int) -> tuple[NeedFacts, ...]:
    """Every need typed in this build, as typed."""
    wanted = _columns(_NEED).where(col(Need.build_id) == build_id).order_by(col(Need.id))
    return tuple(NeedFacts(*row) for row in rows(session, wanted))


def needs_around(session: Session, task_id: int) -> tuple[NeedFacts, ...]:
    """What this task needs and what needs it, as typed."""
    wanted = _columns(_NEED).where(
        or_(
            and_(col(Need.what_kind) == NeedKind.TASK.value, col(Need.what_id) == task_id),
            and_(col(Need.needs_kind) == NeedKind.TASK.value, col(Need.needs_id) == task_id),
        )
    )
    return tuple(NeedFacts(*row) for row in rows(session, wanted.order_by(col(Need.id))))


def needs_within(session: Session, phase_id: int) -> tuple[tuple[int, int], ...]:
    """Pairs of tasks of one phase, the one that waits first: for seeing which stand in the wrong order."""
    waiter, needed = aliased(Task), aliased(Task)
    wanted = (
        select(col(Need.what_id), col(Need.needs_id))
        .join(waiter, col(waiter.id) == col(Need.what_id))
        .join(needed, col(needed.id) == col(Need.needs_id))
        .where(
            col(Need.what_kind) == NeedKind.TASK.value,
            col(Need.needs_kind) == NeedKind.TASK.value,
            col(waiter.phase_id) == phase_id,
            col(needed.phase_id) == phase_id,
        )
    )
    return tuple((row[0], row[1]) for row in rows(session, wanted))


def task_history(session: Session, task_id: int) -> tuple[ChangeFacts, ...]:
    """Each change of its state, days and needs, the latest first."""
    wanted = _columns(_CHANGE).where(col(TaskChange.task_id) == task_id)
    return tuple(ChangeFacts(*row) for row in rows(session, wanted.order_by(col(TaskChange.id).desc())))


def count_tasks(session: Session, build_id: int) -> Mapping[int, Mapping[str, int]]:
    """By phase, how many tasks stand in each state; phases without tasks are left out."""
    wanted = (
        select(col(Task.phase_id), col(Task.state), func.count())
        .where(col(Task.build_id) == build_id)
        .group_by(col(Task.phase_id), col(Task.state))
    )
    counts: dict[int, dict[str, int]] = {}
    for phase_id, state, count in rows(session, wanted):
        counts.setdefault(phase_id, {})[state] = count
    return counts


def phase_order(session: Session, build_id: int) -> tuple[tuple[int, int], ...]:
    """Id and position of each phase, in order."""
    wanted = select(col(Phase.id), col(Phase.position)).where(col(Phase.build_id) == build_id)
    return tuple((row[0], row[1]) for row in rows(session, wanted.order_by(col(Phase.position), col(Phase.id))))


def task_order(session: Session, phase_id: int) -> tuple[tuple[int, int], ...]:
    """Id and position of each task of a phase, in order."""
    wanted = select(col(Task.id), col(Task.position)).where(col(Task.phase_id) == phase_id)
    return tuple((row[0], row[1]) for row in rows(session, wanted.order_by(col(Task.position), col(Task.id))))


def _held(today: date) -> Label[bool]:
    """Whether a hard need typed for the task is not met: not a task (judged elsewhere), not done, or still curing."""
    needed = aliased(Task)
    days = func.max(col(needed.wait_days), col(Need.lag_days))
    over = func.date(col(needed.done_on), func.printf("+%d days", days))
    unmet = or_(
        col(Need.needs_kind) != NeedKind.TASK.value,
        col(needed.state) != TaskState.DONE.value,
        over > today.isoformat(),
    )
    is_it = and_(col(Need.needs_kind) == NeedKind.TASK.value, col(needed.id) == col(Need.needs_id))
    waits = (
        select(col(Need.id))
        .outerjoin(needed, is_it)
        .where(
            col(Need.what_kind) == NeedKind.TASK.value,
            col(Need.what_id) == col(Task.id),
            col(Need.strength) == Strength.HARD.value,
            unmet,
        )
        .correlate(Task)
    )
    return waits.exists().label("held")


def next_steps(session: Session, build_id: int, today: date) -> Mapping[int, NextStep]:
    """By phase, the task to turn to: under way before free to start before held, then in the builder's order."""
    open_tasks = (
        select(
            col(Task.phase_id),
            col(Task.id),
            col(Task.title),
            col(Task.state),
            col(Task.position),
            _held(today),
        )
        .where(col(Task.build_id) == build_id, col(Task.state) != TaskState.DONE.value)
        .subquery()
    )
    under_way = case((open_tasks.c.state == TaskState.UNDER_WAY.value, 0), else_=1)
    place = func.row_number().over(
        partition_by=open_tasks.c.phase_id,
        order_by=(under_way, open_tasks.c.held, open_tasks.c.position, open_tasks.c.id),
    )
    ranked = select(open_tasks, place.label("place")).subquery()
    first = select(ranked.c.phase_id, ranked.c.id, ranked.c.title, ranked.c.state, ranked.c.held)
    found = rows(session, first.where(ranked.c.place == 1))
    return {phase_id: NextStep(task_id, title, state, bool(held)) for phase_id, task_id, title, state, held in found}
