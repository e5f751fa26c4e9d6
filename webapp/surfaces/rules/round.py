"""The key plan: walls around a room, numbered clockwise from the door, with their openings; to scale if it can be."""

from collections import Counter
from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass
from datetime import date
from typing import Protocol

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.sketch import Bar, Gap, Measure, PlanOpening, gap, measures, scale_bar

LEFT, TOP, WIDTH = 42, 44, 264
THICK = 11
"""walls are drawn thicker than they are"""
LEAST, MOST = 110, 230
OFF = 34
"""of a number from its wall"""


@dataclass(frozen=True, slots=True)
class PlanSurface:
    """What the plan needs to know of a surface."""

    number: int
    kind: str
    facing: str
    length_nm: int | None
    covered: bool
    href: str = ""
    name: str = ""
    corner: str = ""
    """the corner it is measured from"""
    openings: tuple[PlanOpening, ...] = ()


@dataclass(frozen=True, slots=True)
class Wall:
    """A wall cut through: its box, its hatch, and the box of the board on its inner side (`board` or `waits`)."""

    box: tuple[int, int, int, int]
    hatch: str
    inner: tuple[int, int, int, int]
    board: bool


@dataclass(frozen=True, slots=True)
class Number:
    """A number in its circle with a leader from (`to_x`, `to_y`) on what it names."""

    number: int
    href: str
    name: str
    x: int
    y: int
    to_x: int
    to_y: int
    dot: bool


@dataclass(frozen=True, slots=True)
class KeyPlan:
    height: int
    room: tuple[int, int, int, int]
    walls: tuple[Wall, ...]
    numbers: tuple[Number, ...]
    gaps: tuple[Gap, ...] = ()
    measures: tuple[Measure, ...] = ()
    bar: Bar | None = None
    """only where the plan is to scale"""


class Placed(Protocol):
    """A surface as it is kept."""

    @property
    def id(self) -> int: ...
    @property
    def code(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def facing(self) -> str: ...
    @property
    def length_nm(self) -> int | None: ...
    @property
    def origin_corner(self) -> str: ...
    @property
    def covered_on(self) -> date | None: ...


class Cut(Protocol):
    """An opening as it is kept."""

    @property
    def surface_id(self) -> int: ...
    @property
    def kind(self) -> str: ...
    @property
    def x_nm(self) -> int: ...
    @property
    def width_nm(self) -> int: ...
    @property
    def removed_on(self) -> date | None: ...


def plan_of(surfaces: Sequence[Placed], openings: Iterable[Cut], unit: str, hrefs: Mapping[int, str]) -> KeyPlan:
    """The key plan of what is kept, numbered in its order; `hrefs` by the id of the surface."""
    standing = [one for one in openings if one.removed_on is None]
    drawn = [
        PlanSurface(
            number=number,
            kind=one.kind,
            facing=one.facing,
            length_nm=one.length_nm,
            covered=one.covered_on is not None,
            href=hrefs[one.id],
            name=one.name,
            corner=one.origin_corner,
            openings=tuple(PlanOpening(o.kind, o.x_nm, o.width_nm) for o in standing if o.surface_id == one.id),
        )
        for number, one in enumerate(surfaces, 1)
    ]
    return key_plan(drawn, unit)


def key_plan(surfaces: Sequence[PlanSurface], unit: str = "ft-in") -> KeyPlan:
    """The plan of walls with a side; what has none (ceiling, slab) is numbered in the room, trenches outside it."""
    across, down = _longest(surfaces)
    deep, true = _depth(across, down)
    room = (LEFT, TOP, WIDTH, deep)
    walls = [surface for surface in surfaces if surface.kind == SurfaceKind.WALL and surface.facing]
    sides = {side: [wall for wall in walls if wall.facing == side] for side in "NESW"}
    drawn = tuple(_wall(side, room, all(wall.covered for wall in on)) for side, on in sides.items() if on)
    gaps = tuple(
        gap(side, room, THICK, on[0].length_nm, on[0].corner, opening)
        for side, on in sides.items()
        if len(on) == 1 and on[0].length_nm
        for opening in on[0].openings
    )
    numbers = [number for side, on in sides.items() for number in _numbers(side, on, room, gaps)]
    numbers = sorted((*numbers, *_others(surfaces, room)), key=lambda mark: mark.number)
    low = TOP + deep
    if not true:
        return KeyPlan(low + TOP, room, drawn, tuple(numbers), gaps)
    bar = scale_bar(LEFT + THICK, low + 44, WIDTH - 2 * THICK, across, unit)
    lines = measures(room, THICK, across, down, unit)
    return KeyPlan(low + 82, room, drawn, tuple(numbers), gaps, lines, bar)


def _longest(surfaces: Sequence[PlanSurface]) -> tuple[int, int]:
    """Inside measures of the room from west to east and from north to south; 0 where no wall says so."""
    longest: Counter[str] = Counter()
    for surface in surfaces:
        if surface.kind == SurfaceKind.WALL and surface.length_nm:
            side = "across" if surface.facing in {"N", "S"} else "down"
            longest[side] = max(longest[side], surface.length_nm)
    return longest["across"], longest["down"]


def _depth(across: int, down: int) -> tuple[int, bool]:
    """Height of the room in the drawing, and whether it is to scale."""
    if not across or not down:
        return 168, False
    wanted = (WIDTH - 2 * THICK) * down / across + 2 * THICK
    return round(max(LEAST, min(MOST, wanted))), LEAST <= wanted <= MOST


def _wall(side: str, room: tuple[int, int, int, int], covered: bool) -> Wall:
    x, y, w, h = room
    box, inner = {
        "N": ((x, y, w, THICK), (x + THICK, y + THICK + 2, w - 2 * THICK, 4)),
        "S": ((x, y + h - THICK, w, THICK), (x + THICK, y + h - THICK - 6, w - 2 * THICK, 4)),
        "W": ((x, y, THICK, h), (x + THICK + 2, y + THICK, 4, h - 2 * THICK)),
        "E": ((x + w - THICK, y, THICK, h), (x + w - THICK - 6, y + THICK, 4, h - 2 * THICK)),
    }[side]
    return Wall(box, hatch(box), inner, covered)


def hatch(box: tuple[int, int, int, int], step: int = 6) -> str:
    """Path of slanted lines that fill a box: framing cut through."""
    x, y, w, h = box
    return "".join(
        f"M{x + max(0, at - h)} {y + min(at, h)}L{x + min(at, w)} {y + max(0, at - w)}"
        for at in range(step, w + h, step)
    )


def _numbers(
    side: str, on: Sequence[PlanSurface], room: tuple[int, int, int, int], gaps: Sequence[Gap]
) -> list[Number]:
    x, y, w, h = room
    found = []
    for place, surface in enumerate(on, 1):
        part = place / (len(on) + 1) if len(on) > 1 else _solid(side, room, gaps)
        across, down = x + round(w * part), y + round(h * part)
        to_x, to_y = {
            "N": (across, y + 6),
            "S": (across, y + h - 6),
            "W": (x + 6, down),
            "E": (x + w - 6, down),
        }[side]
        dx, dy = {"N": (0, OFF), "S": (0, -OFF), "W": (OFF, 0), "E": (-OFF, 0)}[side]
        found.append(_number(surface, to_x + dx, to_y + dy, to_x, to_y, dot=True))
    return found


def _solid(side: str, room: tuple[int, int, int, int], gaps: Sequence[Gap]) -> float:
    """Where along a wall its number points: the middle, or where there is wall when an opening is in the middle."""
    x, y, w, h = room
    for part in (1 / 2, 1 / 3, 2 / 3, 1 / 5, 4 / 5):
        across, down = x + round(w * part), y + round(h * part)
        spot = {"N": (across, y + 6), "S": (across, y + h - 6), "W": (x + 6, down), "E": (x + w - 6, down)}[side]
        if not any(_within(spot, one.box) for one in gaps):
            return part
    return 1 / 2


def _within(spot: tuple[int, int], box: tuple[int, int, int, int]) -> bool:
    left, top, w, h = box
    return left - 4 <= spot[0] <= left + w + 4 and top - 4 <= spot[1] <= top + h + 4


def _number(surface: PlanSurface, x: int, y: int, to_x: int, to_y: int, *, dot: bool = False) -> Number:
    return Number(surface.number, surface.href, surface.name, x, y, to_x, to_y, dot)


def _others(surfaces: Sequence[PlanSurface], room: tuple[int, int, int, int]) -> list[Number]:
    """What is not a wall with a side: below ground and outside to the right of the room, the rest in the middle."""
    x, y, w, h = room
    rest = [surface for surface in surfaces if surface.kind != SurfaceKind.WALL or not surface.facing]
    apart = [surface for surface in rest if surface.kind in {SurfaceKind.TRENCH, SurfaceKind.OUTSIDE}]
    within = [surface for surface in rest if surface not in apart]
    found = []
    for place, surface in enumerate(within, 1):
        at = x + 70 + (w - 140) * place // (len(within) + 1)
        found.append(_number(surface, at, y + h // 2, at, y + h // 2))
    for place, surface in enumerate(apart, 1):
        at = y + h * place // (len(apart) + 1)
        found.append(_number(surface, x + w + 26, at, x + w + 26, at))
    return found
