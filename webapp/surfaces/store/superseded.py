"""Pictures that show a state of before: of a thing that was moved since, or owed of what is not there any more."""

from collections.abc import Mapping
from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.photos.models import Photo
from webapp.surfaces.models import Item, PicturePlace
from webapp.surfaces.rules.owed import taken_day
from webapp.surfaces.store.lists import list_slots_before


@kept_list
def list_superseded(session: Session, build_id: int) -> Mapping[int, date]:
    """Picture -> the day from which what it shows is history. One that was taken later shows what is there now."""
    found: dict[int, date] = {}
    statement = (
        select(col(PicturePlace.photo_id), col(Photo.taken_at), col(Item.replaced_on))
        .join(Item, col(Item.id) == col(PicturePlace.item_id))
        .join(Photo, col(Photo.id) == col(PicturePlace.photo_id))
        .where(col(PicturePlace.build_id) == build_id, col(Item.replaced_on).is_not(None))
        .order_by(col(PicturePlace.id))
    )
    shown = [tuple(row) for row in rows(session, statement)]
    shown += [(slot.photo_id, slot.taken_at, slot.ended_on) for slot in list_slots_before(session, build_id)]
    for photo_id, taken_at, until in shown:
        day = taken_day(taken_at)
        if photo_id is not None and (day is None or day <= until):
            found[photo_id] = max(until, found.get(photo_id, until))
    return found
