"""How deep a run lies along a trench, and the usual least cover as it is printed. Lengths in nanometres.

Depth is measured from finished grade to the top of the cable or conduit, as the note of the table below says of cover.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from itertools import pairwise

from webapp.surfaces.rules.face import Point
from webapp.values.length import NM_PER_INCH


@dataclass(frozen=True, slots=True)
class Cover:
    """A least cover as it is printed, for circuits of a house up to 600 V."""

    what: str
    least_nm: int


COVERS = (
    Cover("Cable laid straight in the ground", 24 * NM_PER_INCH),
    Cover("Plastic conduit", 18 * NM_PER_INCH),
    Cover("Threaded steel conduit, rigid or intermediate", 6 * NM_PER_INCH),
    Cover("A 120 V circuit of at most 20 A with GFCI protection", 12 * NM_PER_INCH),
)
SOURCE = (
    "NEC Table 300.5, columns 1 to 4 (Table 300.5(A) in later editions, from memory), away from slabs, drives and "
    "streets. Reference values: your local authority decides, with its own edition and the maker's instructions."
)


@dataclass(frozen=True, slots=True)
class Depth:
    """The depth of a run along a trench: at each bend, the least of them, and where it changes on its way."""

    bends: tuple[Point, ...]
    least_nm: int
    changes: tuple[tuple[Point, Point], ...]


def depth_of(points: Sequence[Point]) -> Depth | None:
    """Of the stretches that go along; a riser straight up is no change of depth. None for what only goes up or down."""
    along = [(start, end) for start, end in pairwise(points) if start[0] != end[0]]
    if not along:
        return None
    bends = tuple(dict.fromkeys(point for pair in along for point in pair))
    changes = tuple((start, end) for start, end in along if start[1] != end[1])
    return Depth(bends, min(y for _, y in bends), changes)
