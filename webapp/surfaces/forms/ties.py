"""What is typed about points tied to two fixed points, read in the build's own unit."""

from collections.abc import Sequence
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.guard import Here
from webapp.surfaces.actions import TieDraft
from webapp.surfaces.forms.places import place_of, size_of
from webapp.surfaces.rules.places import outside
from webapp.surfaces.rules.ties import same_point, too_far_apart
from webapp.surfaces.store import SurfaceFacts, TieFacts
from webapp.values.length import show_length


def read_tie(sent: Submitted, here: Here, surface: SurfaceFacts, others: Sequence[TieFacts]) -> TieDraft:
    """A point on its surface with its distances from two different fixed points; `others` are those of the same
    surface. Raises BadForm."""
    reader, unit = Reader(sent), here.build.unit
    place, size = partial(place_of, unit=unit), partial(size_of, unit=unit)
    draft = TieDraft(
        name=reader.text("name", "Say what is there, such as the bend, or the end of the conduit.", most=80),
        x_nm=reader.parsed("x", place, "How far along the surface it is.") or 0,
        from_a=reader.text("from_a", "Name something that stays, such as the porch corner.", most=80),
        a_nm=reader.parsed("a", size, "How far it is from there.") or 0,
        from_b=reader.text("from_b", "Name a second thing that stays.", most=80),
        b_nm=reader.parsed("b", size, "How far it is from there.") or 0,
        note=reader.text("note", most=300),
    )
    for field, sentence in outside(surface.kind, surface.length_nm, None, draft.x_nm, None, unit).items():
        reader.wrong(field, sentence)
    if draft.from_b and same_point(draft.from_a, draft.from_b):
        reader.wrong("from_b", "Two distances from the same point do not find a place: take a second one.")
    apart = None if reader.errors else too_far_apart(surface.kind, draft, [one for one in others if not one.removed_on])
    if apart:
        reader.wrong(
            apart.field,
            f"“{apart.other}” is {show_length(apart.along_nm, unit)} from here along the trench, but their distances "
            f"from {apart.fixed} differ by {show_length(apart.ties_nm, unit)}. One of these lengths is wrong.",
        )
    reader.done()
    return draft
