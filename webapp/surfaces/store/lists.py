"""Everything of a build's surfaces, one query for each kind of thing."""

import json
from collections.abc import Iterable, Mapping
from dataclasses import replace
from typing import Any

from sqlalchemy import ColumnElement, ScalarSelect, Select, func, or_, select
from sqlalchemy.orm import Mapped
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.photos.models import Photo
from webapp.surfaces.models import (
    Cover,
    CoverStep,
    FixedTie,
    Item,
    Lifted,
    Opening,
    PicturePlace,
    PictureSlot,
    Question,
    Run,
    ServiceLine,
    ShotSurface,
    Surface,
    SurfaceChange,
    TaskSurface,
)
from webapp.surfaces.rules.corners import along
from webapp.surfaces.store.added import ADDED
from webapp.surfaces.store.facts import (
    ChangeFacts,
    CoverFacts,
    CoverStepFacts,
    ItemFacts,
    LiftedFacts,
    LineFacts,
    OpeningFacts,
    PlaceFacts,
    QuestionFacts,
    RunFacts,
    ShotSurfaceFacts,
    SlotFacts,
    SurfaceFacts,
    TaskSurfaceFacts,
    TieFacts,
)

NOTHING_OWED = "[]"


def _own(table: type, facts: type, leave: Iterable[str] = ()) -> list[Mapped[Any]]:
    """The columns of `table` that the fields of `facts` are named after."""
    return [col(getattr(table, name)) for name in facts.__dataclass_fields__ if name not in leave]  # type: ignore[attr-defined]


def _covered_on() -> ScalarSelect[Any]:
    """The day of the latest closing that was not opened up again. A covering by mistake closes nothing."""
    return (
        select(col(Cover.covered_on))
        .where(
            col(Cover.surface_id) == col(Surface.id),
            col(Cover.opened_on).is_(None),
            col(Cover.not_cleared) == NOTHING_OWED,
        )
        .order_by(col(Cover.id).desc())
        .limit(1)
        .correlate(Surface)
        .scalar_subquery()
    )


def _hid_on() -> ScalarSelect[Any]:
    """The day its surface was covered, rightly or not, if that lay between this picture and what it should show."""
    taken = func.substr(col(Photo.taken_at), 1, 10)
    return (
        select(func.min(col(Cover.covered_on)))
        .where(
            col(Cover.surface_id) == col(Surface.id),
            col(Cover.covered_on) < taken,
            or_(col(Cover.opened_on).is_(None), col(Cover.opened_on) > taken),
        )
        .correlate(Surface, Photo)
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
def list_lines(session: Session, build_id: int) -> tuple[LineFacts, ...]:
    """All circuits and lines in the builder's order, also those taken out of use."""
    statement = select(*_own(ServiceLine, LineFacts)).where(col(ServiceLine.build_id) == build_id)
    ordered = statement.order_by(col(ServiceLine.position), col(ServiceLine.id))
    return tuple(LineFacts(*row) for row in rows(session, ordered))


def _of_line(table: type, column: str) -> Any:
    """A column of the line that a row belongs to; empty where it belongs to none."""
    own = select(col(getattr(ServiceLine, column))).where(col(ServiceLine.id) == col(table.line_id))  # type: ignore[attr-defined]
    return func.coalesce(own.correlate(table).scalar_subquery(), "")


def _with_line(table: type, facts: type) -> list[Any]:
    """The columns of `facts`, its `line` read from the line itself."""
    named = {"line": _of_line(table, "code"), "line_kind": _of_line(table, "kind"), "typed_nm": col(Item.x_nm)}
    return [named[name] if name in named else col(getattr(table, name)) for name in facts.__dataclass_fields__]  # type: ignore[attr-defined]


@kept_list
def list_items(session: Session, build_id: int) -> tuple[ItemFacts, ...]:
    """All hidden things, left to right on each surface; those without an offset last."""
    surfaces = {surface.id: surface for surface in list_surfaces(session, build_id)}
    found = rows(session, _of_build(_with_line(Item, ItemFacts), Item, build_id).order_by(col(Item.id)))
    items = [_item(surfaces, ItemFacts(*row)) for row in found]
    return tuple(
        sorted(items, key=lambda item: (surfaces[item.surface_id].position, item.x_nm is None, item.x_nm or 0))
    )


def _item(surfaces: Mapping[int, SurfaceFacts], item: ItemFacts) -> ItemFacts:
    """Placed along its surface, from whichever end it was measured."""
    x_nm = along(surfaces[item.surface_id], item.from_corner, item.typed_nm)
    return item if x_nm == item.x_nm else replace(item, x_nm=x_nm)


@kept_list
def list_openings(session: Session, build_id: int) -> tuple[OpeningFacts, ...]:
    """By surface and from left to right, also those that are there no more."""
    statement = _of_build(_own(Opening, OpeningFacts), Opening, build_id)
    ordered = statement.order_by(col(Surface.position), col(Opening.x_nm), col(Opening.id))
    return tuple(OpeningFacts(*row) for row in rows(session, ordered))


@kept_list
def list_runs(session: Session, build_id: int) -> tuple[RunFacts, ...]:
    """By surface, in the order they were written down, also those that were replaced."""
    statement = _of_build(_with_line(Run, RunFacts), Run, build_id)
    ordered = statement.order_by(col(Surface.position), col(Run.id))
    return tuple(_run(*row) for row in rows(session, ordered))


def _run(*values: Any) -> RunFacts:
    facts = dict(zip(RunFacts.__dataclass_fields__, values, strict=True))
    facts["points"] = tuple((x, y) for x, y in json.loads(facts["points"]))
    return RunFacts(**facts)


@kept_list
def list_ties(session: Session, build_id: int) -> tuple[TieFacts, ...]:
    """By surface and along it, also those that are gone."""
    statement = _of_build(_own(FixedTie, TieFacts), FixedTie, build_id)
    ordered = statement.order_by(col(Surface.position), col(FixedTie.x_nm), col(FixedTie.id))
    return tuple(TieFacts(*row) for row in rows(session, ordered))


@kept_list
def list_slots(session: Session, build_id: int) -> tuple[SlotFacts, ...]:
    """All owed pictures with what fills them, in the builder's order on each surface."""
    return _slots(session, build_id, col(PictureSlot.ended_on).is_(None))


@kept_list
def list_slots_before(session: Session, build_id: int) -> tuple[SlotFacts, ...]:
    """Pictures owed of what was moved or taken away since: history, owed no more."""
    return _slots(session, build_id, col(PictureSlot.ended_on).is_not(None))


def _slots(session: Session, build_id: int, which: ColumnElement[bool]) -> tuple[SlotFacts, ...]:
    columns = _own(PictureSlot, SlotFacts, ("sha256", "taken_at", "taken_from", "covered_on", "hid_on"))
    of_photo = [col(Photo.sha256), col(Photo.taken_at), col(Photo.taken_from)]
    statement = (
        _of_build([*columns, *of_photo, _covered_on(), _hid_on()], PictureSlot, build_id)
        .outerjoin(Photo, col(Photo.id) == col(PictureSlot.photo_id))
        .where(which)
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
    statement = _of_build(_own(Cover, CoverFacts, ("owed_keys",)), Cover, build_id)
    found = rows(session, statement.order_by(col(Cover.covered_on).desc(), col(Cover.id).desc()))
    return tuple(_cover(*row) for row in found)


def _cover(*values: Any) -> CoverFacts:
    names = [name for name in CoverFacts.__dataclass_fields__ if name != "owed_keys"]
    facts = dict(zip(names, values, strict=True))
    facts["evidence"] = tuple((what, who, when) for what, who, when in json.loads(facts["evidence"]))
    owed = json.loads(facts["not_cleared"])
    facts["not_cleared"] = tuple((what, where) for what, where, _ in owed)
    facts["owed_keys"] = tuple(key for _, _, key in owed)
    return CoverFacts(**facts)


@kept_list
def list_cover_steps(session: Session, build_id: int) -> tuple[CoverStepFacts, ...]:
    """What was done about coverings by mistake, in the order of the days."""
    statement = (
        select(*_own(CoverStep, CoverStepFacts))
        .join(Cover, col(Cover.id) == col(CoverStep.cover_id))
        .join(Surface, col(Surface.id) == col(Cover.surface_id))
        .where(col(Surface.build_id) == build_id)
    )
    ordered = statement.order_by(col(CoverStep.on_day), col(CoverStep.id))
    return tuple(CoverStepFacts(*row) for row in rows(session, ordered))


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


@kept_list
def list_changes(session: Session, build_id: int) -> tuple[ChangeFacts, ...]:
    """What was put right on surfaces and what belongs to them, the latest first."""
    statement = select(*_own(SurfaceChange, ChangeFacts)).where(
        col(SurfaceChange.build_id) == build_id, col(SurfaceChange.field) != ADDED
    )
    return tuple(ChangeFacts(*row) for row in rows(session, statement.order_by(col(SurfaceChange.id).desc())))
