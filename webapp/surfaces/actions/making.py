"""Putting surfaces, hidden things and owed pictures on record, and putting them right."""

from collections.abc import Callable, Collection
from dataclasses import dataclass, fields
from datetime import date
from typing import Any, TypeVar

from sqlmodel import Session, SQLModel

from webapp.core import clock
from webapp.core.tables import Table
from webapp.surfaces import store
from webapp.surfaces.actions.moving import last_slot, owe_anew
from webapp.surfaces.models import FixedTie, Item, Opening, PictureSlot, Surface, SurfaceChange
from webapp.surfaces.store.added import ADDED
from webapp.values.dates import show_date
from webapp.values.errors import BadInput

Row = TypeVar("Row", bound=Table)


@dataclass(frozen=True, slots=True)
class SurfaceDraft:
    """What the builder says of a surface, lengths in nanometres."""

    name: str
    kind: str
    length_nm: int | None
    height_nm: int | None
    origin_corner: str
    far_corner: str
    framing: str
    spacing_nm: int | None
    first_stud_nm: int | None
    bearing: bool
    facing: str
    closed_by: str
    note: str
    needs_count: bool


@dataclass(frozen=True, slots=True)
class ItemDraft:
    """What the builder says of a hidden thing: its centre from a named corner and above the finished floor."""

    label: str
    kind: str
    service: str
    line_id: int | None
    from_corner: str
    x_nm: int | None
    y_nm: int | None
    width_nm: int | None
    note: str
    is_box: bool
    from_picture: bool = False
    """worked out from a picture, not measured"""


def note_change(
    session: Session, build_id: int, kind: str, row_id: int, field: str, was: object, became: object, why: str = ""
) -> None:
    """Keep readable what something was."""
    session.add(
        SurfaceChange(
            build_id=build_id,
            what_kind=kind,
            what_id=row_id,
            field=field,
            was=_shown(was),
            became=_shown(became),
            why=why,
            at=clock.now(),
        )
    )


def _shown(value: object) -> str:
    return "" if value is None else str(value)


def put_right(session: Session, row: SQLModel, draft: object, build_id: int, kind: str, row_id: int) -> None:
    for field in fields(draft):  # type: ignore[arg-type]
        was, became = getattr(row, field.name), getattr(draft, field.name)
        if was != became:
            note_change(session, build_id, kind, row_id, field.name, was, became)
            setattr(row, field.name, became)
    session.add(row)


def add_surface(session: Session, build_id: int, code: str, draft: SurfaceDraft) -> Surface:
    """Put a surface last on the round. Raises BadInput when its short name is taken."""
    listed = store.list_surfaces(session, build_id)
    if any(surface.code.casefold() == code.casefold() for surface in listed):
        raise BadInput(f"“{code}” is the short name of another surface here.")
    position = max((surface.position for surface in listed), default=0) + 1
    made = Surface(build_id=build_id, code=code, position=position, **values_of(draft))
    session.add(made)
    session.flush()
    note_change(session, build_id, "surface", made.row_id, ADDED, "", made.name)
    return made


def values_of(draft: object) -> dict[str, Any]:
    return {field.name: getattr(draft, field.name) for field in fields(draft)}  # type: ignore[arg-type]


def keep_on(session: Session, table: Callable[..., Row], surface_id: int, draft: object) -> Row:
    """A new row of what belongs to a surface, as the draft says."""
    made = table(surface_id=surface_id, **values_of(draft))
    session.add(made)
    session.flush()
    return made


def edit_surface(session: Session, build_id: int, surface_id: int, draft: SurfaceDraft) -> None:
    """Put right what is said of a surface; what was said stays readable."""
    row = session.get_one(Surface, store.surface_by_id(session, build_id, surface_id).id)
    put_right(session, row, draft, build_id, "surface", surface_id)


def add_item(session: Session, build_id: int, surface_id: int, draft: ItemDraft) -> Item:
    """Put a hidden thing on record."""
    store.surface_by_id(session, build_id, surface_id)
    return keep_on(session, Item, surface_id, draft)


def edit_item(session: Session, build_id: int, item_id: int, draft: ItemDraft) -> None:
    """Put right what was mistyped or mismeasured; what was said stays readable."""
    row = session.get_one(Item, store.get_item(session, build_id, item_id).id)
    put_right(session, row, draft, build_id, "item", item_id)


def move_item(
    session: Session, build_id: int, item_id: int, draft: ItemDraft, on: date, surface_id: int | None = None
) -> Item:
    """The thing itself was moved or replaced, with `surface_id` to another surface: the old place stays on record,
    marked with the day.

    Its pictures are history then, and those of its new state are owed as they were. Raises BadInput where it was
    moved already.
    """
    old = session.get_one(Item, store.get_item(session, build_id, item_id).id)
    refuse_twice(old.replaced_on)
    made = add_item(session, build_id, surface_id or old.surface_id, draft)
    old.replaced_on, old.replaced_by_id = on, made.row_id
    session.add(old)
    owe_anew(session, old, made, on)
    return made


def retake(session: Session, build_id: int, slot_ids: Collection[int], on: date) -> None:
    """Owed pictures that show an old state: they are kept as history, and the same is owed anew of their surface.

    What ended already, as the own pictures of a moved thing did, is left alone.
    """
    for old in store.list_slots(session, build_id):
        if old.id in slot_ids:
            slot = session.get_one(PictureSlot, old.id)
            slot.ended_on = on
            session.add(slot)
            session.flush()
            add_slot(session, build_id, old.surface_id, old.what, old.picture_set, old.strength)


def put_away(session: Session, row: Opening | FixedTie, on: date) -> None:
    """It is there no more: it stays listed with the day."""
    row.removed_on = row.removed_on or on
    session.add(row)


def take_back(session: Session, row: Opening | FixedTie, build_id: int, kind: str) -> None:
    """It is still there after all; the day it was said to be gone stays readable."""
    note_change(session, build_id, kind, row.row_id, "removed_on", row.removed_on, None)
    row.removed_on = None
    session.add(row)


def refuse_twice(replaced_on: date | None) -> None:
    """What was moved or replaced is history: only what came in its place can be moved on. Raises BadInput."""
    if replaced_on is not None:
        raise BadInput(
            f"It was moved or replaced on {show_date(replaced_on)} already. "
            "Say of what came in its place where it is now."
        )


def add_slot(
    session: Session, build_id: int, surface_id: int, what: str, picture_set: str, strength: str
) -> PictureSlot:
    """Say that a picture is owed of a surface before it is closed."""
    store.surface_by_id(session, build_id, surface_id)
    position, number = last_slot(session, surface_id)
    made = PictureSlot(
        surface_id=surface_id,
        number=number + 1,
        position=position + 1,
        what=what,
        picture_set=picture_set,
        strength=strength,
    )
    session.add(made)
    session.flush()
    return made


def count_boxes(
    session: Session, surface_id: int, before: int | None = None, after: int | None = None, why: str = ""
) -> None:
    """Note the boxes counted on the open surface (`before`) or after it was closed; None leaves a count as it is."""
    row = session.get_one(Surface, surface_id)
    for field, count in (("boxes_before", before), ("boxes_after", after)):
        was = getattr(row, field)
        if count is None or count == was:
            continue
        if was is not None:
            note_change(session, row.build_id, "surface", surface_id, field, was, count, why)
        setattr(row, field, count)
    session.add(row)
