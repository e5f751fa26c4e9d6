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
        for x, y in steps(x1, y1, x2, y2):
            rows, mask = self._cells(x, y, 0, 0)
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

    def _cells(self, x: float, y: float, width: float, height: float) -> tuple[range, int]:
        first, last = max(0, floor(x / CELL)), max(0, floor((x + width) / CELL))
        rows = range(max(0, floor(y / CELL)), min(len(self.full), floor((y + height) / CELL) + 1))
        return rows, (1 << (last + 1)) - (1 << first)


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
        """The nearest free place within the bounds, in squares that grow around the thing."""
        left, top, right, bottom = self.bounds
        width = self._width(one)
        x, y = one.x - width / 2, one.y - HEIGHT / 2
        for reach in range(2 * CELL, ceil(max(right - left, bottom - top)), 2 * CELL):
            steps_along = range(-reach, reach + 1, 2 * CELL)
            edge = [(at, side) for side in (-reach, reach) for at in steps_along]
            edge += [(side, at) for side in (-reach, reach) for at in steps_along]
            for across, down in sorted(edge, key=lambda spot: (hypot(*spot), spot)):
                if self._fits(x + across, y + down, width):
                    return x + across, y + down
        return None

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
