"""Sets the short names of things on a sheet, each beside its thing and over nothing else.

What a place rests on is only what is taken around it. So places that were found are remembered by that, and when one
thing is moved on a full wall, the tags far from it are not searched for again.
"""

from collections.abc import Sequence
from dataclasses import dataclass, field
from functools import lru_cache
from math import cos, hypot, radians, sin
from typing import NamedTuple

from webapp.surfaces.rules.drawing import Tag, line
from webapp.surfaces.rules.room import (
    CELL,
    Asked,
    Bounds,
    Cells,
    Grid,
    Sheet,
    View,
    begins,
    block,
    both,
    cells_of,
    limits,
    nearest,
    steps,
)

HEIGHT = 22
GAP = 4
RINGS = (26, 34, 44, 58, 76)
DEGREES = (45, 135, 225, 315, 0, 180, 20, 160, 200, 340, 70, 110, 250, 290, 90, 270)
"""to the right and down; slanted leaders read best and are tried first"""
WAYS = tuple((cos(radians(angle)), sin(radians(angle))) for angle in DEGREES)
FAR = 44
"""cells to each side in which a place is searched for first, where the rings have none"""
KEPT = 512
"""places remembered: those of a few full walls"""


class Wanted(NamedTuple):
    """A tag to be placed: the centre and the reach of what it names."""

    id: int
    words: str
    label: str
    x: float
    y: float
    reach: float


class Around(NamedTuple):
    """By rings, the cells in which a tag of some width may begin, counted from the cell of what it names; and how far
    they and what they cover reach from it: columns to the left, rows up, and the whole in cells."""

    rings: tuple[tuple[tuple[int, int], ...], ...]
    left: int
    up: int
    size: tuple[int, int]


@lru_cache(maxsize=64)
def _around(width: float) -> Around:
    rings = tuple(
        tuple(
            (round((across * (ring + width / 2 - 10) - width / 2) / CELL), round((down * ring - HEIGHT / 2) / CELL))
            for across, down in WAYS
        )
        for ring in RINGS
    )
    columns, rows = zip(*(cell for ring in rings for cell in ring), strict=True)
    wide, tall = cells_of(width, HEIGHT)
    left, up = -min(columns), -min(rows)
    return Around(rings, left, up, (left + max(columns) + wide, up + max(rows) + tall))


@dataclass(slots=True)
class Placing:
    """Places tags one after another within (left, top, right, bottom); what finds no place stands in rows below
    `low`."""

    sheet: Sheet
    bounds: Bounds
    low: float
    letter: float = 9.2
    placed: list[Tag] = field(default_factory=list)
    over: list[Wanted] = field(default_factory=list)
    too_wide: float = float("inf")
    """no tag of this width has room any more"""

    def place(self, wanted: Sequence[Wanted]) -> float:
        """Places all; answers how far down the drawing reaches then."""
        for one in wanted:
            width = self._width(one)
            spot = (self._near(one, width) or self._anywhere(one, width)) if width < self.too_wide else None
            if spot is None:
                self.too_wide = min(width, self.too_wide)
                self.over.append(one)
            else:
                self._put(one, *spot, width)
        return self._rows()

    def _width(self, one: Wanted) -> float:
        return max(24.0, self.letter * len(one.words) + 8)

    def _near(self, one: Wanted, width: float) -> tuple[float, float] | None:
        around, across = _around(width), self.sheet.grid.across
        view = View(int(one.x) // CELL - around.left, int(one.y) // CELL - around.up, around.size)
        full, lines = view.seen(self.sheet.full, across), view.seen(self.sheet.lines, across)
        return _beside(one.x, one.y, one.reach, width, self.bounds, self.sheet.grid, full, lines)

    def _anywhere(self, one: Wanted, width: float) -> tuple[float, float] | None:
        """The nearest free place within the bounds, looked for close by first."""
        asked, (across, down) = (
            Asked(one.x - width / 2, one.y - HEIGHT / 2, width, HEIGHT, self.bounds),
            self.sheet.grid,
        )
        wide, tall = cells_of(width, HEIGHT)
        column, row = int(asked.x) // CELL - FAR, int(asked.y) // CELL - FAR
        view = View(column, row, (2 * FAR + wide, 2 * FAR + tall))
        found = _close_by(asked, view, view.seen(self.sheet.full, across), across)
        if found is not None and hypot(found[0] - asked.x, found[1] - asked.y) < (FAR - 2) * CELL:
            return found
        return nearest(asked, View(0, 0, (across, down + tall)), self.sheet.full, across)

    def _put(self, one: Wanted, x: float, y: float, width: float) -> None:
        leader, cells = _led(one.x, one.y, one.reach, width, x, y, self.sheet.grid)
        self.sheet.put(cells)
        self.placed.append(Tag(one.id, one.words, one.label, x, y, width, HEIGHT, leader))

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


@lru_cache(maxsize=KEPT)
def _beside(
    x: float, y: float, reach: float, width: float, bounds: Bounds, grid: Grid, full: int, lines: int
) -> tuple[float, float] | None:
    """The first place around the thing that covers nothing, and of a ring the one that covers the fewest lines.

    `full` and `lines` are what is seen of the sheet around it (`_around`).
    """
    around, across = _around(width), grid.across
    blocked = begins(full, cells_of(width, HEIGHT), across)
    within = limits(width, HEIGHT, bounds)
    at, on = int(x) // CELL, int(y) // CELL
    for ring in around.rings:
        best: tuple[int, float, float] | None = None
        for right, down in ring:
            first = (down + around.up) * across + right + around.left
            if blocked >> first & 1 or not within.has(at + right, on + down):
                continue
            left, top = (at + right) * CELL + 1.0, (on + down) * CELL + 1.0
            origin = (on - around.up) * across + at - around.left
            if not _leads(_leader(x, y, reach, left, top, width, 2 * CELL), grid, full, origin):
                continue
            crossed = _crossed(lines >> first, left, top, width, across)
            if best is None or crossed < best[0]:
                best = (crossed, left, top)
            if not crossed:
                break
        if best is not None:
            return best[1], best[2]
    return None


_close_by = lru_cache(maxsize=KEPT // 2)(nearest)


def _leads(leader: tuple[float, float, float, float], grid: Grid, full: int, origin: int) -> bool:
    """Whether the leader covers nothing, once it has left the cells of the thing itself."""
    for x, y in steps(*leader):
        row = int(y) // CELL
        if 0 <= row < grid.down and x >= 0 and full >> row * grid.across + int(x) // CELL - origin & 1:
            return False
    return True


def _crossed(lines: int, x: float, y: float, width: float, across: int) -> int:
    """How many rows of cells of the rectangle a line runs through; its first cell is bit 0."""
    wide, tall = int(x + width) // CELL - int(x) // CELL + 1, int(y + HEIGHT) // CELL - int(y) // CELL + 1
    if not lines & block(wide, tall, across):
        return 0
    return sum(1 for row in range(tall) if lines >> row * across & (1 << wide) - 1)


@lru_cache(maxsize=2 * KEPT)
def _led(x: float, y: float, reach: float, width: float, left: float, top: float, grid: Grid) -> tuple[str, Cells]:
    """The path of the leader to a tag that stands there, empty where it is none, and the cells both take."""
    leader = _leader(x, y, reach, left, top, width)
    d = line(*leader) if hypot(leader[2] - leader[0], leader[3] - leader[1]) > 1 else ""
    return d, both(grid.line(*leader), grid.box(left, top, width, HEIGHT))


def _leader(
    x: float, y: float, reach: float, left: float, top: float, width: float, off: float = 1
) -> tuple[float, float, float, float]:
    """From `off` outside the thing to the edge of its tag."""
    to_x = min(max(x, left + 4), left + width - 4)
    to_y = min(max(y, top + 4), top + HEIGHT - 4)
    to_x = left if x < left else left + width if x > left + width else to_x
    to_y = top if y < top else top + HEIGHT if y > top + HEIGHT else to_y
    far = hypot(to_x - x, to_y - y)
    if far <= reach + off:
        return to_x, to_y, to_x, to_y
    part = (reach + off) / far
    return x + (to_x - x) * part, y + (to_y - y) * part, to_x, to_y
