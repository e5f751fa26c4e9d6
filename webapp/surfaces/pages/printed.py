"""One surface on paper: drawn at a stated scale, with everything that is known of it in schedules."""

from collections import defaultdict
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.drawing import facts_of
from webapp.surfaces.pages.known import BandLine, Known, band_lines, closed_lines, fixing_lines, gap_lines
from webapp.surfaces.pages.stretch import photo_ids
from webapp.surfaces.rules.bands import MARGIN_NM, bands, doing, groups, run_name
from webapp.surfaces.rules.elevation import Facts, standing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.legend import MARKING, Sign, legend
from webapp.surfaces.rules.paper import PAPERS, Printed, bar_words, printed
from webapp.surfaces.rules.places import ACROSS
from webapp.surfaces.rules.tagging import unmeasured_words
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.length import show_length
from webapp.values.verdict import Way

HEADS = {"height": "Up", "width": "Across", "depth": "Down"}


@dataclass(frozen=True, slots=True)
class ItemLine:
    tag: str
    label: str
    along: str
    up: str


@dataclass(frozen=True, slots=True)
class PrintedPage:
    """`made` is None where the surface has no size yet or is too long for any scale; `why` then says which."""

    sheet: Sheet
    name: str
    paper: str
    paper_title: str
    back: str
    ways: tuple[Way, ...]
    made: Printed | None
    why: str
    bar: str
    corner: str
    heads: tuple[str, str]
    legend: tuple[Sign, ...]
    note: str
    doing: str
    items: tuple[ItemLine, ...]
    runs: tuple[Known, ...]
    fixings: tuple[Known, ...]
    bands: tuple[BandLine, ...]
    closed: tuple[Known, ...]
    gaps: tuple[Known, ...]
    before: tuple[Known, ...]
    openings: tuple[Known, ...]


def printed_page(session: Session, here: Here, code: str, paper: str) -> PrintedPage:
    """`paper` is a key of PAPERS."""
    surface, unit = store.get_surface(session, here.build.id, code), here.build.unit
    facts, href = facts_of(session, here, surface), f"{here.base}/surfaces/{surface.code}"
    found = bands(facts) if facts else ()
    made = printed(standing(facts), found, PAPERS[paper]) if facts else None
    kind = SurfaceKind(surface.kind)
    notes = {item.id: item.note for item in store.list_items(session, here.build.id)}
    return PrintedPage(
        sheet=here.sheet(f"W3-{surface.code}", surface.name, f"{surface.name}, to print"),
        name=surface.name,
        paper=paper,
        paper_title=PAPERS[paper].title,
        back=f"{href}/behind",
        ways=tuple(
            Way(f"On {one.title}", f"{href}/sheet?paper={name}") for name, one in PAPERS.items() if name != paper
        ),
        made=made,
        why="" if made else _why(facts, kind),
        bar=bar_words(made, unit) if made else "",
        corner=surface.origin_corner or "the corner",
        heads=("Along", HEADS[ACROSS[kind]]),
        legend=legend(standing(facts)) if facts else (),
        note=" ".join(filter(None, (unmeasured_words(standing(facts).things) if facts else "", _note(kind, unit)))),
        doing=doing(kind),
        items=_items(facts) if facts else (),
        runs=_runs(facts) if facts else (),
        fixings=fixing_lines(facts, notes) if facts else (),
        bands=band_lines(facts.face, groups(facts, found)) if facts else (),
        closed=closed_lines(session, here, surface),
        gaps=gap_lines(session, here, surface, photo_ids(session, here, surface)),
        before=_before(session, here, surface),
        openings=_openings(facts) if facts else (),
    )


def _note(kind: SurfaceKind, unit: str) -> str:
    hatched = f"Hatched: {doing(kind).lower()}, {show_length(MARGIN_NM, unit)} to each side of what runs there"
    return (
        f"{MARKING} {hatched} (common practice, no source). Drawn from my own offsets; not a survey, and no promise "
        "that nothing else is there."
    )


def _why(facts: Facts | None, kind: SurfaceKind) -> str:
    if facts is None:
        return f"Not drawn: its length or its {ACROSS[kind]} is not on record."
    return "Not drawn: at the smallest scale it is longer than the paper."


def _items(facts: Facts) -> tuple[ItemLine, ...]:
    unit = facts.face.unit
    return tuple(
        ItemLine(thing.tag, thing.label, show_length(thing.x_nm, unit), show_length(thing.y_nm, unit))
        for thing in standing(facts).things
    )


def _runs(facts: Facts) -> tuple[Known, ...]:
    """By circuit or line: the bends of each stretch."""
    unit, by_name = facts.face.unit, defaultdict(list)
    for run in standing(facts).runs:
        bends = " → ".join(f"{show_length(x, unit)} / {show_length(y, unit)}" for x, y in run.points)
        by_name[run_name(run), run.label].append(bends)
    return tuple(Known(f"{name}, {label}", "; ".join(stretches)) for (name, label), stretches in by_name.items())


def _openings(facts: Facts) -> tuple[Known, ...]:
    unit = facts.face.unit
    return tuple(
        Known(
            one.name or one.kind,
            f"{show_length(one.width_nm, unit)} × {show_length(one.height_nm, unit)}, lower left corner at "
            f"{show_length(one.x_nm, unit)} / {show_length(one.y_nm, unit)}",
        )
        for one in facts.openings
    )


def _before(session: Session, here: Here, surface: SurfaceFacts) -> tuple[Known, ...]:
    """What was moved, replaced or pulled anew, with its day and its old place."""
    unit, found = here.build.unit, []
    for item in store.list_items(session, here.build.id):
        if item.surface_id == surface.id and item.replaced_on is not None:
            where = "its offsets were not on record"
            if item.x_nm is not None and item.y_nm is not None:
                where = f"was at {show_length(item.x_nm, unit)} / {show_length(item.y_nm, unit)}"
            found.append(Known(item.label, f"{where}, until {show_day(item.replaced_on, here.today)}"))
    for run in store.list_runs(session, here.build.id):
        if run.surface_id == surface.id and run.replaced_on is not None:
            bends = " → ".join(f"{show_length(x, unit)} / {show_length(y, unit)}" for x, y in run.points)
            found.append(Known(run.label, f"ran {bends}, until {show_day(run.replaced_on, here.today)}"))
    return tuple(found)
