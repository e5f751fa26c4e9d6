"""Runs of cable, pipe and duct as lines from bend to bend, with the letter of the service standing in the line."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise
from math import hypot

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


@lru_cache(maxsize=512)
def _led(run: Run, scale: Scale) -> tuple[str, tuple[Segment, ...]]:
    """The path of a run on the sheet, and its segments, the longest first."""
    points = [scale.at(point) for point in run.points]
    found = [(*start, *end) for start, end in pairwise(points)]
    return polyline(points), tuple(sorted(found, key=lambda one: -hypot(one[2] - one[0], one[3] - one[1])))


@lru_cache(maxsize=256)
def _cells(run: Run, scale: Scale, grid: Grid) -> tuple[Cells, ...]:
    """The cells a run passes."""
    return tuple(grid.line(*segment) for segment in _led(run, scale)[1])


def draw_runs(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    for run in runs:
        hidden = " hid" if run.replaced else ""
        pens.draw(_led(run, scale)[0], run_pen(run) + hidden)
        for cells in _cells(run, scale, sheet.grid):
            sheet.cross(cells)


def write_letters(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    """The letter of its service in each run, where it covers nothing else."""
    for run in runs:
        words, pen = run_letters(run)
        if not words or not run.points[1:]:
            continue
        spots = _letter_spots(run, scale, sheet.grid)
        x, y = next((spot for spot, cells in spots if sheet.is_free(cells)), _middle(_led(run, scale)[1][0]))
        sheet.take(x - 6 * len(words), y - 8, 12 * len(words), 16)
        pens.write(x, y + 5.5, words, f"mid {pen}")


def _middle(one: Segment) -> tuple[float, float]:
    return (one[0] + one[2]) / 2, (one[1] + one[3]) / 2


def _along(one: Segment, part: float) -> tuple[float, float]:
    return one[0] + (one[2] - one[0]) * part, one[1] + (one[3] - one[1]) * part


@lru_cache(maxsize=256)
def _letter_spots(run: Run, scale: Scale, grid: Grid) -> tuple[tuple[tuple[float, float], Cells], ...]:
    """Where its letter may stand, the best first, and what must be free there."""
    found = []
    for one in _led(run, scale)[1]:
        if hypot(one[2] - one[0], one[3] - one[1]) < SHORTEST:
            break
        found += [_along(one, part) for part in PARTS]
    return tuple(((x, y), grid.box(x - 6, y - 8, 12, 16)) for x, y in found)


def write_names(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    """The circuit or line of each run beside it, once on a surface, where there is room; the table has them all."""
    named: set[str] = set()
    for run in runs:
        if run.tag in {"", run_letters(run)[0]} or run.tag in named:
            continue
        for (x, y), cells in _name_spots(run, scale, sheet.grid):
            if sheet.is_free(cells) and not sheet.is_crossed(cells):
                sheet.put(cells)
                pens.write(x, y, run.tag, "q halo")
                named.add(run.tag)
                break


@lru_cache(maxsize=256)
def _name_spots(run: Run, scale: Scale, grid: Grid) -> tuple[tuple[tuple[float, float], Cells], ...]:
    """Where its name may stand, the best first, and what must be free there."""
    width, found = LETTER * len(run.tag), []
    for one in _led(run, scale)[1]:
        x1, y1, x2, y2 = one
        if hypot(x2 - x1, y2 - y1) < width + 12:
            break
        level = abs(x2 - x1) > abs(y2 - y1)
        for x, y in (_along(one, part) for part in PARTS):
            if level:
                found += [(x - width / 2, y - 21), (x - width / 2, y + 5)]
            else:
                found += [(x + 6, y - 8), (x - 6 - width, y - 8)]
    return tuple(((left, top + 13.5), grid.box(left, top, width, 16)) for left, top in found)
