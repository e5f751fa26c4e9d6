"""Sets the short names of things on a sheet, each beside its thing and over nothing else."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import ceil, cos, floor, hypot, radians, sin

from webapp.surfaces.rules.drawing import Tag, line
from webapp.surfaces.rules.room import CELL, Sheet, cells_of

HEIGHT = 22
GAP = 4
RINGS = (26, 34, 44, 58, 76)
DEGREES = (45, 135, 225, 315, 0, 180, 20, 160, 200, 340, 70, 110, 250, 290, 90, 270)
"""to the right and down; slanted leaders read best and are tried first"""
WAYS = tuple((cos(radians(angle)), sin(radians(angle))) for angle in DEGREES)


@lru_cache(maxsize=64)
def _around(width: float) -> tuple[tuple[tuple[int, int], ...], ...]:
    """By rings, the cells in which a tag of this width may begin around the cell of what it names."""
    return tuple(
        tuple(
            (round((across * (ring + width / 2 - 10) - width / 2) / CELL), round((down * ring - HEIGHT / 2) / CELL))
            for across, down in WAYS
        )
        for ring in RINGS
    )


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
        starts, (left, top, right, bottom) = self.sheet.starts(cells_of(width, HEIGHT)), self.bounds
        first, last = max(0, ceil((left - 1) / CELL)), floor((right - width - 1) / CELL)
        highest, lowest = max(0, ceil((top - 1) / CELL)), floor((bottom - HEIGHT - 1) / CELL)
        at, on = int(one.x) // CELL, int(one.y) // CELL
        for ring in _around(width):
            best: tuple[int, float, float] | None = None
            for across, down in ring:
                column, row = at + across, on + down
                if row < highest or row > lowest or column < first or column > last or starts[row] >> column & 1:
                    continue
                x, y = column * CELL + 1.0, row * CELL + 1.0
                if not self._leads(one, x, y, width):
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

    def _leads(self, one: Wanted, x: float, y: float, width: float) -> bool:
        """Whether the leader covers nothing, once it has left the cells of the thing itself."""
        x1, y1, x2, y2 = _leader(one, x, y, width, 2 * CELL)
        return self.sheet.is_clear(x1, y1, x2, y2)

    def _put(self, one: Wanted, x: float, y: float) -> None:
        width = self._width(one)
        leader = _leader(one, x, y, width)
        self.sheet.take(x, y, width, HEIGHT)
        self.sheet.take_leader(*leader)
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
