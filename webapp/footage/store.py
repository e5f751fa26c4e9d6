"""Reading what is to be filmed and what was."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.footage.models import Shot, ShotChange
from webapp.plan.models import Phase, Task
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class ShotFacts:
    """One shot, with the task it goes before or with (None where it belongs to none)."""

    id: int
    task_id: int | None
    what: str
    once: bool
    strength: str
    state: str
    filmed_on: date | None
    where_it_lies: str
    files: str
    seconds: int | None
    note: str
    skipped_on: date | None
    skipped_why: str
    task: str | None
    task_state: str | None
    phase_position: int | None
    task_position: int | None


@dataclass(frozen=True, slots=True)
class StepFacts:
    """A task that a shot can be filmed at, as a choice in a form."""

    id: int
    title: str
    phase: str
    state: str


_OWN = (
    "id",
    "task_id",
    "what",
    "once",
    "strength",
    "state",
    "filmed_on",
    "where_it_lies",
    "files",
    "seconds",
    "note",
    "skipped_on",
    "skipped_why",
)


@kept_list
def list_shots(session: Session, build_id: int) -> tuple[ShotFacts, ...]:
    """All shots of a build in the order of their tasks, those without a task last. One query."""
    own = (col(getattr(Shot, name)) for name in _OWN)
    statement = (
        select(*own, col(Task.title), col(Task.state), col(Phase.position), col(Task.position))
        .select_from(Shot)
        .outerjoin(Task, col(Task.id) == col(Shot.task_id))
        .outerjoin(Phase, col(Phase.id) == col(Task.phase_id))
        .where(col(Shot.build_id) == build_id)
        .order_by(col(Phase.position).nulls_last(), col(Task.position), col(Shot.id))
    )
    return tuple(ShotFacts(*row) for row in rows(session, statement))


def get_shot(session: Session, build_id: int, shot_id: int) -> ShotFacts:
    for shot in list_shots(session, build_id):
        if shot.id == shot_id:
            return shot
    raise NotFound("There is no such shot here.")


def list_steps(session: Session, build_id: int) -> tuple[StepFacts, ...]:
    """The tasks of a build in the builder's order. One query."""
    statement = (
        select(col(Task.id), col(Task.title), col(Phase.title), col(Task.state))
        .join(Phase, col(Phase.id) == col(Task.phase_id))
        .where(col(Task.build_id) == build_id)
        .order_by(col(Phase.position), col(Task.position))
    )
    return tuple(StepFacts(*row) for row in rows(session, statement))


def list_changes(session: Session, shot_id: int) -> tuple[tuple[str, str, str, datetime], ...]:
    """What was put right on a shot, the latest first: field, what it was, what it became, when."""
    statement = select(col(ShotChange.field), col(ShotChange.was), col(ShotChange.became), col(ShotChange.at))
    own = statement.where(col(ShotChange.shot_id) == shot_id).order_by(col(ShotChange.id).desc())
    return tuple(tuple(row) for row in rows(session, own))
