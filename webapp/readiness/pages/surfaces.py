"""Sheet W1: the surfaces, the open ones nearest to closing first; and how one of them stands, for its own sheet."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.pages.covers import SurfaceLine, surface_line
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import count_words, cover_answer
from webapp.readiness.store import Site, nearest_first, site
from webapp.surfaces.rules.round import KeyPlan, plan_of
from webapp.surfaces.rules.section import in_words, is_turned, layers
from webapp.surfaces.store import SurfaceFacts, get_surface, list_openings
from webapp.values.dates import show_day

NOTHING = "nothing"


@dataclass(frozen=True, slots=True)
class SurfaceRow:
    """One line of the list. `mark`: letters of its section; `says`: the same in words; `whom` and `letter`: what the
    first root cause waits for, "nothing" when it may be closed, empty once it is."""

    number: int
    name: str
    href: str
    mark: str
    turned: bool
    says: str
    letter: str
    whom: str


@dataclass(frozen=True, slots=True)
class Place:
    """A surface at its place on the round, while the order is changed."""

    number: int
    name: str
    code: str
    move: str


@dataclass(frozen=True, slots=True)
class SurfacesPage:
    """`round` holds all surfaces in their order while it is changed, and nothing otherwise."""

    sheet: Sheet
    summary: str
    plan: KeyPlan | None
    open: tuple[SurfaceRow, ...]
    closed: tuple[SurfaceRow, ...]
    round: tuple[Place, ...]


@dataclass(frozen=True, slots=True)
class StandingPage:
    """`line` answers whether the surface may be covered, `says` what its section shows."""

    sheet: Sheet
    name: str
    line: SurfaceLine
    says: str
    back: str


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}."


def _waits(found: Site, surface: SurfaceFacts) -> tuple[str, str]:
    if surface.covered_on is not None:
        return "", ""
    cover = keys.cover(surface.id)
    if found.network.can_start(cover):
        return "", NOTHING
    first = found.network.roots(cover)[0].waits_for
    return first.letter, first.value


def _says(found: Site, surface: SurfaceFacts) -> str:
    """What its section shows, and how much is owed where something is."""
    words = in_words(found.states[surface.id])
    if surface.covered_on is not None:
        words = words.replace("closed", f"closed {show_day(surface.covered_on, found.today)}", 1)
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    owed = f" {count_words(answer)}." if answer.stops or answer.wishes else ""
    return _sentence(words) + owed


def _row(found: Site, number: int, surface: SurfaceFacts) -> SurfaceRow:
    letter, whom = _waits(found, surface)
    return SurfaceRow(
        number=number,
        name=surface.name,
        href=f"{found.build.base}/surfaces/{surface.code}",
        mark=layers(found.states[surface.id], large=True),
        turned=is_turned(surface.kind),
        says=_says(found, surface),
        letter=letter,
        whom=whom,
    )


def _plan(session: Session, found: Site) -> KeyPlan:
    surfaces = found.record.surfaces
    hrefs = {one.id: f"{found.build.base}/surfaces/{one.code}" for one in surfaces}
    return plan_of(surfaces, list_openings(session, found.build.id), found.build.unit, hrefs)


def surfaces_page(session: Session, here: Here, *, ordering: bool = False) -> SurfacesPage:
    """Numbers run clockwise from the door, as on the key plan, whatever the order of the list.

    `ordering`: with all in the order of the round, to be changed.
    """
    found = site(session, here.build, here.today)
    number = {surface.id: at for at, surface in enumerate(found.record.surfaces, 1)}
    closed = [surface for surface in found.record.surfaces if surface.covered_on is not None]
    opened = nearest_first(found)
    return SurfacesPage(
        sheet=here.sheet("W1", "Surfaces"),
        summary=f"{len(closed)} closed for good, {len(opened)} open",
        plan=_plan(session, found) if found.record.surfaces else None,
        open=tuple(_row(found, number[surface.id], surface) for surface in opened),
        closed=tuple(_row(found, number[surface.id], surface) for surface in closed),
        round=tuple(
            Place(at, one.name, one.code, f"{here.base}/surfaces/{one.code}/move")
            for at, one in enumerate(found.record.surfaces if ordering else (), 1)
        ),
    )


def standing_page(session: Session, here: Here, code: str) -> StandingPage:
    """Raises NotFound for a code that no surface has."""
    found = site(session, here.build, here.today)
    surface = get_surface(session, here.build.id, code)
    line, _ = surface_line(found, surface)
    return StandingPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "How it stands", surface.facing),
        name=surface.name,
        line=line,
        says=f"{_sentence(in_words(found.states[surface.id]))} {_sentence(line.detail)}",
        back=f"{here.base}/surfaces/{surface.code}",
    )
