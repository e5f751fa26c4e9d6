"""Sheet W1: the surfaces, walked clockwise from the door."""

from collections import Counter, defaultdict
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.kinds import QuestionKind
from webapp.surfaces.rules.marks import is_turned, layers
from webapp.surfaces.rules.round import KeyPlan, PlanSurface, key_plan
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_day
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class SurfaceRow:
    """One line of the list. `layers`: letters of the section mark; `sentence`: how it stands, in words."""

    number: int
    name: str
    href: str
    layers: str
    turned: bool
    sentence: str
    closed_by: str


@dataclass(frozen=True, slots=True)
class SurfacesPage:
    sheet: Sheet
    summary: str
    plan: KeyPlan | None
    open: tuple[SurfaceRow, ...]
    closed: tuple[SurfaceRow, ...]
    base: str


@dataclass(frozen=True, slots=True)
class Owed:
    """What is counted on each surface, by its id."""

    items: Counter[int]
    slots: Counter[int]
    open_slots: Counter[int]
    questions: Counter[int]
    dangers: Counter[int]
    evidence: defaultdict[int, bool]


def count_owed(session: Session, build_id: int) -> Owed:
    """Four queries, whatever the number of surfaces."""
    items = [item for item in store.list_items(session, build_id) if item.replaced_on is None]
    slots = store.list_slots(session, build_id)
    asked = [question for question in store.list_questions(session, build_id) if question.settled_on is None]
    evidence: defaultdict[int, bool] = defaultdict(bool)
    for cover in store.list_covers(session, build_id):
        if cover.opened_on is None:
            evidence[cover.surface_id] = bool(cover.evidence)
    return Owed(
        items=Counter(item.surface_id for item in items),
        slots=Counter(slot.surface_id for slot in slots),
        open_slots=Counter(slot.surface_id for slot in slots if not slot.settled),
        questions=Counter(asked_of.surface_id for asked_of in asked if asked_of.surface_id),
        dangers=Counter(q.surface_id for q in asked if q.surface_id and q.kind == QuestionKind.DANGER),
        evidence=evidence,
    )


def standing(surface: SurfaceFacts, owed: Owed, here: Here) -> str:
    """How a surface stands, in a sentence or two."""
    parts = []
    if surface.covered_on is not None:
        parts.append(f"Closed {show_day(surface.covered_on, here.today)}.")
    elif owed.items[surface.id]:
        parts.append(f"Open, with {plural(owed.items[surface.id], 'thing')} on record in it.")
    else:
        parts.append("Open, nothing on record in it yet.")
    if owed.open_slots[surface.id] and surface.covered_on is None:
        parts.append(f"{owed.open_slots[surface.id]} of {plural(owed.slots[surface.id], 'picture')} owed.")
    if owed.dangers[surface.id]:
        parts.append(f"{plural(owed.dangers[surface.id], 'danger question')} open.")
    elif owed.questions[surface.id]:
        parts.append(f"{plural(owed.questions[surface.id], 'question')} open.")
    return " ".join(parts)


def mark_of(surface: SurfaceFacts, owed: Owed) -> str:
    return layers(
        surface.kind,
        has_items=bool(owed.items[surface.id]),
        covered=surface.covered_on is not None,
        evidence=owed.evidence[surface.id],
    )


def _row(number: int, surface: SurfaceFacts, owed: Owed, here: Here) -> SurfaceRow:
    return SurfaceRow(
        number=number,
        name=surface.name,
        href=f"{here.base}/surfaces/{surface.code}",
        layers=mark_of(surface, owed),
        turned=is_turned(surface.kind),
        sentence=standing(surface, owed, here),
        closed_by=surface.closed_by,
    )


def surfaces_page(session: Session, here: Here) -> SurfacesPage:
    surfaces = store.list_surfaces(session, here.build.id)
    owed = count_owed(session, here.build.id)
    rows = [(_row(number, surface, owed, here), surface) for number, surface in enumerate(surfaces, 1)]
    opened = tuple(row for row, surface in rows if surface.covered_on is None)
    closed = tuple(row for row, surface in rows if surface.covered_on is not None)
    drawn = [
        PlanSurface(number, surface.kind, surface.facing, surface.length_nm, surface.covered_on is not None)
        for number, surface in enumerate(surfaces, 1)
    ]
    return SurfacesPage(
        sheet=here.sheet("W1", "Surfaces"),
        summary=f"{len(closed)} closed for good, {len(opened)} open",
        plan=key_plan(drawn) if drawn else None,
        open=opened,
        closed=closed,
        base=here.base,
    )
