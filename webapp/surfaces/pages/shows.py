"""What one picture shows: what it fills and filled before, what else it could, and the day to be said for it."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.photos.store import PhotoFacts
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.shoot import Choice, slot_choices
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.store import PlaceFacts, SlotFacts
from webapp.values.dates import show_day


@dataclass(frozen=True, slots=True)
class Shows:
    """What else a picture could show, on the surfaces it is of."""

    shows_action: str
    slots: tuple[Choice, ...]
    items: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class SayDay:
    """The day that may be said with one press, and what that would settle. `day` is empty where that proves nothing."""

    action: str
    day: str
    words: str
    settles: str
    closed: str


def shows_of(session: Session, here: Here, photo_id: int, own: Sequence[PlaceFacts]) -> Shows:
    build_id, href = here.build.id, f"{here.base}/pictures/{photo_id}"
    on = {place.surface_id for place in own if place.surface_id is not None}
    placed = {place.item_id for place in own}
    slots, items = [], []
    for surface in store.list_surfaces(session, build_id):
        if surface.id not in on:
            continue
        here_too = tuple(one for one in store.list_items(session, build_id) if one.surface_id == surface.id)
        tags = tags_of(here_too)
        listed = (one for one in store.list_slots(session, build_id) if one.surface_id == surface.id)
        code = f"{surface.code} " if len(on) > 1 else ""
        slots += [(value, f"{code}{words}") for value, words in slot_choices(listed, tags, photo_id)]
        standing = (one for one in here_too if one.replaced_on is None and one.id not in placed)
        items += [(str(one.id), f"{code}{tags.get(one.id, '')} {one.label}".strip()) for one in standing]
    return Shows(f"{href}/shows", tuple(slots), tuple(items))


def filled_before(session: Session, here: Here, photo_id: int) -> tuple[str, ...]:
    """Which owed pictures it filled once and fills no more, the latest first."""
    build_id = here.build.id
    ended = store.list_slots_before(session, build_id)
    slots = {slot.id: slot for slot in (*store.list_slots(session, build_id), *ended)}
    codes = {surface.id: surface.code for surface in store.list_surfaces(session, build_id)}
    taken_out = (
        (slot, f"until {show_day(change.at.astimezone().date(), here.today)}")
        for change in store.list_changes(session, build_id)
        if change.what_kind == "slot" and change.field == "photo" and change.was == str(photo_id)
        if (slot := slots.get(change.what_id)) is not None and slot.photo_id != photo_id
    )
    moved = (
        (slot, f"before the move of {show_day(slot.ended_on, here.today)}")
        for slot in ended
        if slot.photo_id == photo_id and slot.ended_on is not None
    )
    return tuple(
        f"Filled {codes[slot.surface_id]} {slot.number}: {slot.what}, {when}" for slot, when in (*moved, *taken_out)
    )


def say_day(session: Session, here: Here, photo: PhotoFacts, filled: Iterable[SlotFacts]) -> SayDay | None:
    """For a picture of unknown date: the day it came is the last on which it can have been taken."""
    if photo.taken_at is not None:
        return None
    arrived, filled = photo.received_at.astimezone().date(), tuple(filled)
    closed = min((slot.covered_on for slot in filled if slot.covered_on is not None), default=None)
    by = {one.id: one.closed_by for one in store.list_surfaces(session, here.build.id)}
    what = by[filled[0].surface_id] if filled else ""
    words = f"the {what}" if what and " " not in what else "the closing"
    late = closed is not None and arrived > closed
    return SayDay(
        action=f"{here.base}/pictures/{photo.id}/said",
        day="" if late else arrived.isoformat(),
        words=show_day(arrived, here.today),
        settles=f"It was before {words}" if filled else "",
        closed=f"Closed {show_day(closed, here.today)}." if closed is not None else "",
    )
