"""What is typed about pictures: where they belong, when they were taken, what is seen."""

import re
from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.rules.places import outside
from webapp.surfaces.store import ItemFacts, SlotFacts, SurfaceFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.errors import BadInput
from webapp.values.length import parse_length

_TIME = re.compile(r"([01]?\d|2[0-3])[:.h]([0-5]\d)", re.ASCII)


@dataclass(frozen=True, slots=True)
class PlaceForm:
    """Where a picture belongs. A slot or a thing brings its surface with it."""

    surface_id: int | None
    item_id: int | None
    slot_id: int | None


def read_place(
    sent: Submitted,
    surfaces: Iterable[SurfaceFacts],
    items: Iterable[ItemFacts],
    slots: Iterable[SlotFacts],
    files: int = 1,
    required: str = "",
) -> PlaceForm:
    """`files`: how many pictures go there; `required`: the sentence when nothing is chosen. Raises BadForm."""
    reader = Reader(sent)
    codes = {surface.code: surface.id for surface in surfaces}
    slots_by_id, items_by_id = ({str(row.id): row for row in rows} for rows in (slots, items))
    surface_id = codes.get(reader.one_of("surface", tuple(codes)))
    slot = slots_by_id.get(reader.one_of("slot", tuple(slots_by_id)))
    item = items_by_id.get(reader.one_of("item", tuple(items_by_id)))
    if slot is not None and files > 1:
        reader.wrong("slot", "An owed picture takes one picture. Send that one by itself.")
    if slot is not None and item is not None and slot.surface_id != item.surface_id:
        reader.wrong("item", "This thing is hidden in another surface than the owed picture shows.")
    if required and surface_id is None and slot is None and item is None:
        reader.wrong("surface", required)
    reader.done()
    of = slot or item
    place = of.surface_id if of is not None else surface_id
    return PlaceForm(place, item.id if item else None, slot.id if slot else None)


def read_taken(sent: Submitted, here: Here, arrived: date) -> str | None:
    """Capture time as ISO text, None for unknown. `arrived`: the day the picture came. Raises BadForm."""
    reader = Reader(sent)
    day = reader.parsed("day", partial(_day, today=here.today, arrived=arrived))
    time = reader.parsed("time", read_time) or "00:00:00"
    if day is None and sent.text("time"):
        reader.wrong("day", "Write the day too.")
    reader.done()
    return f"{day.isoformat()}T{time}" if day else None


def read_said(sent: Submitted, here: Here, arrived: date) -> str:
    """As `read_taken`, but a day is needed. Raises BadForm."""
    reader = Reader(sent)
    day = reader.parsed("day", partial(_day, today=here.today, arrived=arrived), "Write the day on which it was taken.")
    reader.done()
    return f"{day}T00:00:00"


def read_pin(sent: Submitted, here: Here, surface: SurfaceFacts) -> tuple[int, int]:
    """Where on its surface a picture is pinned. Raises BadForm for a place outside it."""
    reader, unit = Reader(sent), here.build.unit
    length = partial(parse_length, unit=unit)
    x, y = reader.parsed("x", length, "How far from the corner."), reader.parsed("y", length, "And the other measure.")
    for field, sentence in outside(surface.kind, surface.length_nm, surface.height_nm, x, y, unit).items():
        reader.wrong(field, sentence)
    reader.done()
    return x or 0, y or 0


def read_shows(
    sent: Submitted, slots: Iterable[SlotFacts], items: Iterable[ItemFacts]
) -> tuple[tuple[int, int | None, int | None], ...]:
    """What a picture shows besides: (surface, thing, owed picture) of each that is ticked. Raises BadForm."""
    reader = Reader(sent)
    slots_by_id, items_by_id = ({str(row.id): row for row in rows} for rows in (slots, items))
    in_slots, in_items = reader.many_of("slot", slots_by_id), reader.many_of("item", items_by_id)
    if not (in_slots or in_items):
        reader.wrong("shows", "Tick what it shows.")
    reader.done()
    return (
        *((slots_by_id[one].surface_id, None, slots_by_id[one].id) for one in in_slots),
        *((items_by_id[one].surface_id, items_by_id[one].id, None) for one in in_items),
    )


def _day(text: str, today: date, arrived: date) -> date:
    day = parse_day(text, today)
    if day > arrived:
        raise BadInput(f"This picture arrived on {show_date(arrived)}, so it was not taken after that.")
    return day


def read_time(text: str) -> str:
    found = _TIME.fullmatch(text)
    if found is None:
        raise BadInput("Write a time such as 17:48.")
    return f"{int(found[1]):02d}:{found[2]}:00"


def read_caption(sent: Submitted) -> str:
    reader = Reader(sent)
    caption = reader.text("caption", most=300)
    reader.done()
    return caption
