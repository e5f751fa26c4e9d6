"""Sheet W5: every circuit, pipe line, duct and cable of the build, by what it is; and their order."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, LineKind
from webapp.surfaces.rules.line_kinds import FROM_PANEL, GROUPS, kind_order
from webapp.surfaces.rules.lines import pen_of
from webapp.surfaces.rules.ways import drawn_length
from webapp.surfaces.store import ItemFacts, LineFacts, RunFacts, SurfaceFacts
from webapp.values.dates import show_date
from webapp.values.length import show_length
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class Swatch:
    """How a service is drawn: its pen and the letter in the line; no letter for framing."""

    pen: str
    letter: str


@dataclass(frozen=True, slots=True)
class LineRow:
    """One line of the schedule. `on`: short names of its surfaces; `length`: of what is drawn; `gone`: since when."""

    code: str
    name: str
    href: str
    swatch: Swatch
    kind: str
    space: str
    breaker: str
    cable: str
    boxes: str
    on: str
    length: str
    gone: str


@dataclass(frozen=True, slots=True)
class Group:
    title: str
    panel: bool
    rows: tuple[LineRow, ...]


@dataclass(frozen=True, slots=True)
class ServicesPage:
    """`orders`: for each kind with several lines, their rows in order; `ordering`: whether that list is open."""

    sheet: Sheet
    summary: str
    groups: tuple[Group, ...]
    ended: tuple[LineRow, ...]
    orders: tuple[tuple[str, tuple[LineRow, ...]], ...]
    ordering: bool
    any: bool


@dataclass(frozen=True, slots=True)
class Net:
    """What a line's pages are made of, by line: all that stands, and what was replaced left out."""

    surfaces: Mapping[int, SurfaceFacts]
    items: Mapping[int, Sequence[ItemFacts]]
    runs: Mapping[int, Sequence[RunFacts]]


def net_of(session: Session, here: Here) -> Net:
    items: dict[int, list[ItemFacts]] = {}
    runs: dict[int, list[RunFacts]] = {}
    for item in store.list_items(session, here.build.id):
        if item.line_id is not None and item.replaced_on is None:
            items.setdefault(item.line_id, []).append(item)
    for run in store.list_runs(session, here.build.id):
        if run.line_id is not None and run.replaced_on is None:
            runs.setdefault(run.line_id, []).append(run)
    return Net({one.id: one for one in store.list_surfaces(session, here.build.id)}, items, runs)


def services_page(session: Session, here: Here, ordering: bool) -> ServicesPage:
    lines, net = in_order(store.list_lines(session, here.build.id)), net_of(session, here)
    rows = {line.id: _row(here, line, net) for line in lines}
    used = [line for line in lines if line.ended_on is None]
    groups = tuple(
        Group(title, FROM_PANEL.issubset(kinds), tuple(rows[line.id] for line in used if line.kind in kinds))
        for title, kinds in GROUPS
    )
    kinds = dict.fromkeys(line.kind for line in used)
    orders = tuple((kind, tuple(rows[line.id] for line in used if line.kind == kind)) for kind in kinds)
    circuits = sum(line.kind == LineKind.CIRCUIT for line in used)
    others = len(used) - circuits
    return ServicesPage(
        sheet=here.sheet("W5", "Services"),
        summary=f"{plural(circuits, 'circuit')}, {plural(others, 'other line')}",
        groups=tuple(group for group in groups if group.rows),
        ended=tuple(rows[line.id] for line in lines if line.ended_on is not None),
        orders=tuple((kind, listed) for kind, listed in orders if len(listed) > 1),
        ordering=ordering,
        any=bool(lines),
    )


def in_order(lines: Sequence[LineFacts]) -> list[LineFacts]:
    """By kind as they are listed, then in the builder's order."""
    return sorted(lines, key=lambda line: (kind_order(line.kind), line.position, line.id))


def swatch_of(service: str) -> Swatch:
    return Swatch(pen_of(service), SERVICE_LETTERS.get(service, "a").upper())


def line_href(here: Here, code: str) -> str:
    return f"{here.base}/services/{code}"


def breaker_of(line: LineFacts) -> str:
    """`20 A`, `30 A, 2 poles`; empty where there is none."""
    if line.breaker_a is None:
        return ""
    return f"{line.breaker_a} A" + (f", {plural(line.poles, 'pole')}" if line.poles > 1 else "")


def length_of(runs: Sequence[RunFacts], unit: str) -> str:
    """In feet or metres, as long things are measured."""
    return show_length(sum(drawn_length(run.points) for run in runs), "ft-in" if unit in {"ft-in", "in"} else "m")


def _row(here: Here, line: LineFacts, net: Net) -> LineRow:
    items, runs = net.items.get(line.id, ()), net.runs.get(line.id, ())
    on = {item.surface_id for item in items} | {run.surface_id for run in runs}
    boxes = sum(item.is_box for item in items)
    return LineRow(
        code=line.code,
        name=line.name,
        href=line_href(here, line.code),
        swatch=swatch_of(line.service),
        kind=line.kind,
        space=line.number,
        breaker=breaker_of(line),
        cable=line.cable,
        boxes=str(boxes) if boxes else "",
        on=", ".join(surface.code for surface in net.surfaces.values() if surface.id in on),
        length=length_of(runs, here.build.unit) if runs else "",
        gone=f"Out of use since {show_date(line.ended_on)}" if line.ended_on else "",
    )
