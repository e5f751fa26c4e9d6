"""What there is to place pictures at: surfaces, owed pictures, things; as choices of a form."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.store import PlaceFacts, SlotFacts, SurfaceFacts

Choice = tuple[str, str]


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
