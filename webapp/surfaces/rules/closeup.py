"""The stretch of a surface around one spot, large enough to read on a phone; what lies beyond it is cut off."""

from collections.abc import Iterable, Iterator, Sequence
from dataclasses import dataclass, replace
from fractions import Fraction
from itertools import pairwise

from webapp.surfaces.rules.bands import Band
from webapp.surfaces.rules.dimensions import measured, spread
from webapp.surfaces.rules.drawing import LETTER, Layer, Pens, Scale, Tag, line, show
from webapp.surfaces.rules.elevation import Facts, fill
from webapp.surfaces.rules.extent import Box
from webapp.surfaces.rules.face import Face, Point, Run
from webapp.surfaces.rules.framing import UPRIGHT, structure
from webapp.surfaces.rules.near import Hit
from webapp.surfaces.rules.room import Sheet
from webapp.surfaces.rules.spotted import hatched, ring
from webapp.surfaces.rules.tags import Placing
from webapp.values.length import NM_PER_INCH

WIDTH, LEFT, TOP, RIGHT = 350, 74, 12, 344
PER_INCH = 3.6
"""drawing units to the inch: a ring of 4 in is then 29 units across"""
TALLEST_NM = 120 * NM_PER_INCH
UNITS_PER_NM = PER_INCH / NM_PER_INCH
MOST = 5
"""measures on each side: more cannot be read; the list has them all"""


@dataclass(frozen=True, slots=True)
class CloseUp:
    """A drawing in a frame: `within` is cut off at `frame` (x, y, width, height), `around` is not. `shows`: in nm."""

    width: int
    height: int
    frame: tuple[float, float, float, float]
    within: tuple[Layer, ...]
    around: Layer
    tags: tuple[Tag, ...]
    shows: Box
    scale: Scale


def close_up(facts: Facts, found: Sequence[Band], near: Sequence[Hit], spot: Point, hand_nm: int) -> CloseUp:
    """`near`: what the measures name besides the spot."""
    face = facts.face
    shows = window(face, spot)
    scale = close_up_scale(face, shows)
    frame = (LEFT, TOP, (shows.right - shows.left) * scale.along, (shows.high - shows.low) * scale.across)
    seen = cut(facts, shows)
    ground = Pens()
    ground.add(structure(face, facts.openings, scale))
    low = TOP + frame[3]
    sheet = Sheet.of(WIDTH, low + 8)
    x, y = scale.at(spot)
    reach = hand_nm * scale.along
    sheet.take(x - reach, y - reach, 2 * reach, 2 * reach)
    (first, *rest), wanted = fill(ground, seen, scale, sheet, glance=False)
    placing = Placing(sheet, (LEFT + 2, TOP + 2, LEFT + frame[2] - 2, low - 2), low, LETTER)
    placing.place(wanted)
    tags = tuple(tag for tag in placing.placed if tag.y + tag.height <= low)
    around = Pens()
    _edges(around, face, shows, frame)
    _heights(around, face, near, spot, shows, scale)
    height = _lengths(around, face, near, spot, shows, scale, low)
    within = (first, hatched(found, scale), *rest, ring(spot, hand_nm, scale))
    return CloseUp(WIDTH, height, frame, within, around.layer(), tags, shows, scale)


def window(face: Face, spot: Point) -> Box:
    """As much of the surface as fits, with the spot as near to the middle as its edges allow."""
    wide = min(face.length_nm, round((RIGHT - LEFT) / UNITS_PER_NM))
    tall = min(face.height_nm, TALLEST_NM)
    left = max(0, min(face.length_nm - wide, spot[0] - wide // 2))
    low = max(0, min(face.height_nm - tall, spot[1] - tall // 2))
    return Box(left, low, left + wide, low + tall)


def close_up_scale(face: Face, shows: Box) -> Scale:
    """Sets the window into the frame."""
    down = face.kind not in UPRIGHT
    cut_off = shows.low if down else face.height_nm - shows.high
    left, top = LEFT - shows.left * UNITS_PER_NM, TOP - cut_off * UNITS_PER_NM
    return Scale(left, top, face.length_nm, face.height_nm, UNITS_PER_NM, UNITS_PER_NM, down)


def cut(facts: Facts, shows: Box) -> Facts:
    """What is seen in the window: things with their centre in it, and the pieces of runs that pass through it."""
    things = tuple(
        thing
        for thing in facts.things
        if thing.kind == "blocking"
        or (shows.left <= thing.x_nm <= shows.right and shows.low <= thing.y_nm <= shows.high)
    )
    runs = tuple(piece for run in facts.runs for piece in _pieces(run, shows))
    return replace(facts, things=things, runs=runs)


def _pieces(run: Run, shows: Box) -> Iterator[Run]:
    for start, end in pairwise(run.points):
        within = _clipped(start, end, shows)
        if within is not None:
            yield replace(run, points=within)


def _clipped(start: Point, end: Point, shows: Box) -> tuple[Point, Point] | None:
    """The part of a straight stretch that lies within, edge by edge (Liang and Barsky)."""
    first, last = Fraction(0), Fraction(1)
    for at, low, high in ((0, shows.left, shows.right), (1, shows.low, shows.high)):
        way = end[at] - start[at]
        if way == 0:
            if not low <= start[at] <= high:
                return None
            continue
        enters, leaves = sorted((Fraction(low - start[at], way), Fraction(high - start[at], way)))
        first, last = max(first, enters), min(last, leaves)
    if first >= last:
        return None

    def along(part: Fraction) -> Point:
        return tuple(round(a + part * (b - a)) for a, b in zip(start, end, strict=True))  # type: ignore[return-value]

    return along(first), along(last)


def _edges(pens: Pens, face: Face, shows: Box, frame: tuple[float, float, float, float]) -> None:
    """A break line where the surface goes on."""
    x, y, wide, tall = frame
    middle = y + tall / 2
    for at, cut_off in ((x, shows.left > 0), (x + wide, shows.right < face.length_nm)):
        zigzag = f"V{show(middle - 12)}l-6 5 12 8-6 5" if cut_off else ""
        pens.draw(f"M{show(at)} {show(y - 6)}{zigzag}V{show(y + tall + 8)}", "l1")


def _marks(near: Iterable[Hit], at: int) -> list[int]:
    """Offsets (0 along, 1 up) of what is near: of a thing its centre, of a run only where it keeps that offset."""
    found = []
    for hit in near:
        if isinstance(hit.found, Run):
            for start, end in pairwise(hit.found.points):
                if start[at] == end[at] and start != end:
                    found.append(start[at])
        else:
            found.append((hit.found.x_nm, hit.found.y_nm)[at])
    return list(dict.fromkeys(found))


def _chosen(near: Sequence[Hit], spot: Point, at: int, low: int, high: int) -> list[int]:
    """The offset of the spot, and those nearest to it."""
    others = [mark for mark in _marks(near, at) if low <= mark <= high and mark != spot[at]]
    return sorted([spot[at], *sorted(others, key=lambda mark: abs(mark - spot[at]))[: MOST - 1]])


def _heights(pens: Pens, face: Face, near: Sequence[Hit], spot: Point, shows: Box, scale: Scale) -> None:
    values = sorted(_chosen(near, spot, 1, shows.low, shows.high), key=scale.y)
    top, low = TOP + 4, TOP + (shows.high - shows.low) * scale.across
    places = spread([scale.y(value) for value in values], 22, top, low)
    for value, place in zip(values, places, strict=True):
        pens.draw(f"M{LEFT - 4} {show(scale.y(value))}L{LEFT - 14} {show(place)}h-4", "l1")
        pens.write(LEFT - 22, place + 5.5, measured(value, face.unit), "end b" if value == spot[1] else "end")


def _lengths(pens: Pens, face: Face, near: Sequence[Hit], spot: Point, shows: Box, scale: Scale, low: float) -> int:
    """Running measures below, turned; answers how far down they reach."""
    values = _chosen(near, spot, 0, shows.left, shows.right)
    places = spread([scale.x(value) for value in values], 25, LEFT + 10, RIGHT - 6)
    for value, place in zip(values, places, strict=True):
        pens.draw(
            line(scale.x(value), low + 8, scale.x(value), low + 14) + line(scale.x(value), low + 14, place, low + 30),
            "l1",
        )
        pen = "end b" if value == spot[0] else "end"
        pens.write(place + 5.5, low + 36, measured(value, face.unit), pen, turned=True)
    corner = face.origin_corner if 0 < len(face.origin_corner) <= 2 else "corner"
    pens.write(LEFT - 8, low + 50, "from", "end q")
    pens.write(LEFT - 8, low + 70, corner, "end q")
    deep = max(len(measured(value, face.unit)) for value in values)
    return round(low + 40 + max(36, 7.6 * deep))
