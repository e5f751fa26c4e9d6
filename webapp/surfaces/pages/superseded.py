"""What stands beside a picture of an old state, and where a moved thing went or came from."""

from collections.abc import Mapping
from dataclasses import replace
from datetime import date

from sqlmodel import Session

from webapp.photos.pages import Picture
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.store import ItemFacts
from webapp.values.dates import show_date


def before_words(until: date) -> str:
    return f"before the move of {show_date(until)}"


def marked(picture: Picture, superseded: Mapping[int, date]) -> Picture:
    """The same picture; where it shows an old state its date says so."""
    until = superseded.get(picture.id)
    return replace(picture, taken=f"{picture.taken}, {before_words(until)}") if until else picture


def other_states(session: Session, here: Here, item: ItemFacts) -> tuple[tuple[str, str], ...]:
    """Where it was before and where it is now, as words and address."""
    names = {one.id: one for one in store.list_surfaces(session, here.build.id)}
    found = []
    for one in store.list_items(session, here.build.id):
        at = names[one.surface_id]
        href = f"{here.base}/surfaces/{at.code}/items/{one.id}"
        if one.replaced_by_id == item.id:
            found.append((f"Before: {one.label}, {at.name}", href))
        if item.replaced_by_id == one.id:
            found.append((f"Now: {one.label}, {at.name}", href))
    return tuple(found)
