"""What inspectors said of one surface, for its own sheet: drawn, in a list, with words that are no results."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections.pages.advice import AdviceLine, advice_of
from webapp.inspections.pages.book import CorrectionLine, PlaceLine, read_book
from webapp.inspections.pages.marked import Marked, marked
from webapp.inspections.rules.corrections import is_cleared
from webapp.plan.guard import Here
from webapp.surfaces.store import get_surface


@dataclass(frozen=True, slots=True)
class Stood:
    inspection: str
    line: PlaceLine


@dataclass(frozen=True, slots=True)
class SaidPage:
    """`map` where a correction has its place on the drawing; `stood`: each inspection that looks at it."""

    sheet: Sheet
    name: str
    base: str
    back: str
    history: str
    map: Marked | None
    open: tuple[CorrectionLine, ...]
    cleared: int
    stood: tuple[Stood, ...]
    advice: tuple[AdviceLine, ...]
    new_advice: str


def said_page(session: Session, here: Here, code: str) -> SaidPage:
    book, surface = read_book(session, here), get_surface(session, here.build.id, code)
    own = [one for one in book.corrections if one.surface_id == surface.id]
    results = {one.id: [r for r in book.results if r.inspection_id == one.inspection_id] for one in own}
    still = tuple(one for one in own if not is_cleared(one, results[one.id]))
    placed = [one for one in own if one.x_nm is not None]
    href = f"{here.base}/surfaces/{surface.code}"
    return SaidPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name, "What was said of it", surface.facing),
        name=surface.name,
        base=here.base,
        back=href,
        history=f"{href}/history",
        map=marked(session, here, surface, own, book.results) if placed else None,
        open=book.correction_lines(still),
        cleared=len(own) - len(still),
        stood=tuple(
            Stood(one.name, line)
            for one in book.inspections
            for line in book.place_lines(one)
            if line.surface_id == surface.id and line.day is not None
        ),
        advice=advice_of(session, here, book, surface_id=surface.id),
        new_advice=f"{here.base}/advice/new?surface={surface.id}",
    )
