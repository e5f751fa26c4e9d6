"""What a move does to the pictures of a thing: they are history, and its new state is owed as the old one was."""

from collections.abc import Collection, Sequence
from datetime import date

from sqlmodel import Session, col, select

from webapp.surfaces.models import Item, PictureSlot, Run
from webapp.surfaces.rules.slots import group_keys, item_words
from webapp.surfaces.rules.wanted import Hidden


def owe_anew(session: Session, old: Item, new: Item, on: date) -> int:
    """Its own pictures end, taken or not; one of all of its kind only where it was taken already.

    Gives how many are owed anew, each with the strength it had, on the surface where the thing is now.
    """
    groups = group_keys(_hidden(old))
    ended = [
        slot
        for slot in _listed(session, old.surface_id)
        if slot.item_id == old.row_id or (slot.photo_id is not None and _is_of(slot, groups))
    ]
    for slot in ended:
        _end(session, slot, on)
        _again(session, slot, new.surface_id, new if slot.item_id is not None else None)
    return len(ended)


def owe_run_anew(session: Session, old: Run, new: Run, on: date) -> int:
    """A run was pulled anew: a taken picture of the runs of its service shows them as they were."""
    keys = {f"runs:{old.service}"}
    ended = [slot for slot in _listed(session, old.surface_id) if slot.photo_id is not None and _is_of(slot, keys)]
    for slot in ended:
        _end(session, slot, on)
        _again(session, slot, new.surface_id, None)
    return len(ended)


def _listed(session: Session, surface_id: int) -> Sequence[PictureSlot]:
    found = select(PictureSlot).where(PictureSlot.surface_id == surface_id, col(PictureSlot.ended_on).is_(None))
    return session.exec(found.order_by(col(PictureSlot.position))).all()


def _is_of(slot: PictureSlot, groups: Collection[str]) -> bool:
    return slot.made_from in groups or slot.made_from.partition(":")[0] in groups


def _end(session: Session, slot: PictureSlot, on: date) -> None:
    slot.ended_on = on
    session.add(slot)
    session.flush()


def _again(session: Session, slot: PictureSlot, surface_id: int, item: Item | None) -> None:
    if item is None and any(other.made_from == slot.made_from for other in _listed(session, surface_id)):
        return
    position, number = last_slot(session, surface_id)
    words = item_words(_hidden(item)) if item else None
    made = PictureSlot(
        surface_id=surface_id,
        position=position + 1,
        number=number + 1,
        what=words[0] if words else slot.what,
        picture_set=slot.picture_set,
        strength=slot.strength,
        made_from=f"item:{item.row_id}" if item else slot.made_from,
        item_id=item.row_id if item else None,
    )
    session.add(made)
    session.flush()


def last_slot(session: Session, surface_id: int) -> tuple[int, int]:
    """The highest position and number on a surface's list, of what ended too."""
    found = session.exec(select(PictureSlot).where(PictureSlot.surface_id == surface_id)).all()
    return max((slot.position for slot in found), default=0), max((slot.number for slot in found), default=0)


def _hidden(item: Item) -> Hidden:
    return Hidden(item.row_id, "", item.label, item.kind, item.service, item.is_box, item.x_nm)
