"""Pictures that what is on a surface asks for: taken onto its list, or declined with a memory."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from webapp.surfaces.actions.making import note_change
from webapp.surfaces.actions.moving import last_slot
from webapp.surfaces.models import PictureSlot
from webapp.surfaces.rules.offers import Offer
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class Chosen:
    """An offered picture: how it is wanted, "must" or "wish", or empty where it is not."""

    offer: Offer
    strength: str


def take_up(session: Session, build_id: int, surface_id: int, chosen: Sequence[Chosen], on: date) -> int:
    """Put the wanted ones on the list in their order and remember the others as declined; gives how many are new."""
    position, number = last_slot(session, surface_id)
    added = 0
    for one in chosen:
        picture = one.offer.picture
        row = PictureSlot(
            surface_id=surface_id,
            position=position + added + 1 if one.strength else 0,
            number=number + added + 1 if one.strength else 0,
            what=picture.what,
            picture_set=picture.picture_set,
            strength=one.strength or picture.strength,
            made_from=picture.key,
            item_id=picture.item_id,
            ended_on=None if one.strength else on,
        )
        session.add(row)
        added += bool(one.strength)
        if not one.strength and one.offer.shown_by:
            session.flush()
            shown_by = f"picture {one.offer.shown_by}"
            note_change(session, build_id, "slot", row.row_id, "shown by", None, shown_by)
    session.flush()
    return added


def owe_after_all(session: Session, surface_id: int, key: str) -> PictureSlot:
    """What was declined is owed after all. Raises NotFound where nothing of this key was."""
    declined = select(PictureSlot).where(
        PictureSlot.surface_id == surface_id,
        PictureSlot.made_from == key,
        col(PictureSlot.ended_on).is_not(None),
        col(PictureSlot.photo_id).is_(None),
    )
    slot = session.exec(declined.order_by(col(PictureSlot.id).desc())).first()
    if slot is None or not key:
        raise NotFound("No such picture was declined here.")
    position, number = last_slot(session, surface_id)
    slot.position, slot.number = position + 1, number + 1
    slot.ended_on = None
    session.add(slot)
    session.flush()
    return slot
