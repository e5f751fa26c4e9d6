"""Pictures of the stretch around a spot: those that show it best first, before and after insulation apart."""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from math import isqrt

from sqlmodel import Session

from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.face import Point
from webapp.surfaces.store import PlaceFacts, SlotFacts, SurfaceFacts
from webapp.values.length import NM_PER_INCH, show_length

STAGES = (("before", "Before insulation"), ("after", "After insulation"), ("general", "Other pictures"))
AT_MOST = 6
"""of one stage; the rest are on W4"""
STRETCH_NM = 24 * NM_PER_INCH
"""a picture pinned farther off than this shows another place"""
THIRDS = 3
PINNED, SHOWS, THIRD, WHOLE = range(4)
Rank = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Shown:
    picture: Picture
    href: str
    words: str


@dataclass(frozen=True, slots=True)
class Stage:
    title: str
    shown: tuple[Shown, ...]
    more: int


@dataclass(frozen=True, slots=True)
class Around:
    """What is asked about: the spot (None for the whole surface) and the things near it, by id: how far, its name."""

    surface: SurfaceFacts
    spot: Point | None
    near: Mapping[int, tuple[int, str]]


def photo_ids(session: Session, here: Here, surface: SurfaceFacts) -> tuple[int, ...]:
    """All pictures that belong to the surface or fill one owed of it."""
    places = store.places_on_surface(session, here.build.id, surface.id)
    slots = (slot for slot in store.list_slots(session, here.build.id) if slot.surface_id == surface.id)
    filled = (slot.photo_id for slot in slots if slot.photo_id is not None)
    return tuple(dict.fromkeys([*(place.photo_id for place in places), *filled]))


def stages(session: Session, here: Here, around: Around) -> tuple[Stage, ...]:
    """A picture stands in one stage, under the best reason there is to show it."""
    surface, build_id = around.surface, here.build.id
    best: dict[int, tuple[Rank, str, str]] = {}

    def offer(photo_id: int, rank: Rank, stage: str, words: str) -> None:
        known = best.get(photo_id)
        if known is None or (rank, stage == "general") < (known[0], known[1] == "general"):
            best[photo_id] = (rank, stage, words)

    for place in store.places_on_surface(session, build_id, surface.id):
        ranked = _place(around, place, here.build.unit)
        if ranked is not None:
            offer(place.photo_id, ranked[0], place.stage, ranked[1])
    for slot in store.list_slots(session, build_id):
        if slot.surface_id == surface.id and slot.photo_id is not None:
            offer(slot.photo_id, _slot(around, slot), slot.picture_set, slot.what)
    return _in_stages(session, here, surface, best)


def _in_stages(
    session: Session, here: Here, surface: SurfaceFacts, best: Mapping[int, tuple[Rank, str, str]]
) -> tuple[Stage, ...]:
    photos = {photo.id: photo for photo in list_photos(session, best)}
    found = []
    for key, title in STAGES:
        own = sorted((id_ for id_, (_, stage, _) in best.items() if stage == key), key=lambda id_: (best[id_][0], -id_))
        shown = tuple(
            Shown(picture(photos[id_], surface.name), f"{here.base}/pictures/{id_}", best[id_][2])
            for id_ in own[:AT_MOST]
        )
        if shown:
            found.append(Stage(title, shown, max(0, len(own) - AT_MOST)))
    return tuple(found)


def _place(around: Around, place: PlaceFacts, unit: str) -> tuple[Rank, str] | None:
    """None for a picture that is pinned to quite another place."""
    if around.spot is not None and place.x_nm is not None and place.y_nm is not None:
        away = isqrt((place.x_nm - around.spot[0]) ** 2 + (place.y_nm - around.spot[1]) ** 2)
        if away > STRETCH_NM:
            return None
        return (PINNED, away), f"Pinned {show_length(away, unit)} away" if away else "Pinned here"
    if place.item_id is not None and place.item_id in around.near:
        away, name = around.near[place.item_id]
        return (SHOWS, away), f"Shows {name}"
    return (WHOLE, 0), "Of this surface"


def _slot(around: Around, slot: SlotFacts) -> Rank:
    made, _, part = slot.made_from.partition(":")
    item_id = slot.item_id or (int(part) if made == "item" and part.isdecimal() else None)
    if item_id is not None and item_id in around.near:
        return SHOWS, around.near[item_id][0]
    length = around.surface.length_nm
    if made == "third" and part.isdecimal() and around.spot is not None and length:
        number = min(THIRDS, around.spot[0] * THIRDS // length + 1)
        return (THIRD, 0) if int(part) == number else (WHOLE, 2)
    return (WHOLE, 0) if made == "whole" or item_id is None else (WHOLE, 1)


def names_of(found: Iterable[tuple[int, int, str]]) -> dict[int, tuple[int, str]]:
    """(id, distance, name) of things, the nearest kept where one is named twice."""
    near: dict[int, tuple[int, str]] = {}
    for id_, away, name in sorted(found, key=lambda one: one[1]):
        near.setdefault(id_, (away, name))
    return near
