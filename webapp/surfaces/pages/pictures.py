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
from webapp.surfaces.pages.choosing import Places, places_of
from webapp.surfaces.pages.owed import SlotRow, still_to_take
from webapp.surfaces.pages.taking import Take, in_address, surface_asked, take_form
from webapp.surfaces.store import PlaceFacts
from webapp.values.dates import show_date
from webapp.values.words import plural

AT_ONCE = 60
"""pictures on one page of the list"""
FEW = 2


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture in the list: its caption, or what the owed picture that it fills says, and where it belongs."""

    picture: Picture
    href: str
    words: str
    where: str
    taken_on: str
    """ "2026-05-16", empty where nobody knows"""


@dataclass(frozen=True, slots=True)
class Group:
    title: str
    shown: tuple[Shown, ...]
    all: str
    """where all of it is put right in one go; empty for a single one"""


@dataclass(frozen=True, slots=True)
class PicturesPage:
    """`refused`: a sentence for each sent file that was not kept; `views`: (words, address, whether it is this one)."""

    sheet: Sheet
    heading: str
    summary: str
    refused: tuple[str, ...]
    take: Take
    groups: tuple[Group, ...]
    together: str
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
    last: str = ""
    """id of the surface used last, where no one is asked for"""


def pictures_page(
    session: Session,
    here: Here,
    view: View,
    limit_mb: int,
    form: FormState | None = None,
    refused: tuple[str, ...] = (),
) -> PicturesPage:
    wanted = surface_asked(session, here, view.surface, "") if view.surface else None
    wanted_id, unknown, first = wanted.id if wanted else None, view.by == "unknown", (max(1, view.turn) - 1) * AT_ONCE
    counted = store.count_pictures(session, here.build.id, wanted_id)
    found = store.picture_ids(session, here.build.id, wanted_id, unknown, first, AT_ONCE + 1)
    shown = {photo.id: photo for photo in list_photos(session, found[:AT_ONCE])}
    places = places_of(session, here, found)
    begun = wanted or surface_asked(session, here, "", view.last)
    state = form or FormState.of(surface=begun.code if begun else "", slot=view.slot, item=view.item)
    return PicturesPage(
        sheet=here.sheet("W4", "Pictures", f"Pictures of {wanted.name}" if wanted else "Pictures"),
        heading=f"Pictures, {wanted.name}" if wanted else "Pictures",
        summary=f"{plural(counted.all, 'picture')}, {counted.unknown} of unknown date",
        refused=refused,
        take=take_form(session, here, places, wanted, limit_mb, state, ""),
        groups=_groups((shown[photo_id] for photo_id in found[:AT_ONCE]), places, here, view.by),
        together=f"{here.base}/pictures/set",
        views=_views(here, view),
        older=_turn(here, view, view.turn + 1) if len(found) > AT_ONCE else "",
        newer=_turn(here, view, view.turn - 1) if view.turn > 1 else "",
        owed=still_to_take(session, here, wanted) if wanted and view.turn == 1 else (),
    )


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
        shown = Shown(
            picture(photo, caption or words),
            f"{here.base}/pictures/{photo.id}",
            caption,
            words,
            (photo.taken_at or "")[:10],
        )
        titles = [name or "Not placed yet" for name in names] if by == "surface" else [_day(photo)]
        for title in titles:
            groups[title].append(shown)
    ordered = [surface.name for surface in places.surfaces] if by == "surface" else []
    keys = [name for name in ordered if name in groups] + [name for name in groups if name not in ordered]
    return tuple(Group(title, tuple(groups[title]), _all(here, groups[title], by)) for title in keys)


def _all(here: Here, shown: list[Shown], by: str) -> str:
    """A whole day, also where it goes on on the next page; else those that are shown."""
    day = shown[0].taken_on
    if len(shown) < FEW:
        return ""
    if by == "newest" and day:
        return f"{here.base}/pictures/set?day={day}"
    return f"{here.base}/pictures/set?came={in_address(one.picture.id for one in shown)}"


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
