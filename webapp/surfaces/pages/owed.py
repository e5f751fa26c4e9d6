"""The pictures owed of one surface as its own sheet lists them: still to take, taken, and of before a move."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.slots import more_words
from webapp.surfaces.rules.offers import is_declined
from webapp.surfaces.rules.owed import SlotState, taken_day
from webapp.surfaces.rules.slots import set_words
from webapp.surfaces.rules.tagging import tags_of
from webapp.surfaces.store import ItemFacts, SlotFacts, SurfaceFacts
from webapp.values.dates import show_day


@dataclass(frozen=True, slots=True)
class SlotRow:
    """An owed picture. `wish`: it does not stop; `says`: what is still missing, or when it was taken.

    `shoot`: where a picture for it is sent straight from the list, empty where none is to be taken.
    """

    id: int
    number: int
    what: str
    says: str
    href: str
    settled: bool
    wish: bool
    shoot: str


@dataclass(frozen=True, slots=True)
class Owed:
    """`next`: the first still to be taken. `more`: what else could be owed, by what came onto the surface since, and
    `slots_href`, where that is decided."""

    musts: tuple[SlotRow, ...]
    wishes: tuple[SlotRow, ...]
    filled: tuple[SlotRow, ...]
    before: tuple[SlotRow, ...]
    next: SlotRow | None
    more: str
    slots_href: str


def owed_part(session: Session, here: Here, surface: SurfaceFacts, items: tuple[ItemFacts, ...]) -> Owed:
    tags = tags_of(items)
    slots = (slot for slot in store.list_slots(session, here.build.id) if slot.surface_id == surface.id)
    ended = (slot for slot in store.list_slots_before(session, here.build.id) if slot.surface_id == surface.id)
    rows = tuple(slot_row(slot, here, surface, tags.get(slot.item_id or 0, "")) for slot in slots)
    musts = tuple(row for row in rows if not row.settled and not row.wish)
    wishes = tuple(row for row in rows if not row.settled and row.wish)
    return Owed(
        musts=musts,
        wishes=wishes,
        filled=tuple(row for row in rows if row.settled),
        before=tuple(_before(slot, here) for slot in ended if not is_declined(slot) or slot.number),
        next=next((row for row in (*musts, *wishes) if row.shoot), None),
        more=more_words(session, here, surface),
        slots_href=f"{here.base}/surfaces/{surface.code}/slots",
    )


def still_to_take(session: Session, here: Here, surface: SurfaceFacts) -> tuple[SlotRow, ...]:
    """What has no picture yet, the musts first; nothing of a closed surface."""
    if surface.covered_on is not None:
        return ()
    items = tuple(one for one in store.list_items(session, here.build.id) if one.surface_id == surface.id)
    part = owed_part(session, here, surface, items)
    return tuple(row for row in (*part.musts, *part.wishes) if row.shoot)


def named(slot: SlotFacts, tag: str) -> str:
    """What it has to show, with the tag of its thing in the drawing."""
    return f"{tag} {slot.what}" if tag else slot.what


def slot_row(slot: SlotFacts, here: Here, surface: SurfaceFacts, tag: str) -> SlotRow:
    shoot = f"{here.base}/surfaces/{surface.code}/shoot"
    return SlotRow(
        id=slot.id,
        number=slot.number,
        what=named(slot, tag),
        says=_says(slot, here, surface),
        href=f"{here.base}/pictures/{slot.photo_id}#date" if slot.photo_id else f"{shoot}?slot={slot.id}",
        settled=slot.settled,
        wish=slot.strength == "wish",
        shoot=shoot if slot.photo_id is None and surface.covered_on is None else "",
    )


def _says(slot: SlotFacts, here: Here, surface: SurfaceFacts) -> str:
    when = set_words(surface.kind, slot.picture_set)
    if slot.photo_id is None:
        return f"Owed {when}"
    if slot.settled_on is not None:
        said = ", the day by my word" if slot.by_my_word else ""
        return f"Taken {show_day(slot.settled_on, here.today)}{said}, {when}"
    return {
        SlotState.DATE_UNKNOWN: "Filled, date unknown: say when it was taken, or it proves nothing",
        SlotState.TAKEN_TOO_LATE: "The picture was taken after the surface was closed",
    }.get(slot.state, "")


def _before(slot: SlotFacts, here: Here) -> SlotRow:
    """A picture of what was moved since: it shows how it was."""
    day = taken_day(slot.taken_at)
    taken = f"Taken {show_day(day, here.today)}" if day else "Date unknown"
    says = f"{taken}. {_moved(slot.ended_on, here)}" if slot.photo_id else f"Never taken. {_moved(slot.ended_on, here)}"
    href = f"{here.base}/pictures/{slot.photo_id}" if slot.photo_id else ""
    return SlotRow(slot.id, slot.number, slot.what, says, href, settled=False, wish=False, shoot="")


def _moved(on: date | None, here: Here) -> str:
    return f"Before the move of {show_day(on, here.today)}." if on else ""
