"""The pictures that are pinned to a surface, for its drawing and for the list beneath it."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.photos.pages import show_taken
from webapp.photos.store import PhotoFacts, list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.pins import Pin, numbered
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import SurfaceFacts
from webapp.values.length import show_length


@dataclass(frozen=True, slots=True)
class PinLine:
    """A pinned picture in words: its number, what it shows, where it is pinned."""

    number: int
    words: str
    where: str
    href: str


def pin_words(photo: PhotoFacts, filled: str) -> str:
    """What a pinned picture shows, and when it was taken."""
    what = photo.caption or filled or "Picture"
    return f"{what}, {show_taken(photo.taken_at)}"


def pins_of(session: Session, here: Here, surface: SurfaceFacts) -> tuple[Pin, ...]:
    """Each picture once, in the order of its number."""
    places = store.places_on_surface(session, here.build.id, surface.id)
    at = {one.photo_id: (one.x_nm, one.y_nm) for one in places if one.x_nm is not None and one.y_nm is not None}
    filled = {slot.photo_id: slot.what for slot in store.list_slots(session, here.build.id) if slot.photo_id in at}
    photos = list_photos(session, at)
    return numbered(
        Pin(photo.id, x, y, pin_words(photo, filled.get(photo.id, "")))
        for photo in photos
        for x, y in [at[photo.id]]
        if x is not None and y is not None
    )


def pin_lines(pins: tuple[Pin, ...], here: Here, surface: SurfaceFacts) -> tuple[PinLine, ...]:
    unit, up = here.build.unit, UP[SurfaceKind(surface.kind)]
    up = f"{up[:1].lower()}{up[1:]}"
    corner = surface.origin_corner or "the corner"
    return tuple(
        PinLine(
            number=number,
            words=pin.words,
            where=f"{show_length(pin.x_nm, unit)} from {corner}, {show_length(pin.y_nm, unit)} {up}",
            href=f"{here.base}/pictures/{pin.photo_id}",
        )
        for number, pin in enumerate(pins, 1)
    )
