"""The panel list: what is in each space, as it is met behind the door, to be printed."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.plan.rules.cautions import Caution
from webapp.surfaces import store
from webapp.surfaces.pages.lines import breaker_of, in_order, line_href
from webapp.surfaces.pages.offsets import where_is
from webapp.surfaces.rules.kinds import LineKind
from webapp.surfaces.rules.line_kinds import FROM_PANEL, PANELS
from webapp.surfaces.rules.panel import CAUTION, Cell, spaces_of, two_columns
from webapp.surfaces.store import LineFacts
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class PanelLine:
    """A circuit or feeder as it stands in the list."""

    code: str
    name: str
    href: str
    space: str
    breaker: str
    poles: str
    serves: str
    cable: str
    note: str


@dataclass(frozen=True, slots=True)
class PanelCell:
    """One place behind the door; `line` is None where nothing is in it."""

    space: str
    spans: int
    line: PanelLine | None


@dataclass(frozen=True, slots=True)
class PanelPlace:
    """One panel and where it hangs. `papers`: how the sheet of its papers is asked for."""

    label: str
    where: str
    href: str
    papers: str


@dataclass(frozen=True, slots=True)
class PanelPage:
    """`rows`: left and right place of each row, None below one that reaches down; empty for a plain list. `lines`: all
    that have a space; `unplaced`: circuits without one; `fed`: what feeds the panel; `where`: where it hangs."""

    sheet: Sheet
    title: str
    date: str
    where: tuple[PanelPlace, ...]
    fed: tuple[PanelLine, ...]
    rows: tuple[tuple[PanelCell | None, PanelCell | None], ...]
    lines: tuple[PanelLine, ...]
    unplaced: tuple[PanelLine, ...]
    caution: Caution
    back: str


def panel_page(session: Session, here: Here) -> PanelPage:
    used = [line for line in in_order(store.list_lines(session, here.build.id)) if line.ended_on is None]
    listed = [line for line in used if line.kind in FROM_PANEL]
    placed = sorted((line for line in listed if line.number), key=_by_space)
    shown = {line.id: _line(here, line) for line in listed}
    lines = [shown[line.id] for line in placed]
    return PanelPage(
        sheet=here.sheet("W5", "Services", "Panel list"),
        title=here.build.name,
        date=show_date(here.today),
        where=_where(session, here),
        fed=tuple(shown[line.id] for line in listed if line.kind == LineKind.FEEDER and not line.number),
        rows=tuple((_cell(row.left, lines), _cell(row.right, lines)) for row in two_columns(placed)),
        lines=tuple(lines),
        unplaced=tuple(shown[line.id] for line in listed if line.kind == LineKind.CIRCUIT and not line.number),
        caution=CAUTION,
        back=f"{here.base}/services",
    )


def _by_space(line: LineFacts) -> tuple[int, str]:
    """What names no space comes last."""
    spaces = spaces_of(line)
    return spaces[0] if spaces else (10_000, line.number)


def _cell(cell: Cell | None, lines: Sequence[PanelLine]) -> PanelCell | None:
    if cell is None:
        return None
    return PanelCell(cell.spaces, cell.spans, lines[cell.line] if cell.line is not None else None)


def _line(here: Here, line: LineFacts) -> PanelLine:
    return PanelLine(
        code=line.code,
        name=line.name,
        href=line_href(here, line.code),
        space=line.number,
        breaker=breaker_of(line),
        poles=str(line.poles),
        serves=line.room,
        cable=line.cable,
        note=line.note,
    )


def _where(session: Session, here: Here) -> tuple[PanelPlace, ...]:
    """The panels on record and where they hang."""
    surfaces: Mapping[int, store.SurfaceFacts] = {one.id: one for one in store.list_surfaces(session, here.build.id)}
    return tuple(
        PanelPlace(
            label=item.label,
            where=where_is(item, surfaces[item.surface_id], here.build.unit),
            href=f"{here.base}/surfaces/{surfaces[item.surface_id].code}/items/{item.id}",
            papers=f"item/{item.id}",
        )
        for item in store.list_items(session, here.build.id)
        if item.kind in PANELS and item.replaced_on is None
    )
