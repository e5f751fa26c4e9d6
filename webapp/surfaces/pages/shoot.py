"""One owed picture with the camera to it, and after it the next of the same surface."""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import get_photo
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.owed import SlotRow, named, slot_row
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.owed import SlotState
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.slots import set_words
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.store import ItemFacts, SlotFacts, SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import show_length

Choice = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Last:
    """The picture taken just now: what it fills, and what else it could show. `undated`: it proves nothing yet."""

    picture: Picture
    href: str
    fills: str
    undated: bool
    day: str
    day_words: str
    said_action: str
    shows_action: str
    slots: tuple[Choice, ...]
    items: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class ShootPage:
    """`slot_id` is 0 when all are taken. `left`: "3 of 7 left". `retake`: it has a picture that a new one replaces."""

    sheet: Sheet
    surface: str
    heading: str
    where: str
    left: str
    slot_id: int
    retake: bool
    wish: bool
    refused: tuple[str, ...]
    last: Last | None
    others: tuple[SlotRow, ...]
    action: str
    back: str
    limit_mb: int


def still_owed(slots: Sequence[SlotFacts]) -> list[SlotFacts]:
    """What has no picture yet, the musts first, each in the order of the list."""
    owed = [slot for slot in slots if slot.photo_id is None]
    return sorted(owed, key=lambda slot: slot.strength == "wish")


def next_after(slots: Sequence[SlotFacts], slot_id: int) -> SlotFacts | None:
    """The next one owed after this one in the order of the list, from its beginning again; None when all are taken."""
    owed = still_owed(slots)
    at = next((slot.position for slot in slots if slot.id == slot_id), 0)
    return next((slot for slot in owed if slot.position > at and slot.strength != "wish"), owed[0] if owed else None)


def shoot_page(
    session: Session,
    here: Here,
    code: str,
    limit_mb: int,
    slot_id: int = 0,
    after: int = 0,
    refused: tuple[str, ...] = (),
) -> ShootPage:
    """`slot_id`: the one asked for; `after`: the one a picture was just sent for."""
    surface = store.get_surface(session, here.build.id, code)
    slots = [slot for slot in store.list_slots(session, here.build.id) if slot.surface_id == surface.id]
    items = tuple(one for one in store.list_items(session, here.build.id) if one.surface_id == surface.id)
    asked = next((slot for slot in slots if slot.id == slot_id), None)
    slot, tags, owed = asked or next_after(slots, after), tags_of(items), still_owed(slots)
    href = f"{here.base}/surfaces/{surface.code}"
    return ShootPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "Pictures owed"),
        surface=surface.name,
        heading=_heading(slot, tags.get(slot.item_id or 0, "") if slot else ""),
        where=_where(slot, surface, items, here.build.unit) if slot else "",
        left=f"{len(owed)} of {len(slots)} left" if slots else "",
        slot_id=slot.id if slot else 0,
        retake=slot is not None and slot.photo_id is not None,
        wish=slot is not None and slot.strength == "wish",
        refused=refused,
        last=_last(session, here, surface, slots, items, after),
        others=tuple(slot_row(one, here, surface, tags.get(one.item_id or 0, "")) for one in owed if one is not slot),
        action=f"{href}/shoot",
        back=href,
        limit_mb=limit_mb,
    )


def _heading(slot: SlotFacts | None, tag: str) -> str:
    return f"Picture {slot.number}: {named(slot, tag)}" if slot else "All are taken"


def _where(slot: SlotFacts, surface: SurfaceFacts, items: Sequence[ItemFacts], unit: str) -> str:
    """When it is due, and where its thing is to be found."""
    when = f"{set_words(surface.kind, slot.picture_set).capitalize()}."
    item = next((one for one in items if one.id == slot.item_id), None)
    if item is None or item.typed_nm is None or item.y_nm is None:
        return when
    up = UP[SurfaceKind(surface.kind)]
    corner = item.from_corner or surface.origin_corner or "the corner"
    return f"{show_length(item.typed_nm, unit)} from {corner}, {show_length(item.y_nm, unit)} {up.lower()}. {when}"


def _last(
    session: Session,
    here: Here,
    surface: SurfaceFacts,
    slots: Sequence[SlotFacts],
    items: Sequence[ItemFacts],
    after: int,
) -> Last | None:
    slot = next((one for one in slots if one.id == after and one.photo_id is not None), None)
    if slot is None or slot.photo_id is None:
        return None
    photo, tags = get_photo(session, slot.photo_id), tags_of(tuple(items))
    arrived = photo.received_at.astimezone().date()
    href = f"{here.base}/pictures/{photo.id}"
    placed = {one.item_id for one in store.places_of_photos(session, here.build.id, (photo.id,))}
    standing = [one for one in items if one.replaced_on is None and one.id not in placed]
    return Last(
        picture=picture(photo, surface.name),
        href=href,
        fills=f"{slot.number}: {named(slot, tags.get(slot.item_id or 0, ''))}",
        undated=slot.state is SlotState.DATE_UNKNOWN,
        day=arrived.isoformat(),
        day_words=show_day(arrived, here.today),
        said_action=f"{href}/said",
        shows_action=f"{href}/shows",
        slots=slot_choices(slots, tags, photo.id),
        items=tuple((str(one.id), f"{tags.get(one.id, '')} {one.label}".strip()) for one in standing),
    )


def slot_choices(slots: Iterable[SlotFacts], tags: Mapping[int, str], photo_id: int) -> tuple[Choice, ...]:
    """Owed pictures that this one could fill too."""
    left = (one for one in slots if not one.settled and one.photo_id != photo_id)
    return tuple((str(one.id), f"{one.number}: {named(one, tags.get(one.item_id or 0, ''))}") for one in left)
