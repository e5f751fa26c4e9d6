"""One circuit or line: what it is, its way from box to box, everything on it, and what is not drawn to its end."""

from collections.abc import Iterator, Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.surfaces.pages.changes import Change, changes_of
from webapp.surfaces.pages.lines import Net, Swatch, breaker_of, length_of, line_href, net_of, swatch_of
from webapp.surfaces.pages.notes import Note, notes_of
from webapp.surfaces.pages.offsets import tags_of, where_is
from webapp.surfaces.rules.kinds import LineKind
from webapp.surfaces.rules.line_kinds import PANELS
from webapp.surfaces.rules.ways import Part, Step, pieces, way
from webapp.surfaces.store import ItemFacts, LineFacts, RunFacts
from webapp.values.dates import show_date
from webapp.values.verdict import Way
from webapp.values.words import plural

SHORT_CODE = 4
"""a longer short name has no room in the title block"""
PICTURES = 12


@dataclass(frozen=True, slots=True)
class Place:
    """A thing on the way or on the line: its tag in the drawing, what it is, where; `of`: the line it belongs to
    where that is another one."""

    tag: str
    label: str
    where: str
    href: str
    of: str


@dataclass(frozen=True, slots=True)
class WayLine:
    """One line of the way. `kind`: at (a thing), by (stretches), again (back to an earlier thing, then on), ring (it
    closes there), open (nothing on record)."""

    kind: str
    place: Place | None = None
    length: str = ""
    stretches: tuple[Way, ...] = ()


@dataclass(frozen=True, slots=True)
class SurfaceRuns:
    """The stretches on one surface, how long they are together, and their own forms."""

    surface: str
    length: str
    stretches: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class LinePage:
    """`ways`: the way in each part; `places`: what is on it and not on its way; `draw`: where a further run is drawn;
    `form`: of the day it went out of use."""

    sheet: Sheet
    code: str
    name: str
    href: str
    swatch: Swatch
    summary: str
    note: str
    facts: tuple[tuple[str, str], ...]
    gone: str
    notes: tuple[Note, ...]
    ways: tuple[tuple[WayLine, ...], ...]
    places: tuple[Place, ...]
    runs: tuple[SurfaceRuns, ...]
    draw: tuple[Way, ...]
    pictures: tuple[Picture, ...]
    changes: tuple[Change, ...]
    panel: bool
    form: FormState


@dataclass(frozen=True, slots=True)
class _Known:
    """What the words of one line's page are looked up in."""

    here: Here
    line: LineFacts
    net: Net
    items: dict[int, ItemFacts]
    tags: dict[int, str]
    runs: dict[int, RunFacts]


def line_page(session: Session, here: Here, code: str, form: FormState | None = None) -> LinePage:
    line = store.get_line(session, here.build.id, code)
    net, every = net_of(session, here), store.list_items(session, here.build.id)
    own, runs = net.items.get(line.id, ()), net.runs.get(line.id, ())
    known = _Known(
        here, line, net, {item.id: item for item in every}, dict(tags_of(every)), {run.id: run for run in runs}
    )
    found = pieces(runs)
    starts = {item.id for item in every if item.kind in PANELS and line.kind == LineKind.CIRCUIT}
    parts = way(found, starts, [item.id for item in every])
    touched = {end for piece in found for end in (piece.begins, piece.ends)}
    number = f"W5-{line.code}" if len(line.code) <= SHORT_CODE else "W5"
    return LinePage(
        sheet=here.sheet(number, "Services", f"{line.code} {line.name}"),
        code=line.code,
        name=line.name,
        href=line_href(here, line.code),
        swatch=swatch_of(line.service),
        summary=_summary(line),
        note=line.note,
        facts=_facts(line, own, runs, here.build.unit),
        gone=f"Out of use since {show_date(line.ended_on)}. It stays listed." if line.ended_on else "",
        notes=notes_of(here, net, own, runs, known.items, found, parts),
        ways=tuple(tuple(_way_lines(known, part)) for part in parts),
        places=tuple(_place(known, item) for item in own if item.id not in touched),
        runs=tuple(_by_surface(known)),
        draw=_draw(known),
        pictures=_pictures(session, here, own),
        changes=changes_of(session, here, {"line": {line.id}}),
        panel=line.kind in {LineKind.CIRCUIT, LineKind.FEEDER},
        form=form or FormState.of(on=here.today.isoformat()),
    )


def _summary(line: LineFacts) -> str:
    """`Circuit, 20 A, 12-2, space 1. Serves the binding room.`"""
    parts = [line.kind.capitalize(), breaker_of(line), line.cable, f"space {line.number}" if line.number else ""]
    said = f"{', '.join(part for part in parts if part)}."
    return f"{said} Serves: {line.room}." if line.room else said


def _facts(
    line: LineFacts, own: Sequence[ItemFacts], runs: Sequence[RunFacts], unit: str
) -> tuple[tuple[str, str], ...]:
    boxes = sum(item.is_box for item in own)
    listed = (
        ("Kind", line.kind),
        ("Service", line.service),
        ("Space in the panel", line.number),
        ("Breaker", breaker_of(line)),
        ("Cable or pipe", line.cable),
        ("Serves", line.room),
        ("Boxes", str(boxes) if boxes else ""),
        ("Drawn length", length_of(runs, unit) if runs else ""),
    )
    return tuple((label, value) for label, value in listed if value)


def _place(known: _Known, item: ItemFacts) -> Place:
    surface = known.net.surfaces[item.surface_id]
    return Place(
        tag=known.tags.get(item.id, ""),
        label=item.label,
        where=where_is(item, surface, known.here.build.unit),
        href=f"{known.here.base}/surfaces/{surface.code}/items/{item.id}",
        of=item.line if item.line_id != known.line.id else "",
    )


def _way_lines(known: _Known, part: Part) -> Iterator[WayLine]:
    """The part as it is read from above: thing, stretches, thing; a branch begins at its thing again."""
    yield _end(known, part.first, "at")
    last = part.first
    for step in part.steps:
        if step.start != last:
            yield _end(known, step.start, "again")
        yield _by(known, step)
        yield _end(known, step.item, "ring" if step.again else "at")
        last = step.item if not step.again else None


def _end(known: _Known, item_id: int | None, kind: str) -> WayLine:
    return WayLine(kind, _place(known, known.items[item_id])) if item_id is not None else WayLine("open")


def _by(known: _Known, step: Step) -> WayLine:
    runs = [known.runs[number] for number in step.stretches]
    ways = []
    for run in runs:
        surface = known.net.surfaces[run.surface_id]
        ways.append(Way(surface.name, f"{known.here.base}/surfaces/{surface.code}/runs/{run.id}"))
    return WayLine("by", None, length_of(runs, known.here.build.unit), tuple(ways))


def _by_surface(known: _Known) -> Iterator[SurfaceRuns]:
    unit = known.here.build.unit
    for surface in known.net.surfaces.values():
        runs = [run for run in known.runs.values() if run.surface_id == surface.id]
        if runs:
            href = f"{known.here.base}/surfaces/{surface.code}/runs"
            bends = [
                (run.label, f"{length_of([run], unit)}, {plural(len(run.points) - 2, 'bend')}", f"{href}/{run.id}")
                for run in runs
            ]
            yield SurfaceRuns(surface.name, length_of(runs, unit), tuple(bends))


def _draw(known: _Known) -> tuple[Way, ...]:
    base = f"{known.here.base}/surfaces"
    return tuple(
        Way(surface.name, f"{base}/{surface.code}/runs/new?line={known.line.code}")
        for surface in known.net.surfaces.values()
    )


def _pictures(session: Session, here: Here, own: Sequence[ItemFacts]) -> tuple[Picture, ...]:
    """The last placed at its things."""
    labels = {item.id: item.label for item in own}
    placed: dict[int, str] = {}
    for place in store.places_of_items(session, here.build.id, labels):
        placed.setdefault(place.photo_id, labels[place.item_id or 0])
    wanted = list(placed)[:PICTURES]
    return tuple(picture(photo, placed[photo.id]) for photo in list_photos(session, wanted))
