"""The drawing of a surface with the corrections where the inspector pointed, and where that is in words."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.inspections.rules.corrections import is_cleared
from webapp.inspections.rules.facts import CorrectionFacts, ResultFacts
from webapp.inspections.rules.marks import CorrectionMark, marks
from webapp.plan.guard import Here
from webapp.surfaces.pages.drawing import Elevation, elevation
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.places import UP
from webapp.surfaces.store import SurfaceFacts
from webapp.values.length import field_length, show_length


@dataclass(frozen=True, slots=True)
class Marked:
    """`drawn` at a glance with `marks` on it; `spot`: the numbers that turn a tap back into offsets."""

    name: str
    drawn: Elevation
    marks: tuple[CorrectionMark, ...]
    spot: str
    across: str
    up: str
    unit: str
    x: str
    y: str


def spot_words(here: Here, surface: SurfaceFacts, x_nm: int | None, y_nm: int | None) -> str:
    """Where it is, as the builder reads the tape; empty while nobody said."""
    if x_nm is None or y_nm is None:
        return ""
    up, unit = UP[SurfaceKind(surface.kind)], here.build.unit
    corner = surface.origin_corner or "the corner"
    return f"{show_length(x_nm, unit)} from {corner}, {show_length(y_nm, unit)} {up[:1].lower()}{up[1:]}"


def marked(
    session: Session,
    here: Here,
    surface: SurfaceFacts,
    corrections: Iterable[CorrectionFacts],
    results: Iterable[ResultFacts],
    one: CorrectionFacts | None = None,
) -> Marked | None:
    """None for a surface that cannot be drawn yet. `one`: the correction whose place is asked for."""
    drawn = elevation(session, here, surface)
    if drawn is None:
        return None
    known, said = list(corrections), list(results)
    scale, unit = drawn.glance.scale, here.build.unit
    cleared = (each.id for each in known if is_cleared(each, _of(each, said)))
    at = (one.x_nm, one.y_nm) if one else (None, None)
    return Marked(
        name=surface.name,
        drawn=drawn,
        marks=marks(known, cleared, scale),
        spot=scale.spot,
        across=f"From {surface.origin_corner}" if surface.origin_corner else "From the corner",
        up=UP[SurfaceKind(surface.kind)],
        unit=unit,
        x=field_length(at[0], unit) if at[0] is not None else "",
        y=field_length(at[1], unit) if at[1] is not None else "",
    )


def _of(correction: CorrectionFacts, results: Iterable[ResultFacts]) -> list[ResultFacts]:
    return [one for one in results if one.inspection_id == correction.inspection_id]
