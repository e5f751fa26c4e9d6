"""Finds places on a sheet that are still free, for tags and lettering.

The sheet is a grid of small cells, each row of it one whole number whose bits say which cells are taken: to ask for a
rectangle is then a few bitwise ands, however much is drawn already.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from math import ceil, cos, floor, hypot, radians, sin

from webapp.surfaces.rules.drawing import Tag, line

CELL = 4
HEIGHT = 22
GAP = 4
RINGS = (26, 34, 44, 58, 76)
DEGREES = (45, 135, 225, 315, 0, 180, 20, 160, 200, 340, 70, 110, 250, 290, 90, 270)
"""to the right and down; slanted leaders read best and are tried first"""
WAYS = tuple((cos(radians(angle)), sin(radians(angle))) for angle in DEGREES)


@dataclass(slots=True)
class Sheet:
    """What is taken: `full` must not be covered, `lines` had better not be."""

    full: list[int]
    lines: list[int]

    @classmethod
    def of(cls, height: float) -> "Sheet":
        rows = ceil(height / CELL) + 1
        return cls([0] * rows, [0] * rows)

    def take(self, x: float, y: float, width: float, height: float) -> None:
        rows, mask = self._cells(x, y, width, height)
        for row in rows:
            self.full[row] |= mask

    def take_line(self, x1: float, y1: float, x2: float, y2: float, *, full: bool = False) -> None:
        into = self.full if full else self.lines
        level = x1 == x2 or y1 == y2
        pieces = [(min(x1, x2), min(y1, y2))] if level else steps(x1, y1, x2, y2)
        size = (abs(x2 - x1), abs(y2 - y1)) if level else (0, 0)
        for x, y in pieces:
            rows, mask = self._cells(x, y, *size)
            for row in rows:
                into[row] |= mask

    def is_free(self, x: float, y: float, width: float, height: float) -> bool:
        rows, mask = self._cells(x, y, width, height)
        full = self.full
        for row in rows:  # noqa: SIM110 - a loop takes half the time of any(), and this is asked thousands of times
            if full[row] & mask:
                return False
        return True

    def crossed(self, x: float, y: float, width: float, height: float) -> int:
        """How many rows of cells of the rectangle a line runs through."""
        rows, mask = self._cells(x, y, width, height)
        return sum(1 for row in rows if self.lines[row] & mask)

    def is_clear(self, x1: float, y1: float, x2: float, y2: float) -> bool:
        return all(self.is_free(x, y, 0, 0) for x, y in steps(x1, y1, x2, y2))

    def nearest(
        self, x: float, y: float, width: float, height: float, bounds: tuple[float, float, float, float]
    ) -> tuple[float, float] | None:
        """The free place for a rectangle that is nearest to (x, y); it lies one unit within its first cell.

        A bit of `taken` says that a rectangle beginning there would cover something; so a whole row is asked at once.
        """
        left, top, right, bottom = bounds
        wide, tall = floor((width + 2) / CELL) + 1, floor((height + 2) / CELL) + 1
        first, last = max(0, ceil((left - 1) / CELL)), floor((right - width - 1) / CELL)
        if last < first:
            return None
        within = (1 << (last + 1)) - (1 << first)
        best: tuple[float, float, float] | None = None
        for row in range(max(0, ceil((top - 1) / CELL)), floor((bottom - height - 1) / CELL) + 1):
            down = row * CELL + 1 - y
            if best is not None and abs(down) >= best[0]:
                continue
            free = within & ~self._taken(row, wide, tall)
            for column in _beside(free, max(0, round(x / CELL))):
                far = hypot(column * CELL + 1 - x, down)
                if best is None or far < best[0]:
                    best = (far, column * CELL + 1.0, row * CELL + 1.0)
        return best[1:] if best is not None else None

    def _taken(self, row: int, wide: int, tall: int) -> int:
        strip = 0
        for one in self.full[row : row + tall]:
            strip |= one
        reach = 1
        while reach < wide:
            step = min(reach, wide - reach)
            strip |= strip >> step
            reach += step
        return strip

    def _cells(self, x: float, y: float, width: float, height: float) -> tuple[range, int]:
        """Rows of cells and the bits in them; drawings begin at 0, and what is before it has no cells."""
        first, last = int(x) // CELL, int(x + width) // CELL
        top, bottom = int(y) // CELL, int(y + height) // CELL + 1
        mask = (1 << (last + 1)) - (1 << first) if first >= 0 else (1 << max(0, last + 1)) - 1
        return range(max(0, top), min(len(self.full), bottom)), mask


def _beside(bits: int, at: int) -> list[int]:
    """The set bits nearest to `at` on either side."""
    found = []
    lower, upper = bits & ((1 << (at + 1)) - 1), bits >> at
    if lower:
        found.append(lower.bit_length() - 1)
    if upper:
        found.append(at + (upper & -upper).bit_length() - 1)
    return found


def steps(x1: float, y1: float, x2: float, y2: float) -> list[tuple[float, float]]:
    """Points along a line, no further apart than a cell."""
    count = max(1, ceil(hypot(x2 - x1, y2 - y1) / CELL))
    return [(x1 + (x2 - x1) * at / count, y1 + (y2 - y1) * at / count) for at in range(count + 1)]


@dataclass(frozen=True, slots=True)
class Wanted:
    """A tag to be placed: the centre and the reach of what it names."""

    id: int
    words: str
    label: str
    x: float
    y: float
    reach: float


@dataclass(slots=True)
class Placing:
    """Places tags one after another within (left, top, right, bottom); what finds no place stands in rows below
    `low`."""

    sheet: Sheet
    bounds: tuple[float, float, float, float]
    low: float
    letter: float = 9.2
    placed: list[Tag] = field(default_factory=list)
    over: list[Wanted] = field(default_factory=list)

    def place(self, wanted: Sequence[Wanted]) -> float:
        """Places all; answers how far down the drawing reaches then."""
        for one in wanted:
            spot = self._near(one) or self._anywhere(one)
            if spot is None:
                self.over.append(one)
            else:
                self._put(one, *spot)
        return self._rows()

    def _width(self, one: Wanted) -> float:
        return max(24.0, self.letter * len(one.words) + 8)

    def _near(self, one: Wanted) -> tuple[float, float] | None:
        """The first place around the thing that covers nothing, and of a ring the one that covers the fewest lines."""
        width = self._width(one)
        for ring in RINGS:
            best: tuple[int, float, float] | None = None
            for across, down in WAYS:
                x = one.x + across * (ring + width / 2 - 10) - width / 2
                y = one.y + down * ring - HEIGHT / 2
                if not self._fits(x, y, width) or not self._leads(one, x, y, width):
                    continue
                crossed = self.sheet.crossed(x, y, width, HEIGHT)
                if best is None or crossed < best[0]:
                    best = (crossed, x, y)
                if not crossed:
                    break
            if best is not None:
                return best[1], best[2]
        return None

    def _anywhere(self, one: Wanted) -> tuple[float, float] | None:
        """The nearest free place within the bounds."""
        width = self._width(one)
        return self.sheet.nearest(one.x - width / 2, one.y - HEIGHT / 2, width, HEIGHT, self.bounds)

    def _fits(self, x: float, y: float, width: float) -> bool:
        left, top, right, bottom = self.bounds
        inside = left <= x and top <= y and x + width <= right and y + HEIGHT <= bottom
        return inside and self.sheet.is_free(x - 1, y - 1, width + 2, HEIGHT + 2)

    def _leads(self, one: Wanted, x: float, y: float, width: float) -> bool:
        """Whether the leader covers nothing, once it has left the cells of the thing itself."""
        x1, y1, x2, y2 = _leader(one, x, y, width, 2 * CELL)
        return self.sheet.is_clear(x1, y1, x2, y2)

    def _put(self, one: Wanted, x: float, y: float) -> None:
        width = self._width(one)
        leader = _leader(one, x, y, width)
        self.sheet.take(x, y, width, HEIGHT)
        self.sheet.take_line(*leader, full=True)
        d = line(*leader) if hypot(leader[2] - leader[0], leader[3] - leader[1]) > 1 else ""
        self.placed.append(Tag(one.id, one.words, one.label, x, y, width, HEIGHT, d))

    def _rows(self) -> float:
        """What found no place, side by side below the drawing."""
        left, _top, right, _bottom = self.bounds
        x, y = left, self.low
        for one in sorted(self.over, key=lambda over: over.x):
            width = self._width(one)
            if x > left and x + width > right:
                x, y = left, y + HEIGHT + GAP
            self.placed.append(Tag(one.id, one.words, one.label, x, y, width, HEIGHT, ""))
            x += width + GAP
        return y + HEIGHT if self.over else self.low


def _leader(one: Wanted, x: float, y: float, width: float, off: float = 1) -> tuple[float, float, float, float]:
    """From `off` outside the thing to the edge of its tag."""
    to_x = min(max(one.x, x + 4), x + width - 4)
    to_y = min(max(one.y, y + 4), y + HEIGHT - 4)
    to_x = x if one.x < x else x + width if one.x > x + width else to_x
    to_y = y if one.y < y else y + HEIGHT if one.y > y + HEIGHT else to_y
    far = hypot(to_x - one.x, to_y - one.y)
    if far <= one.reach + off:
        return to_x, to_y, to_x, to_y
    part = (one.reach + off) / far
    return one.x + (to_x - one.x) * part, one.y + (to_y - one.y) * part, to_x, to_y
