"""Sheet W3: behind this wall. First which surface, then where on it, then what is there."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.answer import Answer, answer
from webapp.surfaces.pages.drawing import facts_of
from webapp.surfaces.pages.known import BandLine, Known, band_lines, closed_lines, fixing_lines, gap_lines
from webapp.surfaces.pages.stretch import STRETCH_NM, Around, Stage, names_of, photo_ids, stages
from webapp.surfaces.rules.bands import MARGIN_NM, PLATE_DEPTH_NM, BandGroup, bands, doing, groups
from webapp.surfaces.rules.drawing import Drawing
from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.face import Point, Thing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.near import HAND_NM, gap, hits
from webapp.surfaces.rules.paper import usual_paper
from webapp.surfaces.rules.places import UP
from webapp.surfaces.rules.round import KeyPlan, plan_of
from webapp.surfaces.rules.spotted import spotted
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import field_length, show_length

HEADS = {SurfaceKind.WALL: "Up", SurfaceKind.OUTSIDE: "Up", SurfaceKind.TRENCH: "Down"}
"""short head of the second measure"""


@dataclass(frozen=True, slots=True)
class Choice:
    """A surface to choose, with its number on the key plan."""

    number: int
    name: str
    says: str
    href: str


@dataclass(frozen=True, slots=True)
class ChoosePage:
    sheet: Sheet
    plan: KeyPlan | None
    choices: tuple[Choice, ...]


@dataclass(frozen=True, slots=True)
class Caution:
    heading: str
    sentences: tuple[str, ...]
    source: str


@dataclass(frozen=True, slots=True)
class BehindPage:
    """`overview` is None while a measure of the surface is unknown; `answer` while no spot is asked about."""

    sheet: Sheet
    name: str
    href: str
    action: str
    back: str
    print_href: str
    surfaces: tuple[tuple[str, str], ...]
    form: FormState
    x_label: str
    y_label: str
    x_head: str
    up_head: str
    hand: str
    overview: Drawing | None
    answer: Answer | None
    caution: Caution
    doing: str
    near_bands: tuple[BandLine, ...]
    bands: tuple[BandLine, ...]
    fixings: tuple[Known, ...]
    closed: tuple[Known, ...]
    gaps: tuple[Known, ...]
    stages: tuple[Stage, ...]
    all_pictures: str
    ask_href: str


def choose_page(session: Session, here: Here) -> ChoosePage:
    surfaces = store.list_surfaces(session, here.build.id)
    hrefs = {one.id: f"{here.base}/surfaces/{one.code}/behind" for one in surfaces}
    openings = store.list_openings(session, here.build.id)
    return ChoosePage(
        sheet=here.sheet("W3", "Behind this wall"),
        plan=plan_of(surfaces, openings, here.build.unit, hrefs) if surfaces else None,
        choices=tuple(
            Choice(number, one.name, closed_words(here, one), hrefs[one.id]) for number, one in enumerate(surfaces, 1)
        ),
    )


def closed_words(here: Here, surface: SurfaceFacts) -> str:
    return f"closed {show_day(surface.covered_on, here.today)}" if surface.covered_on else "open"


def behind_page(
    session: Session, here: Here, code: str, spot: Point | None = None, form: FormState | None = None
) -> BehindPage:
    """`form` is what was typed and not taken."""
    surface, unit = store.get_surface(session, here.build.id, code), here.build.unit
    href, kind = f"{here.base}/surfaces/{surface.code}", SurfaceKind(surface.kind)
    facts = facts_of(session, here, surface)
    found = bands(facts) if facts else ()
    listed = groups(facts, found) if facts else ()
    notes = {item.id: item.note for item in store.list_items(session, here.build.id)}
    return BehindPage(
        sheet=here.sheet(f"W3-{surface.code}", "Behind this wall", f"Behind {surface.name}", _key(surface)),
        name=surface.name,
        href=f"{href}/behind",
        action=f"{here.base}/behind",
        back=href,
        print_href=f"{href}/sheet?paper={usual_paper(unit)}",
        surfaces=tuple(
            (one.code, f"{one.name}, {closed_words(here, one)}") for one in store.list_surfaces(session, here.build.id)
        ),
        form=form or _state(surface, spot, unit),
        x_label=f"From {surface.origin_corner}" if surface.origin_corner else "From the corner",
        y_label=UP[kind],
        x_head=f"from {surface.origin_corner or 'the corner'}",
        up_head=HEADS.get(kind, "Across"),
        hand=show_length(HAND_NM[unit], unit),
        overview=spotted(facts, found, spot, HAND_NM[unit]) if facts else None,
        answer=answer(session, here, surface, facts, found, spot) if facts and spot else None,
        caution=_caution(unit),
        doing=doing(kind),
        near_bands=band_lines(facts.face, _near(listed, spot)) if facts and spot else (),
        bands=band_lines(facts.face, listed) if facts else (),
        fixings=fixing_lines(facts, notes) if facts else (),
        closed=closed_lines(session, here, surface),
        gaps=gap_lines(session, here, surface, photo_ids(session, here, surface)),
        stages=stages(session, here, Around(surface, spot, _things_near(facts, spot))),
        all_pictures=f"{here.base}/pictures?surface={surface.code}",
        ask_href=f"{here.base}/questions/new?surface={surface.code}",
    )


def _key(surface: SurfaceFacts) -> str:
    return surface.facing if surface.kind == SurfaceKind.WALL else ""


def _state(surface: SurfaceFacts, spot: Point | None, unit: str) -> FormState:
    if spot is None:
        return FormState.of(surface=surface.code)
    return FormState.of(surface=surface.code, x=field_length(spot[0], unit), y=field_length(spot[1], unit))


def _near(listed: tuple[BandGroup, ...], spot: Point) -> tuple[BandGroup, ...]:
    """Of each group the strips of this stretch, the nearest group first."""
    kept = []
    for group in listed:
        boxes = tuple(box for box in group.boxes if gap(spot, box).within(STRETCH_NM))
        if boxes:
            away = min(gap(spot, box).squared for box in boxes)
            plates = tuple(p for p in group.plates if abs(p.x_nm - spot[0]) <= STRETCH_NM)
            kept.append((away, BandGroup(group.name, boxes, group.usual, plates)))
    return tuple(group for _, group in sorted(kept, key=lambda one: one[0]))


def _things_near(facts: Facts | None, spot: Point | None) -> dict[int, tuple[int, str]]:
    """Things of this stretch by id, also those that were moved: how far each is, and its name."""
    if facts is None or spot is None:
        return {}
    return names_of(
        (hit.found.id, hit.gap.distance_nm, f"{hit.found.tag}, {hit.found.label}")
        for replaced in (False, True)
        for hit in hits(facts, spot, replaced=replaced)
        if isinstance(hit.found, Thing) and hit.gap.within(STRETCH_NM)
    )


def _caution(unit: str) -> Caution:
    depth, margin = show_length(PLATE_DEPTH_NM, unit), show_length(MARGIN_NM, unit)
    return Caution(
        "Before you drill",
        (
            "Switch off the circuits of this wall, and see with a tester that they are dead.",
            "A detector finds what no record holds. Drill no deeper than the board and the screw need.",
            f"Where the rule was kept, a cable lies {depth} behind the face of its stud, or behind a steel plate.",
            "A longer screw reaches it.",
        ),
        f"the depth: NEC 300.4(A)(1) and (D). The bands, {margin} to each side of what runs there: common practice, "
        "no source.",
    )
