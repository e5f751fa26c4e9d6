"""All surfaces before cover, the nearest to closing first."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import CoverAnswer, count_words, cover_answer
from webapp.readiness.store import Site, nearest_first, site
from webapp.surfaces.rules.section import is_turned, layers
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class SurfaceLine:
    """One surface: its mark, what the answer is, how much is owed."""

    name: str
    verdict: str
    detail: str
    href: str
    mark: str
    turned: bool
    no: bool


@dataclass(frozen=True, slots=True)
class CoversPage:
    sheet: Sheet
    open: tuple[SurfaceLine, ...]
    closed: tuple[SurfaceLine, ...]
    sentence: str
    surfaces_href: str


def surface_line(found: Site, surface: SurfaceFacts) -> tuple[SurfaceLine, CoverAnswer]:
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    line = SurfaceLine(
        name=surface.name,
        verdict=_verdict(surface, answer, by_mistake=found.states[surface.id].by_mistake),
        detail=count_words(answer),
        href=f"{found.build.base}/surfaces/{surface.code}/before-cover",
        mark=layers(found.states[surface.id], large=True),
        turned=is_turned(surface.kind),
        no=not answer.may_be_covered,
    )
    return line, answer


def _verdict(surface: SurfaceFacts, answer: CoverAnswer, *, by_mistake: bool) -> str:
    if surface.covered_on is not None:
        closed = f"Closed {show_date(surface.covered_on)}"
        return closed if answer.may_be_covered else f"{closed}, not in order"
    if by_mistake:
        return "Covered by mistake, settled by now" if answer.may_be_covered else "Covered, not cleared"
    return "May be covered" if answer.may_be_covered else "Do not cover"


def covers_page(session: Session, here: Here) -> CoversPage:
    found = site(session, here.build, here.today)
    open_ones = [surface_line(found, surface)[0] for surface in nearest_first(found)]
    shut = [surface for surface in found.record.surfaces if surface.covered_on is not None]
    closed = [(not line.no, at, line) for at, line in enumerate(surface_line(found, one)[0] for one in shut)]
    free = sum(not line.no for line in open_ones)
    return CoversPage(
        sheet=here.sheet("W2", "Before cover"),
        open=tuple(open_ones),
        closed=tuple(line for *_, line in sorted(closed, key=lambda found: found[:2])),
        sentence=_sentence(free, len(open_ones)),
        surfaces_href=f"{here.base}/surfaces",
    )


def _sentence(free: int, still_open: int) -> str:
    if not still_open:
        return "Every surface is closed."
    surfaces = "One surface is" if still_open == 1 else f"{still_open} surfaces are"
    may = "none may be covered yet" if not free else "one may be covered" if free == 1 else f"{free} may be covered"
    return f"{surfaces} open; {may}."
