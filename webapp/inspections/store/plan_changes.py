"""Reading changes from what was approved, and what they made owed anew. There are a few in a whole build."""

from collections import defaultdict
from typing import Any

from sqlalchemy import Select, func, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import (
    PlanChange,
    PlanChangeHistory,
    PlanChangeItem,
    PlanChangeSurface,
    Reopened,
)
from webapp.inspections.rules.facts import ChangeFacts, PlanChangeFacts, ReopenedFacts
from webapp.photos.models import Photo
from webapp.surfaces.models import Item
from webapp.values.errors import NotFound

_OWN = ("id", "on_day", "what", "why", "who_agrees", "asked_on", "answer", "answered_on", "answer_words", "at")


@kept_list
def list_plan_changes(session: Session, build_id: int) -> tuple[PlanChangeFacts, ...]:
    """The latest first."""
    chosen: Select[Any] = (
        select(*(getattr(PlanChange, name) for name in _OWN), func.coalesce(col(Photo.sha256), ""))
        .outerjoin(Photo, col(Photo.id) == col(PlanChange.photo_id))
        .where(col(PlanChange.build_id) == build_id)
        .order_by(col(PlanChange.on_day).desc(), col(PlanChange.id).desc())
    )
    own, found = rows(session, chosen), []
    if not own:  # a build without a change is asked once
        return ()
    surfaces, items, undone = _surfaces(session, build_id), _items(session, build_id), _undone(session, build_id)
    for row in own:
        values: list[Any] = [*row, surfaces.get(row[0], ()), items.get(row[0], ()), undone.get(row[0], False)]
        found.append(PlanChangeFacts(*values))
    return tuple(found)


def _surfaces(session: Session, build_id: int) -> dict[int, tuple[int, ...]]:
    chosen = (
        select(col(PlanChangeSurface.change_id), col(PlanChangeSurface.surface_id))
        .join(PlanChange, col(PlanChange.id) == col(PlanChangeSurface.change_id))
        .where(col(PlanChange.build_id) == build_id)
        .order_by(col(PlanChangeSurface.id))
    )
    return _grouped(rows(session, chosen))


def _items(session: Session, build_id: int) -> dict[int, tuple[int, ...]]:
    chosen = (
        select(col(PlanChangeItem.change_id), col(PlanChangeItem.item_id))
        .join(PlanChange, col(PlanChange.id) == col(PlanChangeItem.change_id))
        .where(col(PlanChange.build_id) == build_id)
        .order_by(col(PlanChangeItem.id))
    )
    return _grouped(rows(session, chosen))


def _undone(session: Session, build_id: int) -> dict[int, bool]:
    """Whether everything that a change put in place of its things was moved on or taken away since."""
    new = aliased(Item)
    chosen = (
        select(col(PlanChangeItem.change_id), func.min(col(new.replaced_on).is_not(None)))
        .join(PlanChange, col(PlanChange.id) == col(PlanChangeItem.change_id))
        .join(Item, col(Item.id) == col(PlanChangeItem.item_id))
        .join(new, col(new.id) == col(Item.replaced_by_id))
        .where(col(PlanChange.build_id) == build_id)
        .group_by(col(PlanChangeItem.change_id))
    )
    return {change_id: bool(gone) for change_id, gone in rows(session, chosen)}


def _grouped(pairs: Any) -> dict[int, tuple[int, ...]]:
    found: dict[int, list[int]] = defaultdict(list)
    for change_id, other in pairs:
        found[change_id].append(other)
    return {change_id: tuple(others) for change_id, others in found.items()}


def get_plan_change(session: Session, build_id: int, change_id: int) -> PlanChangeFacts:
    for change in list_plan_changes(session, build_id):
        if change.id == change_id:
            return change
    raise NotFound("There is no such change here.")


def list_reopened(session: Session) -> tuple[ReopenedFacts, ...]:
    """Of every build: a few rows, and an inspection is of one build anyway."""
    chosen = (
        select(
            col(Reopened.change_id),
            col(Reopened.inspection_id),
            col(Reopened.surface_id),
            col(PlanChange.on_day),
            col(PlanChange.at),
        )
        .join(PlanChange, col(PlanChange.id) == col(Reopened.change_id))
        .order_by(col(Reopened.id))
    )
    return tuple(ReopenedFacts(*row) for row in rows(session, chosen))


def list_plan_change_history(session: Session, change_id: int) -> tuple[ChangeFacts, ...]:
    """What a change was said to be before, oldest first."""
    names = ("field", "was", "became", "why", "at")
    chosen = select(*(getattr(PlanChangeHistory, name) for name in names))
    of_it = chosen.where(col(PlanChangeHistory.change_id) == change_id).order_by(col(PlanChangeHistory.id))
    return tuple(ChangeFacts(*row) for row in rows(session, of_it))
