"""The drawing of a surface: on its own sheet's page, and alone, from either side."""

from dataclasses import dataclass, replace

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.placing import AS_IT_IS, FLAGS, Seen, Touch, touch
from webapp.surfaces.rules.back import other_face, seen_through
from webapp.surfaces.rules.drawing import Drawing
from webapp.surfaces.rules.elevation import Facts, draw, glance, mirrored, standing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.legend import MARKING, Sign, legend
from webapp.surfaces.rules.places import ACROSS
from webapp.surfaces.rules.studs import layout
from webapp.surfaces.rules.tagging import face_of, openings_of, runs_of, things_of, unmeasured_words
from webapp.surfaces.rules.telling import describe
from webapp.surfaces.rules.within import corners_of, lies_within, names_outside
from webapp.surfaces.store import SurfaceFacts
from webapp.values.length import show_length
from webapp.values.verdict import Way
from webapp.values.words import join_words

PLANS = {SurfaceKind.CEILING, SurfaceKind.FLOOR, SurfaceKind.SLAB}


@dataclass(frozen=True, slots=True)
class Elevation:
    """A drawing with its words, its legend and the ways to the same surface drawn otherwise."""

    heading: str
    title: str
    words: str
    caption: str
    missing: Way | None
    note: str
    sheet: Drawing
    glance: Drawing
    legend: tuple[Sign, ...]
    ways: tuple[Way, ...]
    other_face: Way | None
    item_href: str


@dataclass(frozen=True, slots=True)
class DrawingPage:
    """`elevation` is None while a measure of the surface is not known; `across` says what the second one is called."""

    sheet: Sheet
    name: str
    back: str
    across: str
    elevation: Elevation | None
    touch: Touch


def key_of(surface: SurfaceFacts) -> str:
    """What is drawn heavy in the key plan: a wall by its side, or the room for what lies over or under it."""
    return surface.facing if surface.kind == SurfaceKind.WALL else "room" if surface.kind in PLANS else ""


def drawing_page(
    session: Session,
    here: Here,
    code: str,
    seen: Seen = AS_IT_IS,
    *,
    new: int = 0,
    place: FormState | None = None,
    move: FormState | None = None,
) -> DrawingPage:
    """The drawing alone. `new` is marked in it; `place` and `move` are forms that were not taken."""
    surface = store.get_surface(session, here.build.id, code)
    return DrawingPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "The drawing", key_of(surface)),
        name=surface.name,
        back=f"{here.base}/surfaces/{surface.code}",
        across=ACROSS[SurfaceKind(surface.kind)],
        elevation=elevation(session, here, surface, seen, alone=True),
        touch=touch(session, here, surface, seen, new, place, move),
    )


def elevation(
    session: Session, here: Here, surface: SurfaceFacts, seen: Seen = AS_IT_IS, *, alone: bool = False
) -> Elevation | None:
    """The drawing of a surface; None while its length or its other measure is not known.

    Remembered until something of what it is drawn from is written: it is the costly part of the page.
    """
    key = ("drawing", here.base, here.build.unit, surface, alone, seen)
    return remembered(session, key, lambda: _elevation(session, here, surface, seen, alone))


def _elevation(session: Session, here: Here, surface: SurfaceFacts, seen: Seen, alone: bool) -> Elevation | None:
    found = facts_of(session, here, surface)
    if found is None:
        return None
    outside = names_outside(surface.length_nm, surface.height_nm, found.things, found.openings, found.runs)
    found = _fitting(found)
    has_replaced = standing(found) != found
    facts = found if seen.replaced else standing(found)
    other = other_face(surface, store.list_surfaces(session, here.build.id))
    if other and seen.other:
        facts = _with_other_face(facts, facts_of(session, here, other))
    if seen.mirror:
        facts = mirrored(facts)
    drawing, href = draw(facts), f"{here.base}/surfaces/{surface.code}"
    ways = [] if alone else [Way("Alone on a sheet", f"{href}/drawing")]
    return Elevation(
        heading=_heading(facts),
        title=f"{surface.name}, from the other side" if seen.mirror else surface.name,
        words=describe(facts),
        caption=_caption(facts, drawing),
        missing=_missing(facts, href),
        note=f"{_not_drawn(outside)}{MARKING} Drawn from my own offsets. Not a survey.",
        sheet=drawing,
        glance=glance(facts),
        legend=legend(facts),
        ways=(*ways, *_ways(f"{href}/drawing", seen, has_replaced, other.name if other else "")),
        other_face=Way(f"Other face: {other.name}", f"{here.base}/surfaces/{other.code}") if other else None,
        item_href=f"{href}/items",
    )


def facts_of(session: Session, here: Here, surface: SurfaceFacts) -> Facts | None:
    """What is on record of a surface, as it is drawn."""
    build_id, face = here.build.id, face_of(surface, here.build.unit)
    if face is None:
        return None
    items = [item for item in store.list_items(session, build_id) if item.surface_id == surface.id]
    openings = openings_of(store.openings_of(session, build_id, surface.id))
    runs = runs_of(one for one in store.list_runs(session, build_id) if one.surface_id == surface.id)
    return Facts(face, openings, things_of(items), runs)


def _fitting(facts: Facts) -> Facts:
    """Without what lies outside the surface: it cannot be drawn."""
    length, height = facts.face.length_nm, facts.face.height_nm
    return replace(
        facts,
        openings=tuple(one for one in facts.openings if lies_within(length, height, corners_of(one))),
        things=tuple(one for one in facts.things if lies_within(length, height, ((one.x_nm, one.y_nm),))),
        runs=tuple(one for one in facts.runs if lies_within(length, height, one.points)),
    )


def _not_drawn(outside: tuple[str, ...]) -> str:
    """What cannot be drawn, so that nobody takes its absence for a fact."""
    if not outside:
        return ""
    return f"Not drawn, because outside of what the surface measures now: {join_words(outside)}. "


def _with_other_face(facts: Facts, other: Facts | None) -> Facts:
    if other is None:
        return facts
    things, runs = seen_through(facts.face, other.face, other.things, other.runs)
    return replace(facts, through=things, through_runs=runs)


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
    reach = "along to centres, down to tops" if face.kind == SurfaceKind.TRENCH else "to centres"
    parts = [f"Measures from the {corner.removeprefix('the ')}{zero}, {reach}."]
    if layout(face) and face.spacing_nm and face.kind != SurfaceKind.TRENCH:
        name = "Joists" if face.kind in PLANS else "Studs"
        parts.append(f"{name} {show_length(face.spacing_nm, face.unit)} on centre.")
    if unmeasured := unmeasured_words(facts.things):
        parts.append(unmeasured)
    if drawing.depths > 1:
        parts.append(f"Depths are drawn {drawing.depths} times as large as lengths.")
    return " ".join(parts)


def _missing(facts: Facts, href: str) -> Way | None:
    """Where what holds the surface up is not drawn, because nobody said where it stands: the way to say it."""
    face = facts.face
    if face.kind == SurfaceKind.TRENCH or face.kind == SurfaceKind.SLAB:
        return None
    if face.spacing_nm and face.first_stud_nm is not None:
        return None
    name = "Joists" if face.kind in PLANS else "Studs"
    words = f"{name} are not drawn: it is not known how far apart they stand."
    if face.spacing_nm:
        words = f"{name} are drawn from one spacing on: it is not known where the first one stands."
    return Way(words, f"{href}/edit#f-spacing")


def _ways(href: str, seen: Seen, has_replaced: bool, other: str) -> tuple[Way, ...]:
    """The same surface drawn otherwise: from the other side, with what was replaced, over what is in the other face."""
    mirror, replaced, through = (replace(seen, **{name: not getattr(seen, name)}) for name in FLAGS)
    ways = [Way("From this side" if seen.mirror else "From the other side", mirror.at(href))]
    if has_replaced:
        words = "Without what was replaced" if seen.replaced else "With what was replaced"
        ways.append(Way(words, replaced.at(href)))
    if other:
        words = f"Without what is in {other}" if seen.other else f"With what is in {other}, faint"
        ways.append(Way(words, through.at(href)))
    return tuple(ways)
