"""What is still free on a sheet, for tags and lettering.

The sheet is a grid of small cells, each row of it one whole number whose bits say which cells are taken: to ask for a
rectangle is then a few bitwise ands, however much is drawn already.
"""

from collections.abc import Iterator
from dataclasses import dataclass, field
from math import ceil, floor, hypot

CELL = 4
Size = tuple[int, int]
"""of a rectangle, in cells across and down"""


@dataclass(slots=True)
class Sheet:
    """What is taken: `full` must not be covered, `lines` had better not be.

    `blocked` says, for each size in cells that was asked for, in which cells of a row such a rectangle cannot begin:
    it is made once and kept up, so that a place is looked up and not searched.
    """

    full: list[int]
    lines: list[int]
    blocked: dict[Size, list[int]] = field(default_factory=dict)

    @classmethod
    def of(cls, height: float) -> "Sheet":
        rows = ceil(height / CELL) + 1
        return cls([0] * rows, [0] * rows)

    def take(self, x: float, y: float, width: float, height: float) -> None:
        rows, first, last = self._cells(x, y, width, height)
        mask = _bits(first, last)
        for row in rows:
            self.full[row] |= mask
        for (wide, tall), known in self.blocked.items():
            before = _bits(first - wide + 1, last)
            for row in range(max(0, rows.start - tall + 1), rows.stop):
                known[row] |= before

    def take_line(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A line that had better not be covered."""
        for row, (first, last) in self._line(x1, y1, x2, y2).items():
            self.lines[row] |= (1 << (last + 1)) - (1 << first)

    def take_leader(self, x1: float, y1: float, x2: float, y2: float) -> None:
        """A line that must not be covered."""
        taken = self._line(x1, y1, x2, y2)
        if not taken:
            return
        for row, (first, last) in taken.items():
            self.full[row] |= (1 << (last + 1)) - (1 << first)
        top, bottom = min(taken), max(taken)
        for (wide, tall), known in self.blocked.items():
            for row in range(max(0, top - tall + 1), bottom + 1):
                # A straight line's cells in neighbouring rows join, so those of the outermost two span all between.
                (first, last), (also, end) = taken[max(row, top)], taken[min(row + tall - 1, bottom)]
                known[row] |= (1 << (max(last, end) + 1)) - (1 << max(0, min(first, also) - wide + 1))

    def is_free(self, x: float, y: float, width: float, height: float) -> bool:
        rows, first, last = self._cells(x, y, width, height)
        mask, full = _bits(first, last), self.full
        for row in rows:  # noqa: SIM110 - a loop takes half the time of any(), and this is asked thousands of times
            if full[row] & mask:
                return False
        return True

    def crossed(self, x: float, y: float, width: float, height: float) -> int:
        """How many rows of cells of the rectangle a line runs through."""
        rows, first, last = self._cells(x, y, width, height)
        mask = _bits(first, last)
        return sum(1 for row in rows if self.lines[row] & mask)

    def is_clear(self, x1: float, y1: float, x2: float, y2: float) -> bool:
        full, count = self.full, len(self.full)
        for x, y in steps(x1, y1, x2, y2):
            row = int(y) // CELL
            if 0 <= row < count and x >= 0 and full[row] >> int(x) // CELL & 1:
                return False
        return True

    def starts(self, size: Size) -> list[int]:
        """By rows: a bit says that a rectangle of so many cells beginning there would cover something."""
        known = self.blocked.get(size)
        if known is None:
            wide, tall = size
            known = self.blocked[size] = []
            for row in range(len(self.full)):
                strip = 0
                for one in self.full[row : row + tall]:
                    strip |= one
                known.append(_spread(strip, wide))
        return known

    def nearest(
        self, x: float, y: float, width: float, height: float, bounds: tuple[float, float, float, float]
    ) -> tuple[float, float] | None:
        """The free place for a rectangle that is nearest to (x, y); it lies one unit within its first cell."""
        left, top, right, bottom = bounds
        first, last = max(0, ceil((left - 1) / CELL)), floor((right - width - 1) / CELL)
        within, at = _bits(first, last), max(-1, floor((x - 1) / CELL))
        before = _bits(0, at)
        starts = self.starts(cells_of(width, height))
        best: tuple[float, float, float] | None = None
        highest, lowest = max(0, ceil((top - 1) / CELL)), floor((bottom - height - 1) / CELL)
        for row in _outwards(round((y - 1) / CELL), highest, lowest):
            down = row * CELL + 1 - y
            if best is not None and abs(down) > best[0] + CELL:
                break
            free = within & ~starts[row]
            lower, upper = free & before, free >> (at + 1)
            if lower:
                best = _nearer(best, lower.bit_length() - 1, row, x, y)
            if upper:
                best = _nearer(best, at + (upper & -upper).bit_length(), row, x, y)
        return best[1:] if best is not None else None

    def _line(self, x1: float, y1: float, x2: float, y2: float) -> dict[int, tuple[int, int]]:
        """The cells a line passes: of each row the first and the last."""
        if x1 == x2 or y1 == y2:
            rows, first, last = self._cells(min(x1, x2), min(y1, y2), abs(x2 - x1), abs(y2 - y1))
            return dict.fromkeys(rows, (max(0, first), last)) if last >= 0 else {}
        found: dict[int, tuple[int, int]] = {}
        for x, y in steps(x1, y1, x2, y2):
            row, column = int(y) // CELL, int(x) // CELL
            if 0 <= row < len(self.full) and column >= 0:
                first, last = found.get(row, (column, column))
                found[row] = (min(first, column), max(last, column))
        return found

    def _cells(self, x: float, y: float, width: float, height: float) -> tuple[range, int, int]:
        """Rows of cells, and the first and last in each; drawings begin at 0, and what is before it has no cells."""
        top, bottom = int(y) // CELL, int(y + height) // CELL + 1
        return range(max(0, top), min(len(self.full), bottom)), int(x) // CELL, int(x + width) // CELL


def _spread(strip: int, wide: int) -> int:
    """Each set bit and so many less one before it."""
    reach = 1
    while reach < wide:
        step = min(reach, wide - reach)
        strip |= strip >> step
        reach += step
    return strip


def _bits(first: int, last: int) -> int:
    """A number whose bits from `first` to `last` are set; there are none below 0."""
    return (1 << (last + 1)) - (1 << max(0, first)) if last >= max(0, first) else 0


def cells_of(width: float, height: float) -> Size:
    """How many cells across and down a rectangle takes with one unit around it, when it begins one within a cell."""
    return floor((width + 2) / CELL) + 1, floor((height + 2) / CELL) + 1


def _outwards(middle: int, first: int, last: int) -> Iterator[int]:
    """The numbers from `first` to `last`, the nearest to `middle` first."""
    if first > last:
        return
    middle = min(max(middle, first), last)
    yield middle
    for step in range(1, max(middle - first, last - middle) + 1):
        if middle - step >= first:
            yield middle - step
        if middle + step <= last:
            yield middle + step


def _nearer(
    best: tuple[float, float, float] | None, column: int, row: int, x: float, y: float
) -> tuple[float, float, float] | None:
    """The better of a place found before and the one that begins in this cell: how far it is, and where."""
    left, top = column * CELL + 1.0, row * CELL + 1.0
    far = hypot(left - x, top - y)
    return (far, left, top) if best is None or far < best[0] else best


def steps(x1: float, y1: float, x2: float, y2: float) -> list[tuple[float, float]]:
    """Points along a line, no further apart than a cell."""
    count = max(1, ceil(hypot(x2 - x1, y2 - y1) / CELL))
    return [(x1 + (x2 - x1) * at / count, y1 + (y2 - y1) * at / count) for at in range(count + 1)]
