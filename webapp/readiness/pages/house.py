"""The house file: what is behind each surface, what its closing rests on, and every gap, on one sheet that prints."""

from collections.abc import Iterator
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections.rules.results import Standing
from webapp.linetests.pages import TestLine, lines_of
from webapp.linetests.store import list_tests
from webapp.plan.guard import Here
from webapp.readiness.pages.before_cover import NOUNS, ClosingLine, LetGoLine, closing_line, let_go_line
from webapp.readiness.pages.house_papers import HousePaper, house_papers
from webapp.readiness.rules import keys
from webapp.readiness.rules.answers import cover_answer
from webapp.readiness.store import Site, let_go, site
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.section import is_turned, layers
from webapp.surfaces.store import (
    LineFacts,
    SurfaceFacts,
    list_covers,
    list_items,
    list_lifted_before,
    list_lines,
    list_runs,
    pictures_by_surface,
)
from webapp.values.dates import show_date
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class PermitBlock:
    """One permit without its number, and where each of its inspections stands: (name, what was said)."""

    name: str
    dates: str
    href: str
    said: tuple[tuple[str, str], ...]


@dataclass(frozen=True, slots=True)
class SurfaceBlock:
    """One surface. `hidden`: how much is on record; `missing`: what nobody can answer for, as it stands today."""

    name: str
    href: str
    mark: str
    turned: bool
    says: str
    hidden: str
    closings: tuple[ClosingLine, ...]
    missing: tuple[str, ...]
    let_go: tuple[LetGoLine, ...]
    let_go_before: tuple[LetGoLine, ...]


@dataclass(frozen=True, slots=True)
class HousePage:
    sheet: Sheet
    what: str
    asked_on: str
    sentence: str
    surfaces: tuple[SurfaceBlock, ...]
    permits: tuple[PermitBlock, ...]
    services: tuple[tuple[str, str, str], ...]
    tests: tuple[TestLine, ...]
    """those that stand: neither taken back nor done again"""
    papers: tuple[HousePaper, ...]
    surfaces_href: str


def house_page(session: Session, here: Here) -> HousePage:
    found = site(session, here.build, here.today)
    pictures = pictures_by_surface(session, here.build.id)
    blocks = tuple(_surface(session, found, surface, pictures.get(surface.id, 0)) for surface in found.record.surfaces)
    standing = tuple(one for one in list_tests(session, here.build.id) if one.stands)
    return HousePage(
        sheet=here.sheet("H1", "House file"),
        what=here.build.what,
        asked_on=show_date(here.today),
        sentence=_sentence(blocks, sum(one.covered_on is not None for one in found.record.surfaces)),
        surfaces=blocks,
        permits=_permits(found),
        services=tuple(_service(line) for line in list_lines(session, here.build.id)),
        tests=lines_of(session, here, standing),
        papers=house_papers(session, here),
        surfaces_href=f"{here.base}/surfaces",
    )


def _sentence(blocks: tuple[SurfaceBlock, ...], closed: int) -> str:
    gaps = sum(len(block.missing) + len(block.let_go) + len(block.let_go_before) for block in blocks)
    admitted = f"{plural(gaps, 'gap')} admitted below" if gaps else "no gap on record"
    return f"{plural(len(blocks), 'surface')}, {closed} closed; {admitted}."


def _surface(session: Session, found: Site, surface: SurfaceFacts, pictures: int) -> SurfaceBlock:
    build_id, state = found.build.id, found.states[surface.id]
    answer = cover_answer(found.network, keys.cover(surface.id), surface.name)
    owed = (*answer.stops, *answer.wishes)
    noun = NOUNS[SurfaceKind(surface.kind)]
    before = (line for line in list_lifted_before(session, build_id) if line.surface_id == surface.id)
    return SurfaceBlock(
        name=surface.name,
        href=f"{found.build.base}/surfaces/{surface.code}",
        mark=layers(state, large=True),
        turned=is_turned(surface.kind),
        says=_says(surface, len(owed), by_mistake=state.by_mistake),
        hidden=_hidden(session, found.build.id, surface.id, pictures),
        closings=tuple(
            closing_line(cover, noun) for cover in list_covers(session, build_id) if cover.surface_id == surface.id
        ),
        missing=tuple(need.node.title for need in owed) if surface.covered_on or state.by_mistake else (),
        let_go=tuple(let_go_line(found, line) for line in let_go(found, surface.id)),
        let_go_before=tuple(let_go_line(found, line) for line in before),
    )


def _says(surface: SurfaceFacts, owed: int, *, by_mistake: bool) -> str:
    if surface.covered_on is None and by_mistake:
        return f"Covered by mistake and not cleared; {plural(owed, 'thing')} owed."
    if surface.covered_on is None:
        return f"Open; {plural(owed, 'thing')} owed before it is closed." if owed else "Open; nothing owed."
    with_what = f" with {surface.closed_by}" if surface.closed_by else ""
    return f"Closed {show_date(surface.covered_on)}{with_what}."


def _hidden(session: Session, build_id: int, surface_id: int, pictures: int) -> str:
    """ "14 things, 9 stretches of cable, pipe or duct, 12 pictures." """
    items = [one for one in list_items(session, build_id) if one.surface_id == surface_id and not one.replaced_on]
    runs = [one for one in list_runs(session, build_id) if one.surface_id == surface_id and not one.replaced_on]
    return (
        f"{plural(len(items), 'thing')}, {plural(len(runs), 'stretch', 'stretches')} of cable, pipe or duct, "
        f"{plural(pictures, 'picture')}."
    )


def _permits(found: Site) -> tuple[PermitBlock, ...]:
    blocks = []
    for permit in found.record.permits:
        days = (("issued", permit.issued_on), ("closed", permit.closed_on))
        dates = ", ".join(f"{word} {show_date(day)}" for word, day in days if day) or "not issued"
        href = f"{found.build.base}/permits/{permit.code}"
        blocks.append(PermitBlock(permit.name, dates, href, tuple(_said(found, permit.id))))
    return tuple(blocks)


def _said(found: Site, permit_id: int) -> Iterator[tuple[str, str]]:
    """Each inspection of a permit, surface by surface, and where it stands."""
    record = found.record
    for one in record.inspections:
        if one.permit_id == permit_id:
            for place in one.places:
                name = f"{one.name}, {record.surface[place].name}" if place else one.name
                yield name, _stood(record.standings[one.id][place])


def _stood(found: Standing) -> str:
    """ "passed, 12 Apr 2026, the inspector, card signed" """
    return ", ".join(part for part in (found.words, show_date(found.day) if found.day else "", found.by) if part)


def _service(line: LineFacts) -> tuple[str, str, str]:
    """Short name, what it is, breaker and cable."""
    ended = f"out of use since {show_date(line.ended_on)}" if line.ended_on else ""
    breaker = f"{line.breaker_a} A" if line.breaker_a else ""
    return line.code, line.name, ", ".join(part for part in (breaker, line.cable, ended) if part)
