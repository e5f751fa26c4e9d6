"""What is sent from the drawing: something placed with a press of its kind, or moved to another spot."""

from collections.abc import Sequence
from dataclasses import replace
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import ItemDraft
from webapp.surfaces.forms.places import check_place
from webapp.surfaces.rules.quick import BY_KIND, last_line, made_label
from webapp.surfaces.store import ItemFacts, LineFacts, OpeningFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import parse_length

NO_LINE, LAST_LINE = "none", ""
"""what is chosen for the line: none at all, or the last one used on the surface that the kind can belong to"""
FAR = "Say how far its centre is, or tap the drawing."


def read_placed(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    openings: Sequence[OpeningFacts],
    others: Sequence[ItemFacts],
    lines: Sequence[LineFacts],
) -> ItemDraft:
    """Something new: its kind brings the service and the name that were not said. Raises BadForm."""
    reader, length = Reader(sent), partial(parse_length, unit=here.build.unit)
    kind = reader.one_of("kind", tuple(BY_KIND), required="Choose what it is.")
    quick, codes = BY_KIND.get(kind), {line.code: line for line in lines}
    chosen = reader.one_of("line", (LAST_LINE, NO_LINE, *codes))
    line = codes.get(chosen)
    if chosen == LAST_LINE and quick:
        line = last_line(others, [one for one in lines if one.ended_on is None], quick.services)
    draft = ItemDraft(
        label=reader.text("label", most=120) or made_label(kind, [one.kind for one in others]),
        kind=kind,
        service=line.service if line else quick.services[0] if quick else "other",
        line_id=line.id if line else None,
        from_corner=surface.origin_corner,
        x_nm=reader.parsed("x", length, FAR),
        y_nm=reader.parsed("y", length, FAR),
        width_nm=None,
        note="",
        is_box=quick is not None and quick.is_box,
    )
    check_place(reader, here, surface, openings, others, draft)
    reader.done()
    return draft


def read_id(sent: Submitted, name: str) -> int:
    """The id of a row; 0, which no row has, for what is no number."""
    text = sent.text(name)
    return int(text) if text.isdecimal() else 0


def read_spot(
    sent: Submitted,
    here: Here,
    surface: SurfaceFacts,
    openings: Sequence[OpeningFacts],
    others: Sequence[ItemFacts],
    known: ItemFacts,
) -> ItemDraft:
    """The same thing at another spot. Raises BadForm."""
    reader, length = Reader(sent), partial(parse_length, unit=here.build.unit)
    draft = ItemDraft(**{name: getattr(known, name) for name in ItemDraft.__dataclass_fields__})
    x, y = reader.parsed("x", length, FAR), reader.parsed("y", length, FAR)
    # A spot of the drawing is from its own corner, also where the thing was measured from the far one before.
    corner = known.from_corner if known.x_nm == known.typed_nm else surface.origin_corner
    draft = replace(draft, from_corner=corner, x_nm=x, y_nm=y)
    if known.replaced_on is not None:
        reader.wrong("x", f"It was moved or replaced on {show_date(known.replaced_on)}; this is where it was.")
    check_place(reader, here, surface, openings, [one for one in others if one.id != known.id], draft)
    reader.done()
    return draft
