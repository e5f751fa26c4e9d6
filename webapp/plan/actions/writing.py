"""Builds, phases and tasks: put down, changed, put in another order."""

from collections.abc import Sequence
from dataclasses import asdict, dataclass
from typing import Any

from sqlalchemy import delete
from sqlmodel import Session, col

from webapp.core import clock
from webapp.plan import store
from webapp.plan.actions.lots import lot_of
from webapp.plan.models import Build, Phase, Task, TaskDanger
from webapp.plan.rules.kinds import LengthUnit, Weather, Who
from webapp.plan.rules.moves import too_early
from webapp.plan.store.dangers import dangers_of
from webapp.values.errors import NotFound
from webapp.values.words import plain_slug


@dataclass(frozen=True, slots=True)
class NewBuild:
    """`length_unit` is one of LengthUnit, `currency` a code of ISO 4217."""

    name: str
    what: str = ""
    length_unit: str = LengthUnit.FEET_INCHES.value
    currency: str = "USD"
    lot_id: int | None = None
    new_lot: str = ""
    """a lot that has no row yet, by its name"""


@dataclass(frozen=True, slots=True)
class PlannedTask:
    """What the builder says of a task. Minutes for all hands together, wait in calendar days."""

    title: str
    kind: str
    who: str = Who.SELF.value
    hands: int = 1
    weather: str = Weather.ANY.value
    low_min: int = 60
    likely_min: int = 120
    high_min: int = 240
    wait_days: int = 0
    wait_reason: str = ""
    one_go: bool = False
    note: str = ""
    dangers: tuple[str, ...] = ()
    """of Danger, as ticked"""

    def columns(self) -> dict[str, Any]:
        """What stands in the row of the task itself."""
        values = asdict(self)
        values.pop("dangers")
        return values


def add_build(session: Session, new: NewBuild) -> Build:
    """A build with nothing in it yet, under an address that no other has."""
    taken = {build.slug for build in store.list_builds(session)}
    plain = plain_slug(new.name)[:50] or "build"
    slug, number = plain, 2
    while slug in taken:
        slug, number = f"{plain}-{number}", number + 1
    values = asdict(new)
    values["lot_id"] = lot_of(session, new.lot_id, values.pop("new_lot"))
    build = Build(slug=slug, made_at=clock.now(), **values)
    session.add(build)
    session.flush()
    return build


def add_phase(session: Session, build_id: int, title: str, purpose: str = "") -> Phase:
    """A phase after all others."""
    last = max((position for _, position in store.phase_order(session, build_id)), default=0)
    phase = Phase(build_id=build_id, position=last + 1, title=title, purpose=purpose)
    session.add(phase)
    session.flush()
    return phase


def edit_phase(session: Session, build_id: int, phase_id: int, title: str, purpose: str) -> None:
    phase = _phase(session, build_id, phase_id)
    phase.title, phase.purpose = title, purpose


def order_phases(session: Session, build_id: int, order: tuple[int, ...]) -> None:
    """All phases of the build in a new order. Whether it hides something unseen is asked by readiness."""
    _put_in_order(session, Phase, store.phase_order(session, build_id), order)


def add_task(session: Session, build_id: int, phase_id: int, planned: PlannedTask) -> Task:
    """A task at the end of its phase."""
    _phase(session, build_id, phase_id)
    task = Task(build_id=build_id, phase_id=phase_id, position=_last(session, phase_id) + 1, **planned.columns())
    session.add(task)
    session.flush()
    _tick_dangers(session, task.row_id, (), planned.dangers)
    return task


def edit_task(session: Session, build_id: int, task_id: int, planned: PlannedTask, phase_id: int) -> None:
    """What is said of it, and its phase; in another phase it goes to the end. State and days are not touched."""
    task = _task(session, build_id, task_id)
    if phase_id != task.phase_id:
        _phase(session, build_id, phase_id)
        task.position = _last(session, phase_id) + 1
        task.phase_id = phase_id
    for name, value in planned.columns().items():
        setattr(task, name, value)
    _tick_dangers(session, task_id, dangers_of(session, build_id).get(task_id, ()), planned.dangers)


def _tick_dangers(session: Session, task_id: int, were: Sequence[str], ticked: Sequence[str]) -> None:
    for danger in ticked:
        if danger not in were:
            session.add(TaskDanger(task_id=task_id, danger=danger))
    if gone := [danger for danger in were if danger not in ticked]:
        session.exec(delete(TaskDanger).where(col(TaskDanger.task_id) == task_id, col(TaskDanger.danger).in_(gone)))
    session.flush()


def order_tasks(session: Session, build_id: int, phase_id: int, after: tuple[int, ...]) -> tuple[tuple[str, str], ...]:
    """All tasks of a phase in a new order. Whether it hides something unseen is asked by readiness.

    Gives the titles (waiter, needed) that this put the wrong way round: allowed, since the needs still hold.
    """
    order = store.task_order(session, phase_id)
    before = tuple(number for number, _ in order)
    _put_in_order(session, Task, order, after)
    needs = store.needs_within(session, phase_id)
    new = set(too_early(after, needs)) - set(too_early(before, needs))
    titles = store.tasks_by_id(session, build_id, frozenset(number for pair in new for number in pair))
    return tuple((titles[waiter].title, titles[needed].title) for waiter, needed in sorted(new))


def _put_in_order(
    session: Session, table: type[Phase] | type[Task], was: tuple[tuple[int, int], ...], order: tuple[int, ...]
) -> None:
    """Number the rows anew from 1; only those whose number changes are written."""
    positions = dict(was)
    for position, number in enumerate(order, 1):
        if positions[number] != position and (row := session.get(table, number)):
            row.position = position
    session.flush()


def _last(session: Session, phase_id: int) -> int:
    return max((position for _, position in store.task_order(session, phase_id)), default=0)


def _phase(session: Session, build_id: int, phase_id: int) -> Phase:
    phase = session.get(Phase, phase_id)
    if phase is None or phase.build_id != build_id:
        raise NotFound(store.NO_PHASE)
    return phase


def _task(session: Session, build_id: int, task_id: int) -> Task:
    task = session.get(Task, task_id)
    if task is None or task.build_id != build_id:
        raise NotFound(store.NO_TASK)
    return task
