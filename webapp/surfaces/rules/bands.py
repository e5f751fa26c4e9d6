"""Where no screw should go: a strip around each run and each thing that the finished face does not show.

Nothing is presumed: only what is on record has a band, so a wall without bands is no promise.
"""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise

from webapp.surfaces.rules.elevation import Facts, standing
from webapp.surfaces.rules.extent import DEVICES, ROUND_BOXES, Bar, Box, Shape, half_up_nm, run_width_nm, thing_shapes
from webapp.surfaces.rules.face import Face, Point, Run, Thing
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.studs import members
from webapp.surfaces.rules.symbols import PLATES
from webapp.values.length import NM_PER_INCH, show_length

MARGIN_NM = 2 * NM_PER_INCH
"""to each side of the edge of a run (common practice, no source; change it here)"""
PLATE_DEPTH_NM = 5 * NM_PER_INCH // 4
"""1 1/4 in from the face of the stud: what lies nearer needs a steel plate (NEC 300.4(A)(1), (D)). It is a depth and
says nothing of how far to the side a screw may go"""
BESIDE_NM = 2 * NM_PER_INCH
"""a cable this near the middle of a stud is stapled to it (common practice, no source)"""
LEVEL_NM = 6 * NM_PER_INCH
"""a cable within this of the height of a box runs where one looks for it (common practice, no source)"""
CABLES = {"electric", "data"}
BOXES = DEVICES | ROUND_BOXES | {"sub-panel"}
SHOWN = BOXES - {"junction box"}
"""what can be seen on the finished face; a junction box may lie behind it"""
STEPS = {"in": NM_PER_INCH // 4, "mm": 5_000_000}
"""bands are told to the quarter inch or 5 mm"""
KEPT = "\xa0"
"""a space at which no line ends"""
LUMBER = {"blocking", "strap", "hanger", "fireblock", "flashing", "dowel", "cap"}
NOUNS = {"electric": "cable", "data": "cable", "water": "pipe", "drain": "pipe", "vent": "pipe", "gas": "pipe"}
DOING = {SurfaceKind.TRENCH: "Do not dig", SurfaceKind.SLAB: "Do not drill", SurfaceKind.FLOOR: "Do not drill"}
SECOND = {SurfaceKind.TRENCH: "down", SurfaceKind.WALL: "up", SurfaceKind.OUTSIDE: "up"}
"""the second measure in words; on a plan it is across"""


@dataclass(frozen=True, slots=True)
class Band:
    """One strip, cut at the edges of the surface. `usual`: where a cable is looked for anyway."""

    name: str
    box: Box
    usual: bool


@dataclass(frozen=True, slots=True)
class BandGroup:
    """All strips of one circuit, line or thing, without those that lie in another of them; plates that protect it."""

    name: str
    boxes: tuple[Box, ...]
    usual: bool
    plates: tuple[Thing, ...]


def doing(kind: SurfaceKind) -> str:
    """What not to do there."""
    return DOING.get(kind, "No screws")


def bands(facts: Facts) -> tuple[Band, ...]:
    """A strip for each straight stretch of each run, then for each thing that is not seen on the finished face."""
    there = standing(facts)
    found = [
        Band(run_name(run), clipped(facts.face, strip(start, end, half_up_nm(run_width_nm(run)))), usual)
        for run in there.runs
        for start, end in pairwise(run.points)
        for usual in (is_usual(there, run.service, start, end),)
    ]
    for thing in there.things:
        if is_hidden(thing):
            found += [
                Band(thing.label, clipped(facts.face, around(shape)), usual=False)
                for shape in thing_shapes(there, thing)
            ]
    return tuple(found)


def strip(start: Point, end: Point, half_nm: int) -> Box:
    """The line between two bends, as wide as it is, and the margin to each side; of a slanted one all it spans."""
    reach = half_nm + MARGIN_NM
    (x1, y1), (x2, y2) = start, end
    return Box(min(x1, x2) - reach, min(y1, y2) - reach, max(x1, x2) + reach, max(y1, y2) + reach)


def around(shape: Shape) -> Box:
    if isinstance(shape, Bar):
        return strip(shape.start, shape.end, shape.half_nm)
    return Box(shape.left - MARGIN_NM, shape.low - MARGIN_NM, shape.right + MARGIN_NM, shape.high + MARGIN_NM)


def clipped(face: Face, box: Box) -> Box:
    """What of it lies on the surface."""

    def within(at: int, most: int) -> int:
        return max(0, min(most, at))

    long, high = face.length_nm, face.height_nm
    return Box(within(box.left, long), within(box.low, high), within(box.right, long), within(box.high, high))


def is_hidden(thing: Thing) -> bool:
    """Whether a band is needed: not for lumber and steel, nor for what can be seen."""
    return thing.service != "framing" and thing.kind not in SHOWN | PLATES | LUMBER


def is_usual(facts: Facts, service: str, start: Point, end: Point) -> bool:
    """A cable upright along a stud or straight above or below a box, or level at the height of a box.

    Everything else lies off the usual ways: all pipes, ducts and line sets, and every slanted stretch.
    """
    if service not in CABLES:
        return False
    (x1, y1), (x2, y2) = start, end
    boxes = [thing for thing in facts.things if thing.kind in BOXES]
    if x1 == x2:
        lines = [*members(facts.face), *(box.x_nm for box in boxes)]
        return any(abs(x1 - at) <= BESIDE_NM for at in lines)
    return y1 == y2 and any(abs(y1 - box.y_nm) <= LEVEL_NM for box in boxes)


def run_name(run: Run) -> str:
    """`C02 cable`, `CW pipe`, `DX duct`; its label where it belongs to no circuit or line."""
    return f"{run.tag} {run_noun(run)}" if run.tag else run.label


def run_noun(run: Run) -> str:
    """What runs there: as its label says, else what is usual for its service."""
    label = run.label.lower()
    said = next((word for word in ("line set", "conduit", "duct", "tube", "condensate") if word in label), "")
    return said or NOUNS.get(run.service, "line")


def groups(facts: Facts, found: Sequence[Band]) -> tuple[BandGroup, ...]:
    """The same strips by name: those off the usual ways first, since nobody looks for them there."""
    by_name: dict[str, list[Band]] = {}
    for band in found:
        by_name.setdefault(band.name, []).append(band)
    plates = [thing for thing in facts.things if thing.kind in PLATES and not thing.replaced]
    made = [
        BandGroup(
            name,
            boxes := _outermost([band.box for band in own]),
            all(band.usual for band in own),
            tuple(plate for plate in plates if any(holds(box, (plate.x_nm, plate.y_nm)) for box in boxes)),
        )
        for name, own in by_name.items()
    ]
    return tuple(sorted(made, key=lambda group: group.usual))


def _outermost(boxes: Iterable[Box]) -> tuple[Box, ...]:
    """Without those that lie wholly in another."""
    kept: list[Box] = []
    for box in dict.fromkeys(boxes):
        if any(_covers(other, box) for other in kept):
            continue
        kept = [other for other in kept if not _covers(box, other)]
        kept.append(box)
    return tuple(kept)


def _covers(outer: Box, inner: Box) -> bool:
    return (
        outer.left <= inner.left and outer.low <= inner.low and outer.right >= inner.right and outer.high >= inner.high
    )


def holds(box: Box, spot: Point) -> bool:
    """Whether a spot lies in it, its edge counting."""
    return box.left <= spot[0] <= box.right and box.low <= spot[1] <= box.high


def box_words(face: Face, box: Box, *, exact: bool = False) -> str:
    """`1′ 2″ to 1′ 6″ along, 2′ 0″ to 5′ 0″ up`, or the whole length or height; rounded outwards unless `exact`.

    The last word stays with its measure where a line ends.
    """
    step = 1 if exact else STEPS["in" if face.unit in {"ft-in", "in"} else "mm"]
    second = SECOND.get(face.kind, "across")
    whole = {"up": "the whole height", "down": "the whole depth"}.get(second, "the whole width")
    along = _from_to(box.left, box.right, face.length_nm, face.unit, step)
    up = _from_to(box.low, box.high, face.height_nm, face.unit, step)
    return f"{along + KEPT + 'along' if along else 'the whole length'}, {up + KEPT + second if up else whole}"


def _from_to(low: int, high: int, most: int, unit: str, step: int) -> str:
    """Empty for all of it."""
    if low <= 0 and high >= most:
        return ""
    return f"{show_length(low // step * step, unit)} to {show_length(min(most, -(-high // step) * step), unit)}"
