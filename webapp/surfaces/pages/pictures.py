"""Sheet W4: the pictures of a build."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture, show_taken
from webapp.photos.store import PhotoFacts, list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.owed import SlotRow, still_to_take
from webapp.surfaces.store import PlaceFacts, SlotFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.words import plural

AT_ONCE = 60
"""pictures on one page of the list"""
Choice = tuple[str, str]


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture in the list: its caption, or what the owed picture that it fills says, and where it belongs."""

    picture: Picture
    href: str
    words: str
    where: str


@dataclass(frozen=True, slots=True)
class Group:
    title: str
    shown: tuple[Shown, ...]


@dataclass(frozen=True, slots=True)
class PicturesPage:
    """`refused`: a sentence for each sent file that was not kept; `views`: (words, address, whether it is this one)."""

    sheet: Sheet
    heading: str
    summary: str
    form: FormState
    refused: tuple[str, ...]
    surfaces: tuple[Choice, ...]
    slots: tuple[Choice, ...]
    items: tuple[Choice, ...]
    limit_mb: int
    action: str
    groups: tuple[Group, ...]
    views: tuple[tuple[str, str, bool], ...]
    older: str
    newer: str
    owed: tuple[SlotRow, ...]
    """still to be taken of the chosen surface"""


@dataclass(frozen=True, slots=True)
class View:
    """Which pictures are asked for, and which places the form begins with."""

    surface: str = ""
    slot: str = ""
    item: str = ""
    by: str = "newest"
    turn: int = 1


@dataclass(frozen=True, slots=True)
class Places:
    """Everything needed to say where pictures belong."""

    surfaces: tuple[SurfaceFacts, ...]
    slots: tuple[SlotFacts, ...]
    items: dict[int, str]
    places: tuple[PlaceFacts, ...]

    def surface_name(self, surface_id: int | None) -> str:
        return next((surface.name for surface in self.surfaces if surface.id == surface_id), "")

    def code(self, surface_id: int) -> str:
        return next((surface.code for surface in self.surfaces if surface.id == surface_id), "")


def places_of(session: Session, here: Here, photo_ids: Iterable[int]) -> Places:
    """What there is to place pictures at, and where these ones are."""
    items = store.list_items(session, here.build.id)
    return Places(
        surfaces=store.list_surfaces(session, here.build.id),
        slots=store.list_slots(session, here.build.id),
        items={item.id: item.label for item in items if item.replaced_on is None},
        places=store.places_of_photos(session, here.build.id, photo_ids),
    )


def pictures_page(
    session: Session,
    here: Here,
    view: View,
    limit_mb: int,
    form: FormState | None = None,
    refused: tuple[str, ...] = (),
) -> PicturesPage:
    surfaces = store.list_surfaces(session, here.build.id)
    wanted = next((surface for surface in surfaces if surface.code == view.surface.upper()), None)
    wanted_id, unknown, first = wanted.id if wanted else None, view.by == "unknown", (max(1, view.turn) - 1) * AT_ONCE
    counted = store.count_pictures(session, here.build.id, wanted_id)
    found = store.picture_ids(session, here.build.id, wanted_id, unknown, first, AT_ONCE + 1)
    shown = {photo.id: photo for photo in list_photos(session, found[:AT_ONCE])}
    places = places_of(session, here, found)
    state = form or FormState.of(surface=wanted.code if wanted else "", slot=view.slot, item=view.item)
    return PicturesPage(
        sheet=here.sheet("W4", "Pictures", f"Pictures of {wanted.name}" if wanted else "Pictures"),
        heading=f"Pictures, {wanted.name}" if wanted else "Pictures",
        summary=f"{plural(counted.all, 'picture')}, {counted.unknown} of unknown date",
        form=state,
        refused=refused,
        surfaces=(("", "no surface yet"), *((surface.code, surface.name) for surface in places.surfaces)),
        slots=slot_choices(places.slots, places),
        items=item_choices(session, here, places, wanted),
        limit_mb=limit_mb,
        action=f"{here.base}/pictures",
        groups=_groups((shown[photo_id] for photo_id in found[:AT_ONCE]), places, here, view.by),
        views=_views(here, view),
        older=_turn(here, view, view.turn + 1) if len(found) > AT_ONCE else "",
        newer=_turn(here, view, view.turn - 1) if view.turn > 1 else "",
        owed=still_to_take(session, here, wanted) if wanted and view.turn == 1 else (),
    )


def slot_choices(slots: Iterable[SlotFacts], places: Places) -> tuple[Choice, ...]:
    """Owed pictures that are not settled yet, as choices; those of a closed surface cannot be taken any more."""
    owed = (slot for slot in slots if not slot.settled and slot.covered_on is None)
    named = ((str(slot.id), f"{places.code(slot.surface_id)} {slot.number}: {slot.what}") for slot in owed)
    return (("", "none of the owed ones"), *named)


def item_choices(session: Session, here: Here, places: Places, wanted: SurfaceFacts | None) -> tuple[Choice, ...]:
    found = (
        (str(item.id), f"{places.code(item.surface_id)}: {item.label}")
        for item in store.list_items(session, here.build.id)
        if item.id in places.items and (wanted is None or item.surface_id == wanted.id)
    )
    return (("", "no single thing"), *found)


def _groups(photos: Iterable[PhotoFacts], places: Places, here: Here, by: str) -> tuple[Group, ...]:
    """By the day they were taken, or by surface (a picture of two surfaces stands under both)."""
    where: dict[int, list[PlaceFacts]] = defaultdict(list)
    for place in places.places:
        where[place.photo_id].append(place)
    filled = {slot.photo_id: f"{slot.what[:1].upper()}{slot.what[1:]}" for slot in places.slots if slot.photo_id}
    groups: dict[str, list[Shown]] = defaultdict(list)
    for photo in photos:
        names = list(dict.fromkeys(places.surface_name(place.surface_id) for place in where[photo.id]))
        words = ", ".join(name for name in names if name) or "not placed yet"
        caption = photo.caption or filled.get(photo.id, "")
        shown = Shown(picture(photo, caption or words), f"{here.base}/pictures/{photo.id}", caption, words)
        titles = [name or "Not placed yet" for name in names] if by == "surface" else [_day(photo)]
        for title in titles:
            groups[title].append(shown)
    ordered = [surface.name for surface in places.surfaces] if by == "surface" else []
    keys = [name for name in ordered if name in groups] + [name for name in groups if name not in ordered]
    return tuple(Group(title, tuple(groups[title])) for title in keys)


def _day(photo: PhotoFacts) -> str:
    if photo.taken_at is None:
        return f"Date unknown, came {show_date(photo.received_at.astimezone().date())}"
    return show_taken(photo.taken_at[:10])


def _address(here: Here, view: View, **changed: str) -> str:
    asked = {"surface": view.surface, "by": view.by} | changed
    query = "&".join(f"{name}={value}" for name, value in asked.items() if value and value != "newest")
    return f"{here.base}/pictures?{query}" if query else f"{here.base}/pictures"


def _turn(here: Here, view: View, turn: int) -> str:
    return _address(here, view, turn=str(turn) if turn > 1 else "")


def _views(here: Here, view: View) -> tuple[tuple[str, str, bool], ...]:
    words = (("newest", "Newest first"), ("surface", "By surface"), ("unknown", "Date unknown"))
    return tuple((label, _address(here, view, by=name), name == view.by) for name, label in words)
