"""What is to be filmed, and where what was filmed lies."""

from dataclasses import dataclass, fields
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.footage import store
from webapp.footage.models import Shot, ShotChange
from webapp.values.errors import BadInput, NotFound


@dataclass(frozen=True, slots=True)
class ShotDraft:
    """What the builder says of a shot. `strength`: must or wish; `task_id`: the step it is filmed before or at."""

    what: str
    task_id: int | None
    once: bool
    strength: str
    note: str


def _row(session: Session, shot_id: int) -> Shot:
    shot = session.get(Shot, shot_id)
    if shot is None:
        raise NotFound("There is no such shot here.")
    return shot


def _change(session: Session, shot: Shot, field: str, became: object) -> None:
    was = getattr(shot, field)
    if was == became:
        return
    if was not in (None, ""):
        session.add(
            ShotChange(
                shot_id=shot.row_id,
                field=field,
                was=str(was),
                became="" if became is None else str(became),
                at=clock.now(),
            )
        )
    setattr(shot, field, became)
    session.add(shot)


def _check_step(session: Session, build_id: int, task_id: int | None) -> None:
    if task_id is not None and all(step.id != task_id for step in store.list_steps(session, build_id)):
        raise NotFound("There is no such task in this build.")


def add_shot(session: Session, build_id: int, draft: ShotDraft) -> Shot:
    """Put a shot on the list. Raises NotFound for a task of another build."""
    _check_step(session, build_id, draft.task_id)
    made = Shot(build_id=build_id, **{field.name: getattr(draft, field.name) for field in fields(draft)})
    session.add(made)
    session.flush()
    return made


def edit_shot(session: Session, build_id: int, shot_id: int, draft: ShotDraft) -> None:
    """Put right what is said of a shot; what was said stays readable."""
    store.get_shot(session, build_id, shot_id)
    _check_step(session, build_id, draft.task_id)
    for field in fields(draft):
        _change(session, _row(session, shot_id), field.name, getattr(draft, field.name))


def film(session: Session, shot_id: int, on: date, where: str = "", files: str = "") -> None:
    """It is filmed: the day, the card or drive, the file names. Said again, it keeps readable what was said before."""
    shot = _row(session, shot_id)
    _change(session, shot, "filmed_on", on)
    _change(session, shot, "where_it_lies", where.strip())
    _change(session, shot, "files", files.strip())
    _change(session, shot, "state", "filmed")


def skip_shot(session: Session, shot_id: int, on: date, why: str) -> None:
    """Skip a wish, with the reason that stays for ever. Raises BadInput without one, or for one that must be filmed."""
    shot = _row(session, shot_id)
    if not why.strip():
        raise BadInput("Write why it is skipped; the reason stays on record for ever.")
    if shot.strength == "must":
        raise BadInput("This one stops the closing of its surface. Let it go there, under Before cover, with a reason.")
    _change(session, shot, "skipped_on", on)
    _change(session, shot, "skipped_why", why.strip())
    _change(session, shot, "state", "skipped")


def not_filmed(session: Session, shot_id: int, why: str) -> None:
    """The shot is owed again: the file is lost or shows nothing. Raises BadInput without a reason."""
    shot = _row(session, shot_id)
    if not why.strip():
        raise BadInput("Write what is wrong with what was filmed.")
    was = f"{shot.state} {shot.filmed_on or shot.skipped_on or ''}, {shot.where_it_lies or shot.skipped_why}".strip(
        " ,"
    )
    session.add(
        ShotChange(shot_id=shot_id, field="state", was=was, became=f"owed again: {why.strip()}", at=clock.now())
    )
    shot.state, shot.filmed_on, shot.skipped_on = "owed", None, None
    shot.where_it_lies = shot.files = shot.skipped_why = ""
    session.add(shot)
