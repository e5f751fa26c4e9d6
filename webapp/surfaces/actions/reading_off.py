"""Pencil notes and sketches: spots tapped on a picture become things of the surface, linked both ways."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.surfaces import store
from webapp.surfaces.actions.making import ItemDraft, add_item
from webapp.surfaces.actions.picturing import pin_picture, place_picture
from webapp.surfaces.models import PicturePoint
from webapp.surfaces.rules.scaled import Spot


@dataclass(frozen=True, slots=True)
class PointDraft:
    """One spot as it was tapped and what was typed of it. `item`: the thing that it is, if offsets are written."""

    spot: Spot
    what: str
    x_nm: int | None
    y_nm: int | None
    known: bool
    item: ItemDraft | None


def keep_points(
    session: Session, build_id: int, photo_id: int, surface_id: int, drafts: Iterable[PointDraft]
) -> tuple[int, int]:
    """Put spots on record; gives how many, and how many became things. The picture is of the surface from now on."""
    place_picture(session, build_id, photo_id, surface_id)
    number, made = store.last_number(session, photo_id), 0
    kept = 0
    for kept, draft in enumerate(drafts, 1):
        point = PicturePoint(
            photo_id=photo_id,
            surface_id=surface_id,
            number=number + kept,
            across=draft.spot.across,
            down=draft.spot.down,
            what=draft.what,
            x_nm=draft.x_nm,
            y_nm=draft.y_nm,
            known=draft.known,
            at=clock.now(),
        )
        session.add(point)
        session.flush()
        if draft.item is not None:
            made += 1
            become(session, build_id, point.row_id, draft.item)
    return kept, made


def become(session: Session, build_id: int, point_id: int, draft: ItemDraft) -> int:
    """The spot is this thing: it goes on the surface, the picture is of it, and is pinned where it is."""
    point = session.get_one(PicturePoint, point_id)
    item = add_item(session, build_id, point.surface_id, draft)
    point.item_id = item.row_id
    session.add(point)
    place_picture(session, build_id, point.photo_id, point.surface_id, item.row_id)
    session.flush()
    own = store.places_of_photos(session, build_id, (point.photo_id,))
    pinned = any(one.surface_id == point.surface_id and one.x_nm is not None for one in own)
    placed = store.get_item(session, build_id, item.row_id)
    if not pinned and placed.x_nm is not None and placed.y_nm is not None:
        pin_picture(session, build_id, point.photo_id, point.surface_id, (placed.x_nm, placed.y_nm))
    return item.row_id


def take_off(session: Session, point_id: int, on: date) -> None:
    """It was tapped by mistake: it stands on the picture no more. The thing that it became stays."""
    point = session.get_one(PicturePoint, point_id)
    point.off_on = on
    session.add(point)
