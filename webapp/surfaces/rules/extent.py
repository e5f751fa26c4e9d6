"""How much room hidden things take on their surface, in whole nanometres.

Only some widths are on record: those of runs are read from their labels, those of things from their kind.
"""

import re
from collections.abc import Iterator
from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.face import Point, Run, Thing
from webapp.surfaces.rules.framing import blocks, lumber_nm
from webapp.surfaces.rules.symbols import LYING
from webapp.values.length import NM_PER_INCH, NM_PER_MM
from webapp.values.typed import read_number

DEVICE_BOX = (2 * NM_PER_INCH, 3 * NM_PER_INCH)
"""a device box of the trade is 3 in high and 2 in wide (NEC Table 314.16(A), from memory)"""
ROUND_BOX_NM = 4 * NM_PER_INCH
"""a round or octagonal box is 4 in across (the same table)"""
DEVICES = {"receptacle", "switch", "data box", "disconnect"}
ROUND_BOXES = {"light box", "junction box", "alarm box", "fan box"}
OUTSIDE_NM = {
    Fraction(1, 2): 21_336_000,
    Fraction(3, 4): 26_670_000,
    Fraction(1): 33_401_000,
    Fraction(5, 4): 42_164_000,
    Fraction(3, 2): 48_260_000,
    Fraction(2): 60_325_000,
    Fraction(3): 88_900_000,
    Fraction(4): 114_300_000,
}
"""outside of a pipe by its trade size in inches: 0.840, 1.050, 1.315, 1.660, 1.900, 2.375, 3.500, 4.500 (ASTM D1785,
Table 1, from memory); other materials are no wider"""
THICK_NM = {
    "electric": NM_PER_INCH // 2,
    "data": NM_PER_INCH // 4,
    "water": OUTSIDE_NM[Fraction(1, 2)],
    "drain": OUTSIDE_NM[Fraction(2)],
    "vent": OUTSIDE_NM[Fraction(2)],
    "gas": OUTSIDE_NM[Fraction(3, 4)],
    "air": 2 * NM_PER_INCH,
    "other": NM_PER_INCH,
}
"""taken where no size is written down (common practice, no source)"""
WIDEST_NM = 24 * NM_PER_INCH
CARRIED = re.compile(r"conduit|tube|sleeve|pipe|duct")
SIZE = re.compile(r"(?<![\d\-/.,×x])(\d+[ -]\d+/\d+|\d+/\d+|\d+(?:\.\d+)?)[ -]?(in\b|inch|″|\"|mm\b)")


@dataclass(frozen=True, slots=True)
class Bar:
    """All within `half_nm` of a straight stretch; a disc where both ends are one."""

    start: Point
    end: Point
    half_nm: int


@dataclass(frozen=True, slots=True)
class Box:
    """An upright rectangle by its edges."""

    left: int
    low: int
    right: int
    high: int


Shape = Bar | Box


def run_width_nm(run: Run) -> int:
    """How wide a run is: the size its label names, or what is usual for its service."""
    label = run.label.lower()
    usual = THICK_NM.get(run.service, THICK_NM["other"])
    found = SIZE.search(label)
    if found is None or (run.service in {"electric", "data"} and not CARRIED.search(label)):
        return usual
    number = read_number(found[1])
    if number is None:
        return usual
    if found[2].startswith("mm"):
        wide = int(number * NM_PER_MM)
    else:
        wide = OUTSIDE_NM.get(number, int(number * NM_PER_INCH)) if run.service != "air" else int(number * NM_PER_INCH)
    return wide if 0 < wide <= WIDEST_NM else usual


def run_shapes(run: Run) -> tuple[Bar, ...]:
    half = half_up_nm(run_width_nm(run))
    return tuple(Bar(start, end, half) for start, end in pairwise(run.points))


def half_up_nm(width_nm: int) -> int:
    """Half of a width; an odd nanometre counts as more."""
    return (width_nm + 1) // 2


def thing_shapes(facts: Facts, thing: Thing) -> tuple[Shape, ...]:
    """Blocking is several boards, a strap a stretch, a duct a disc; what has no width on record is its centre."""
    x, y, half = thing.x_nm, thing.y_nm, half_up_nm(thing.width_nm or 0)
    if thing.kind == "blocking":
        return tuple(_boards(facts, thing))
    if thing.kind in LYING:
        return (Bar((x - half, y), (x + half, y), 0),)
    if thing.kind == "sub-panel":
        tall = half * 7 // 5  # drawn so: only its width is on record
        return (Box(x - half, y - tall, x + half, y + tall),)
    if thing.kind in DEVICES:
        across = max(half, DEVICE_BOX[0] // 2)
        return (Box(x - across, y - DEVICE_BOX[1] // 2, x + across, y + DEVICE_BOX[1] // 2),)
    if thing.kind in ROUND_BOXES:
        half = max(half, ROUND_BOX_NM // 2)
    return (Bar((x, y), (x, y), half),)


def _boards(facts: Facts, thing: Thing) -> Iterator[Box]:
    width = thing.width_nm or 14 * NM_PER_INCH
    pieces = blocks(facts.face, facts.openings, thing.x_nm, thing.y_nm, width, lumber_nm(thing.label))
    for left, low, wide, tall in pieces:
        yield Box(left, low, left + wide, low + tall)
