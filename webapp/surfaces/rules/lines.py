"""Runs of cable, pipe and duct as lines from bend to bend, with the letter of the service standing in the line."""

from collections.abc import Iterable, Iterator
from functools import lru_cache
from itertools import pairwise, takewhile
from math import hypot
from typing import NamedTuple

from webapp.surfaces.rules.drawing import LETTER, Pens, Scale, polyline
from webapp.surfaces.rules.face import Run
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, LineKind
from webapp.surfaces.rules.room import Cells, Grid, Sheet

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


Spot = tuple[float, float, Cells]
"""where lettering may stand, and what must be free there"""


class Way(NamedTuple):
    """A run as it lies on a sheet. `letters`, `names`: where its letter and its name may stand, the best first;
    `middle`: where the letter stands if it has no room."""

    d: str
    pen: str
    cells: tuple[Cells, ...]
    words: str
    lettered: str
    letters: tuple[Spot, ...]
    middle: tuple[float, float]
    name: str
    names: tuple[Spot, ...]


@lru_cache(maxsize=16)
def ways(runs: tuple[Run, ...], scale: Scale, grid: Grid) -> tuple[Way, ...]:
    """All runs on a sheet: worked out once, however often other things come and go."""
    return tuple(_way(run, scale, grid) for run in runs)


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
        words=words,
        lettered=f"mid {pen}",
        letters=tuple(_letter_spots(segments, grid)) if words else (),
        middle=_along(segments[0], 0.5) if segments else points[0],
        name="" if run.tag == run_letters(run)[0] else run.tag,
        names=tuple(_name_spots(run.tag, segments, grid)),
    )


def _long(one: Segment) -> float:
    return hypot(one[2] - one[0], one[3] - one[1])


def _along(one: Segment, part: float) -> tuple[float, float]:
    return one[0] + (one[2] - one[0]) * part, one[1] + (one[3] - one[1]) * part


def _letter_spots(longest_first: Iterable[Segment], grid: Grid) -> Iterator[Spot]:
    for one in takewhile(lambda one: _long(one) >= SHORTEST, longest_first):
        for x, y in (_along(one, part) for part in PARTS):
            yield x, y, grid.box(x - 6, y - 8, 12, 16)


def _name_spots(name: str, longest_first: Iterable[Segment], grid: Grid) -> Iterator[Spot]:
    width = LETTER * len(name)
    for one in takewhile(lambda one: _long(one) >= width + 12, longest_first):
        level = abs(one[2] - one[0]) > abs(one[3] - one[1])
        for x, y in (_along(one, part) for part in PARTS):
            left, right = (x - width / 2, x - width / 2) if level else (x + 6, x - 6 - width)
            over, under = (y - 21, y + 5) if level else (y - 8, y - 8)
            yield left, over, grid.box(left, over, width, 16)
            yield right, under, grid.box(right, under, width, 16)


def draw_runs(pens: Pens, led: Iterable[Way], sheet: Sheet) -> None:
    for way in led:
        pens.draw(way.d, way.pen)
        for cells in way.cells:
            sheet.cross(cells)


def write_letters(pens: Pens, led: Iterable[Way], sheet: Sheet) -> None:
    """The letter of its service in each run, where it covers nothing else."""
    for way in led:
        if way.words:
            x, y = next(((x, y) for x, y, cells in way.letters if sheet.is_free(cells)), way.middle)
            sheet.take(x - 6 * len(way.words), y - 8, 12 * len(way.words), 16)
            pens.write(x, y + 5.5, way.words, way.lettered)


def write_names(pens: Pens, led: Iterable[Way], sheet: Sheet) -> None:
    """The circuit or line of each run beside it, once on a surface, where there is room; the table has them all."""
    named = {""}
    for way in led:
        if way.name in named:
            continue
        for x, y, cells in way.names:
            if sheet.is_free(cells) and not sheet.is_crossed(cells):
                sheet.put(cells)
                pens.write(x, y + 13.5, way.name, "q halo")
                named.add(way.name)
                break
