"""Everything of a build's surfaces, one query for each kind of thing."""

import json
from collections.abc import Iterable
from dataclasses import replace
from typing import Any

from sqlalchemy import ColumnElement, ScalarSelect, Select, select
from sqlalchemy.orm import Mapped
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.photos.models import Photo
from webapp.surfaces.models import (
    Cover,
    Item,
    Lifted,
    Opening,
    PicturePlace,
    PictureSlot,
    Question,
    Run,
    ShotSurface,
    Surface,
    SurfaceChange,
    TaskSurface,
)
from webapp.surfaces.store.facts import (
    ChangeFacts,
    CoverFacts,
    ItemFacts,
    LiftedFacts,
    OpeningFacts,
    PlaceFacts,
    QuestionFacts,
    RunFacts,
    ShotSurfaceFacts,
    SlotFacts,
    SurfaceFacts,
    TaskSurfaceFacts,
)


def _own(table: type, facts: type, leave: Iterable[str] = ()) -> list[Mapped[Any]]:
    """The columns of `table` that the fields of `facts` are named after."""
    return [col(getattr(table, name)) for name in facts.__dataclass_fields__ if name not in leave]  # type: ignore[attr-defined]


def _covered_on() -> ScalarSelect[Any]:
    """The day of the latest closing that was not opened up again."""
    return (
        select(col(Cover.covered_on))
        .where(col(Cover.surface_id) == col(Surface.id), col(Cover.opened_on).is_(None))
        .order_by(col(Cover.id).desc())
        .limit(1)
        .correlate(Surface)
        .scalar_subquery()
    )


def _of_build(columns: Iterable[Any], table: type, build_id: int) -> Select[Any]:
    """A select of rows that belong to a surface of the build."""
    statement: Select[Any] = select(*columns).join(Surface, col(Surface.id) == col(table.surface_id))  # type: ignore[attr-defined]
    return statement.where(col(Surface.build_id) == build_id)


@kept_list
def list_surfaces(session: Session, build_id: int) -> tuple[SurfaceFacts, ...]:
    """All surfaces, clockwise from the door as the builder numbered them."""
    statement = (
        select(*_own(Surface, SurfaceFacts, ("covered_on",)), _covered_on())
        .where(col(Surface.build_id) == build_id)
        .order_by(col(Surface.position), col(Surface.id))
    )
    return tuple(SurfaceFacts(*row) for row in rows(session, statement))


@kept_list
def list_items(session: Session, build_id: int) -> tuple[ItemFacts, ...]:
    """All hidden things, left to right on each surface; those without an offset last."""
    statement = _of_build(_own(Item, ItemFacts), Item, build_id).order_by(
        col(Surface.position), col(Item.x_nm).nulls_last(), col(Item.id)
    )
    return tuple(ItemFacts(*row) for row in rows(session, statement))


@kept_list
def list_openings(session: Session, build_id: int) -> tuple[OpeningFacts, ...]:
    """By surface and from left to right, also those that are there no more."""
    statement = _of_build(_own(Opening, OpeningFacts), Opening, build_id)
    ordered = statement.order_by(col(Surface.position), col(Opening.x_nm), col(Opening.id))
    return tuple(OpeningFacts(*row) for row in rows(session, ordered))


@kept_list
def list_runs(session: Session, build_id: int) -> tuple[RunFacts, ...]:
    """By surface, in the order they were written down, also those that were replaced."""
    statement = _of_build(_own(Run, RunFacts), Run, build_id)
    ordered = statement.order_by(col(Surface.position), col(Run.id))
    return tuple(_run(*row) for row in rows(session, ordered))


def _run(*values: Any) -> RunFacts:
    row = RunFacts(*values)
    return replace(row, points=tuple((x, y) for x, y in json.loads(values[5])))


@kept_list
def list_slots(session: Session, build_id: int) -> tuple[SlotFacts, ...]:
    """All owed pictures with what fills them, in the builder's order on each surface."""
    columns = _own(PictureSlot, SlotFacts, ("sha256", "taken_at", "covered_on"))
    statement = (
        _of_build([*columns, col(Photo.sha256), col(Photo.taken_at), _covered_on()], PictureSlot, build_id)
        .outerjoin(Photo, col(Photo.id) == col(PictureSlot.photo_id))
        .order_by(col(Surface.position), col(PictureSlot.position), col(PictureSlot.id))
    )
    return tuple(SlotFacts(*row) for row in rows(session, statement))


@kept_list
def list_questions(session: Session, build_id: int) -> tuple[QuestionFacts, ...]:
    """All questions, open and settled, the latest asked first."""
    statement = select(*_own(Question, QuestionFacts)).where(col(Question.build_id) == build_id)
    ordered = statement.order_by(col(Question.asked_on).desc(), col(Question.id).desc())
    return tuple(QuestionFacts(*row) for row in rows(session, ordered))


@kept_list
def list_lifted(session: Session, build_id: int) -> tuple[LiftedFacts, ...]:
    """All that was let go and still counts, the latest first."""
    return _lifted(session, build_id, col(Lifted.ended_on).is_(None))


@kept_list
def list_lifted_before(session: Session, build_id: int) -> tuple[LiftedFacts, ...]:
    """What was let go before its surface was opened up again, the latest first: history, it counts no more."""
    return _lifted(session, build_id, col(Lifted.ended_on).is_not(None))


def _lifted(session: Session, build_id: int, which: ColumnElement[bool]) -> tuple[LiftedFacts, ...]:
    statement = _of_build(_own(Lifted, LiftedFacts), Lifted, build_id).where(which)
    ordered = statement.order_by(col(Lifted.on_day).desc(), col(Lifted.id).desc())
    return tuple(LiftedFacts(*row) for row in rows(session, ordered))


@kept_list
def list_covers(session: Session, build_id: int) -> tuple[CoverFacts, ...]:
    """All closings, the latest first, also those that were opened up again."""
    statement = _of_build(_own(Cover, CoverFacts), Cover, build_id)
    found = rows(session, statement.order_by(col(Cover.covered_on).desc(), col(Cover.id).desc()))
    return tuple(_cover(*row) for row in found)


def _cover(*values: Any) -> CoverFacts:
    facts = dict(zip(CoverFacts.__dataclass_fields__, values, strict=True))
    facts["evidence"] = tuple((what, who, when) for what, who, when in json.loads(facts["evidence"]))
    return CoverFacts(**facts)


@kept_list
def list_task_surfaces(session: Session, build_id: int) -> tuple[TaskSurfaceFacts, ...]:
    """Which task works on which surface, or closes it."""
    statement = _of_build(_own(TaskSurface, TaskSurfaceFacts), TaskSurface, build_id).order_by(col(TaskSurface.id))
    return tuple(TaskSurfaceFacts(*row) for row in rows(session, statement))


@kept_list
def list_shot_surfaces(session: Session, build_id: int) -> tuple[ShotSurfaceFacts, ...]:
    """Which shot is taken of which surface."""
    statement = _of_build(_own(ShotSurface, ShotSurfaceFacts), ShotSurface, build_id).order_by(col(ShotSurface.id))
    return tuple(ShotSurfaceFacts(*row) for row in rows(session, statement))


def list_places(session: Session, build_id: int, *where: ColumnElement[bool]) -> tuple[PlaceFacts, ...]:
    """Where the build's pictures belong, the last placed first."""
    statement = select(*_own(PicturePlace, PlaceFacts)).where(col(PicturePlace.build_id) == build_id, *where)
    return tuple(PlaceFacts(*row) for row in rows(session, statement.order_by(col(PicturePlace.id).desc())))


def list_changes(session: Session, build_id: int) -> tuple[ChangeFacts, ...]:
    """What was put right on surfaces and what belongs to them, the latest first."""
    statement = select(*_own(SurfaceChange, ChangeFacts)).where(col(SurfaceChange.build_id) == build_id)
    return tuple(ChangeFacts(*row) for row in rows(session, statement.order_by(col(SurfaceChange.id).desc())))
