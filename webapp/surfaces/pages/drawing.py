"""The drawing of a surface: on its own sheet's page, and alone, from either side."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.drawing import Drawing
from webapp.surfaces.rules.elevation import Facts, describe, draw, glance, mirrored, standing
from webapp.surfaces.rules.face import Opening, Run
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.legend import MARKING, Sign, legend
from webapp.surfaces.rules.places import ACROSS
from webapp.surfaces.rules.studs import layout
from webapp.surfaces.rules.tagging import face_of, things_of
from webapp.surfaces.store import SurfaceFacts
from webapp.values.length import show_length
from webapp.values.verdict import Way

PLANS = {SurfaceKind.CEILING, SurfaceKind.FLOOR, SurfaceKind.SLAB}


@dataclass(frozen=True, slots=True)
class Elevation:
    """A drawing with its words, its legend and the ways to the same surface drawn otherwise."""

    heading: str
    title: str
    words: str
    caption: str
    note: str
    sheet: Drawing
    glance: Drawing
    legend: tuple[Sign, ...]
    ways: tuple[Way, ...]
    item_href: str


@dataclass(frozen=True, slots=True)
class DrawingPage:
    """`elevation` is None while a measure of the surface is not known; `across` says what the second one is called."""

    sheet: Sheet
    name: str
    back: str
    across: str
    elevation: Elevation | None


def drawing_page(session: Session, here: Here, code: str, *, mirror: bool, replaced: bool) -> DrawingPage:
    surface = store.get_surface(session, here.build.id, code)
    key = surface.facing if surface.kind == SurfaceKind.WALL else ""
    return DrawingPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "The drawing", key),
        name=surface.name,
        back=f"{here.base}/surfaces/{surface.code}",
        across=ACROSS[SurfaceKind(surface.kind)],
        elevation=elevation(session, here, surface, alone=True, mirror=mirror, replaced=replaced),
    )


def elevation(
    session: Session,
    here: Here,
    surface: SurfaceFacts,
    *,
    alone: bool = False,
    mirror: bool = False,
    replaced: bool = False,
) -> Elevation | None:
    """The drawing of a surface; None while its length or its other measure is not known.

    Remembered until something of what it is drawn from is written: it is the costly part of the page.
    """
    key = ("drawing", here.base, here.build.unit, surface, alone, mirror, replaced)
    return remembered(session, key, lambda: _elevation(session, here, surface, alone, mirror, replaced))


def _elevation(
    session: Session, here: Here, surface: SurfaceFacts, alone: bool, mirror: bool, replaced: bool
) -> Elevation | None:
    found = facts_of(session, here, surface)
    if found is None:
        return None
    has_replaced = standing(found) != found
    facts = found if replaced else standing(found)
    if mirror:
        facts = mirrored(facts)
    drawing = draw(facts)
    return Elevation(
        heading=_heading(facts),
        title=f"{surface.name}, from the other side" if mirror else surface.name,
        words=describe(facts),
        caption=_caption(facts, drawing),
        note=f"{MARKING} Drawn from my own offsets, to the centre of each. Not a survey.",
        sheet=drawing,
        glance=glance(facts),
        legend=legend(facts),
        ways=_ways(f"{here.base}/surfaces/{surface.code}/drawing", alone, mirror, replaced, has_replaced),
        item_href=f"{here.base}/surfaces/{surface.code}/items",
    )


def facts_of(session: Session, here: Here, surface: SurfaceFacts) -> Facts | None:
    """What is on record of a surface, as it is drawn."""
    build_id, face = here.build.id, face_of(surface, here.build.unit)
    if face is None:
        return None
    items = [item for item in store.list_items(session, build_id) if item.surface_id == surface.id]
    openings = tuple(
        Opening(one.id, one.kind, one.name, one.x_nm, one.y_nm, one.width_nm, one.height_nm)
        for one in store.list_openings(session, build_id)
        if one.surface_id == surface.id and one.removed_on is None
    )
    runs = tuple(
        Run(one.id, one.line, one.label, one.service, one.points, one.replaced_on is not None)
        for one in store.list_runs(session, build_id)
        if one.surface_id == surface.id
    )
    return Facts(face, openings, things_of(items), runs)


def _heading(facts: Facts) -> str:
    if facts.face.kind == SurfaceKind.TRENCH:
        return "The section"
    return "The plan" if facts.face.kind in PLANS else "The elevation"


def _caption(facts: Facts, drawing: Drawing) -> str:
    """What it is measured from, how it is framed, and how depths are drawn."""
    face = facts.face
    corner = f"{face.origin_corner} corner" if 0 < len(face.origin_corner) <= 2 else face.origin_corner or "left corner"
    zero = {SurfaceKind.TRENCH: " and grade"}.get(
        face.kind, "" if face.kind in PLANS else " and the finished floor (FF)"
    )
    parts = [f"Measures from the {corner.removeprefix('the ')}{zero}, to centres."]
    if layout(face) and face.spacing_nm and face.kind != SurfaceKind.TRENCH:
        name = "Joists" if face.kind in PLANS else "Studs"
        parts.append(f"{name} {show_length(face.spacing_nm, face.unit)} on centre.")
    if drawing.depths > 1:
        parts.append(f"Depths are drawn {drawing.depths} times as large as lengths.")
    return " ".join(parts)


def _ways(href: str, alone: bool, mirror: bool, replaced: bool, has_replaced: bool) -> tuple[Way, ...]:
    """The same surface drawn otherwise: alone, from the other side, with what was replaced."""

    def to(mirror: bool, replaced: bool) -> str:
        asked = [name for name, on in (("mirror=1", mirror), ("replaced=1", replaced)) if on]
        return f"{href}?{'&'.join(asked)}" if asked else href

    ways = [] if alone else [Way("Alone on a sheet", href)]
    ways.append(Way("From this side" if mirror else "From the other side", to(not mirror, replaced)))
    if has_replaced:
        ways.append(
            Way("Without what was replaced" if replaced else "With what was replaced", to(mirror, not replaced))
        )
    return tuple(ways)
