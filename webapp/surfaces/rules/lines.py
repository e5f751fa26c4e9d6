"""Runs of cable, pipe and duct as lines from bend to bend, with the letter of the service standing in the line."""

from collections.abc import Iterable, Sequence
from itertools import pairwise
from math import hypot

from webapp.surfaces.rules.drawing import LETTER, Pens, Scale, polyline
from webapp.surfaces.rules.face import Run
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, LineKind
from webapp.surfaces.rules.room import Sheet

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


def segments(run: Run, scale: Scale) -> list[Segment]:
    points = [scale.at(point) for point in run.points]
    return [(*start, *end) for start, end in pairwise(points)]


def draw_runs(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    for run in runs:
        hidden = " hid" if run.replaced else ""
        pens.draw(polyline(scale.at(point) for point in run.points), run_pen(run) + hidden)
        for segment in segments(run, scale):
            sheet.take_line(*segment)


def write_letters(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    """The letter of its service in each run, where it covers nothing else."""
    for run in runs:
        words, pen = run_letters(run)
        if not words or not run.points[1:]:
            continue
        x, y = _letter_spot(_longest_first(segments(run, scale)), sheet)
        sheet.take(x - 6 * len(words), y - 8, 12 * len(words), 16)
        pens.write(x, y + 5.5, words, f"mid {pen}")


def _longest_first(found: Iterable[Segment]) -> list[Segment]:
    return sorted(found, key=lambda one: -hypot(one[2] - one[0], one[3] - one[1]))


def _letter_spot(found: list[Segment], sheet: Sheet) -> tuple[float, float]:
    for x1, y1, x2, y2 in found:
        if hypot(x2 - x1, y2 - y1) < SHORTEST:
            break
        for part in PARTS:
            x, y = x1 + (x2 - x1) * part, y1 + (y2 - y1) * part
            if sheet.is_free(x - 6, y - 8, 12, 16):
                return x, y
    x1, y1, x2, y2 = found[0]
    return (x1 + x2) / 2, (y1 + y2) / 2


def write_names(pens: Pens, runs: Sequence[Run], scale: Scale, sheet: Sheet) -> None:
    """The circuit or line of each run beside it, once on a surface, where there is room; the table has them all."""
    named: set[str] = set()
    for run in runs:
        if run.tag in {"", run_letters(run)[0]} or run.tag in named:
            continue
        if _write_name(pens, run, scale, sheet):
            named.add(run.tag)


def _write_name(pens: Pens, run: Run, scale: Scale, sheet: Sheet) -> bool:
    width = LETTER * len(run.tag)
    for x1, y1, x2, y2 in _longest_first(segments(run, scale)):
        if hypot(x2 - x1, y2 - y1) < width + 12:
            return False
        for part in PARTS:
            x, y = x1 + (x2 - x1) * part, y1 + (y2 - y1) * part
            level = abs(x2 - x1) > abs(y2 - y1)
            corners = (
                ((x - width / 2, y - 21), (x - width / 2, y + 5)) if level else ((x + 6, y - 8), (x - 6 - width, y - 8))
            )
            for left, top in corners:
                if sheet.is_free(left, top, width, 16) and not sheet.crossed(left, top, width, 16):
                    sheet.take(left, top, width, 16)
                    pens.write(left, top + 13.5, run.tag, "q halo")
                    return True
    return False
