"""Runs of cable, pipe and duct as lines from bend to bend, with the letter of the service standing in the line."""

from collections.abc import Iterable, Iterator, Sequence
from functools import lru_cache
from itertools import pairwise, takewhile
from math import hypot
from typing import NamedTuple

from webapp.surfaces.rules.drawing import LETTER, Pens, Scale, Text, lettered, polyline
from webapp.surfaces.rules.face import Run
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, LineKind
from webapp.surfaces.rules.room import NONE, Cells, Grid, Sheet

Segment = tuple[float, float, float, float]
PARTS = (0.5, 0.35, 0.65, 0.2, 0.8)
"""where along a segment its letter may stand, the middle first"""
SHORTEST = 22
"""a segment shorter than this has no room for a letter"""


def pen_of(service: str) -> str:
    """The pen of a service: its colour class, and what tells a drain from a vent; plain ink for framing."""
    letter = SERVICE_LETTERS.get(service, "a") or "l2"
    return f"{letter} pipe" if service == "drain" else f"{letter} vent" if service == "vent" else letter


MARKERS = {LineKind.WARNING_TAPE.value: ("l2 ph", "WT"), LineKind.TRACER.value: ("l2 ctr", "TW")}
"""pen and letters of what is buried only to be found: no service runs in it, so it has no colour"""


def run_pen(run: Run) -> str:
    return MARKERS[run.line_kind][0] if run.line_kind in MARKERS else pen_of(run.service)


def run_letters(run: Run) -> tuple[str, str]:
    """What is written in a run, and with which pen; empty for what has no letter."""
    if run.line_kind in MARKERS:
        return MARKERS[run.line_kind][1], "halo"
    letter = colour_of(run.service)
    return ("", "") if letter == "l2" else (letter.upper(), letter)


def colour_of(service: str) -> str:
    return SERVICE_LETTERS.get(service, "a") or "l2"


class Spot(NamedTuple):
    """Lettering where it may stand: what must be free for it, and what it takes."""

    text: Text
    needs: Cells
    takes: Cells


class Way(NamedTuple):
    """A run as it lies on a sheet. `letters`, `names`: its letter and its name, the best spot first; the letter's last
    spot needs nothing to be free."""

    d: str
    pen: str
    cells: tuple[Cells, ...]
    letters: tuple[Spot, ...]
    name: str
    names: tuple[Spot, ...]


class Led(NamedTuple):
    """All runs on a sheet, and as bits of it the cells they pass."""

    ways: tuple[Way, ...]
    lines: int


@lru_cache(maxsize=16)
def led(runs: tuple[Run, ...], scale: Scale, grid: Grid) -> Led:
    """Worked out once, however often other things come and go."""
    ways, lines = tuple(_way(run, scale, grid) for run in runs), 0
    for cells in (cells for way in ways for cells in way.cells):
        lines |= cells.bits << cells.shift
    return Led(ways, lines)


@lru_cache(maxsize=256)
def _way(run: Run, scale: Scale, grid: Grid) -> Way:
    points = [scale.at(point) for point in run.points]
    segments: list[Segment] = [(*start, *end) for start, end in pairwise(points)]
    segments.sort(key=lambda one: -_long(one))
    words, pen = run_letters(run) if segments else ("", "")
    return Way(
        d=polyline(points),
        pen=f"{run_pen(run)} hid" if run.replaced else run_pen(run),
        cells=tuple(grid.line(*one) for one in segments),
        letters=tuple(_letter_spots(words, f"mid {pen}", segments, grid)) if words else (),
        name="" if run.tag == run_letters(run)[0] else run.tag,
        names=tuple(_name_spots(run.tag, segments, grid)),
    )


def _long(one: Segment) -> float:
    return hypot(one[2] - one[0], one[3] - one[1])


def _along(one: Segment, part: float) -> tuple[float, float]:
    return one[0] + (one[2] - one[0]) * part, one[1] + (one[3] - one[1]) * part


def _letter_spots(words: str, pen: str, longest_first: Sequence[Segment], grid: Grid) -> Iterator[Spot]:
    def spot(x: float, y: float) -> Spot:
        takes = grid.box(x - 6 * len(words), y - 8, 12 * len(words), 16)
        return Spot(lettered(x, y + 5.5, words, pen), grid.box(x - 6, y - 8, 12, 16), takes)

    for one in takewhile(lambda one: _long(one) >= SHORTEST, longest_first):
        for part in PARTS:
            yield spot(*_along(one, part))
    yield spot(*_along(longest_first[0], 0.5))._replace(needs=NONE)


def _name_spots(name: str, longest_first: Iterable[Segment], grid: Grid) -> Iterator[Spot]:
    width = LETTER * len(name)
    for one in takewhile(lambda one: _long(one) >= width + 12, longest_first):
        level = abs(one[2] - one[0]) > abs(one[3] - one[1])
        for x, y in (_along(one, part) for part in PARTS):
            left, right = (x - width / 2, x - width / 2) if level else (x + 6, x - 6 - width)
            over, under = (y - 21, y + 5) if level else (y - 8, y - 8)
            for at, top in ((left, over), (right, under)):
                cells = grid.box(at, top, width, 16)
                yield Spot(lettered(at, top + 13.5, name, "q halo"), cells, cells)


def draw_runs(pens: Pens, runs: Led, sheet: Sheet) -> None:
    for way in runs.ways:
        pens.draw(way.d, way.pen)
    sheet.lines |= runs.lines


def write_letters(pens: Pens, runs: Led, sheet: Sheet) -> None:
    """The letter of its service in each run, where it covers nothing else."""
    for way in runs.ways:
        for spot in way.letters:
            if sheet.is_free(spot.needs):
                sheet.put(spot.takes)
                pens.texts.append(spot.text)
                break


def write_names(pens: Pens, runs: Led, sheet: Sheet) -> None:
    """The circuit or line of each run beside it, once on a surface, where there is room; the table has them all."""
    named = {""}
    for way in runs.ways:
        if way.name in named:
            continue
        for spot in way.names:
            if sheet.is_free(spot.needs) and not sheet.is_crossed(spot.needs):
                sheet.put(spot.takes)
                pens.texts.append(spot.text)
                named.add(way.name)
                break
