"""What is still free on a sheet, for tags and lettering.

The sheet is a grid of small cells, all of it one whole number in which each taken cell is a bit: to ask for a rectangle
is then a shift and an "and", and to find where rectangles can begin a few of them, however much is drawn already.
"""

from dataclasses import dataclass
from functools import lru_cache
from math import ceil, floor, hypot, inf
from typing import NamedTuple

CELL = 4
Size = tuple[int, int]
"""of a rectangle, in cells across and down"""
Bounds = tuple[float, float, float, float]
"""left, top, right, bottom"""


class Cells(NamedTuple):
    """Some cells of a sheet: `bits`, of which the first stands at `shift`."""

    shift: int
    bits: int


NONE = Cells(0, 0)


def both(one: Cells, other: Cells) -> Cells:
    """The cells of either."""
    shift = min(one.shift, other.shift)
    return Cells(shift, one.bits << one.shift - shift | other.bits << other.shift - shift)


class Grid(NamedTuple):
    """How many cells a sheet has across (in whole bytes) and down: cell (column, row) is bit row * across + column."""

    across: int
    down: int

    @classmethod
    def of(cls, width: float, height: float) -> "Grid":
        return cls((ceil(width / CELL) // 8 + 1) * 8, ceil(height / CELL) + 1)

    def box(self, x: float, y: float, width: float, height: float) -> Cells:
        """The cells of a rectangle; what is beside the sheet has none."""
        first, last = max(0, int(x) // CELL), min(self.across - 1, int(x + width) // CELL)
        top, low = max(0, int(y) // CELL), min(self.down, int(y + height) // CELL + 1)
        if last < first or low <= top:
            return NONE
        return Cells(top * self.across + first, block(last - first + 1, low - top, self.across))

    def line(self, x1: float, y1: float, x2: float, y2: float) -> Cells:
        """The cells a line passes: of each row all from the first to the last."""
        if x1 == x2 or y1 == y2:
            return self.box(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1))
        found: dict[int, tuple[int, int]] = {}
        for x, y in steps(x1, y1, x2, y2):
            row, column = int(y) // CELL, int(x) // CELL
            if 0 <= row < self.down and 0 <= column < self.across:
                first, last = found.get(row, (column, column))
                found[row] = (min(first, column), max(last, column))
        if not found:
            return NONE
        top, bits = min(found), 0
        for row, (first, last) in found.items():
            bits |= ((1 << (last + 1)) - (1 << first)) << (row - top) * self.across
        return Cells(top * self.across, bits)


@dataclass(slots=True)
class Sheet:
    """What is taken: `full` must not be covered, `lines` had better not be."""

    grid: Grid
    full: int = 0
    lines: int = 0

    @classmethod
    def of(cls, width: float, height: float) -> "Sheet":
        return cls(Grid.of(width, height))

    def take(self, x: float, y: float, width: float, height: float) -> None:
        self.put(self.grid.box(x, y, width, height))

    def put(self, cells: Cells) -> None:
        self.full |= cells.bits << cells.shift

    def is_free(self, cells: Cells) -> bool:
        return not self.full >> cells.shift & cells.bits

    def is_crossed(self, cells: Cells) -> bool:
        return bool(self.lines >> cells.shift & cells.bits)


class View(NamedTuple):
    """A part of a sheet, by its first cell and its size in cells. It may reach beyond the sheet, where nothing is."""

    column: int
    row: int
    size: Size

    def seen(self, bits: int, across: int) -> int:
        """What is in it of a sheet's cells, of which each row keeps its length."""
        shift = self.row * across + self.column
        moved = bits >> shift if shift >= 0 else bits << -shift
        return moved & block(*self.size, across)


@lru_cache(maxsize=1024)
def block(wide: int, tall: int, across: int) -> int:
    """A rectangle of cells, the first at bit 0."""
    row = (1 << min(wide, across)) - 1
    return sum(row << at * across for at in range(tall))


def begins(seen: int, size: Size, across: int) -> int:
    """In which cells a rectangle of so many cells cannot begin: each taken cell, and so many less one before it."""
    wide, tall = size
    return _spread(_spread(seen, tall, across), wide, 1)


def _spread(bits: int, count: int, step: int) -> int:
    reach = 1
    while reach < count:
        more = min(reach, count - reach)
        bits |= bits >> more * step
        reach += more
    return bits


class Limits(NamedTuple):
    """The first and last column and row in which a rectangle may begin so that it stays within bounds; it lies one
    unit within its first cell."""

    first: int
    highest: int
    last: int
    lowest: int

    def has(self, column: int, row: int) -> bool:
        return self.first <= column <= self.last and self.highest <= row <= self.lowest


def limits(width: float, height: float, bounds: Bounds) -> Limits:
    left, top, right, bottom = bounds
    return Limits(
        max(0, ceil((left - 1) / CELL)),
        max(0, ceil((top - 1) / CELL)),
        floor((right - width - 1) / CELL),
        floor((bottom - height - 1) / CELL),
    )


@dataclass(frozen=True, slots=True)
class Asked:
    """A rectangle that is to stand as near to (x, y) as there is room within `bounds`."""

    x: float
    y: float
    width: float
    height: float
    bounds: Bounds


def nearest(one: Asked, view: View, seen: int, across: int) -> tuple[float, float] | None:
    """The free place nearest to what is asked, of those that begin in the view and lie wholly in it."""
    size, within = cells_of(one.width, one.height), limits(one.width, one.height, one.bounds)
    first, last = max(within.first, view.column), min(within.last, view.column + view.size[0] - size[0])
    highest, lowest = max(within.highest, view.row), min(within.lowest, view.row + view.size[1] - size[1])
    if first > last or highest > lowest:
        return None
    free = ~begins(seen, size, across) >> (highest - view.row) * across + first - view.column
    rows, long = lowest - highest + 1, across // 8
    free &= block(last - first + 1, rows, across)
    by_rows = free.to_bytes(rows * long, "little") if free else b""
    at = floor((one.x - 1) / CELL) - first
    before = (1 << (at + 1)) - 1 if at >= 0 else 0
    best, spot, enough = inf, None, inf
    for row in _outwards(round((one.y - 1) / CELL), highest, lowest) if free else ():
        start = (row - highest) * long
        there = int.from_bytes(by_rows[start : start + long], "little")
        if not there:
            continue
        top = row * CELL + 1.0
        if abs(top - one.y) > enough:
            break
        lower = there & before
        upper = there ^ lower
        for column in (lower.bit_length() - 1, (upper & -upper).bit_length() - 1):
            if column >= 0:
                left = (first + column) * CELL + 1.0
                far = hypot(left - one.x, top - one.y)
                if far < best:
                    best, spot, enough = far, (left, top), far + CELL
    return spot


def cells_of(width: float, height: float) -> Size:
    """How many cells across and down a rectangle takes with one unit around it, when it begins one within a cell."""
    return floor((width + 2) / CELL) + 1, floor((height + 2) / CELL) + 1


@lru_cache(maxsize=512)
def _outwards(middle: int, first: int, last: int) -> tuple[int, ...]:
    """The numbers from `first` to `last`, the nearest to `middle` first."""
    middle = min(max(middle, first), last)
    return tuple(sorted(range(first, last + 1), key=lambda number: (abs(number - middle), number)))


def steps(x1: float, y1: float, x2: float, y2: float) -> list[tuple[float, float]]:
    """Points along a line, no further apart than a cell."""
    count = max(1, ceil(hypot(x2 - x1, y2 - y1) / CELL))
    return [(x1 + (x2 - x1) * at / count, y1 + (y2 - y1) * at / count) for at in range(count + 1)]
