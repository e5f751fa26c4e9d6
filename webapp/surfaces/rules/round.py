"""The key plan: walls around a room, numbered clockwise from the door; a drawing to find one's way, not to scale."""

from collections import Counter
from collections.abc import Sequence
from dataclasses import dataclass

from webapp.surfaces.rules.kinds import SurfaceKind

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


def key_plan(surfaces: Sequence[PlanSurface]) -> KeyPlan:
    """The plan of walls with a side; what has none (ceiling, slab) is numbered in the room, trenches outside it."""
    deep = _depth(surfaces)
    room = (LEFT, TOP, WIDTH, deep)
    walls = [surface for surface in surfaces if surface.kind == SurfaceKind.WALL and surface.facing]
    sides = {side: [wall for wall in walls if wall.facing == side] for side in "NESW"}
    drawn = tuple(_wall(side, room, all(wall.covered for wall in on)) for side, on in sides.items() if on)
    numbers = [number for side, on in sides.items() for number in _numbers(side, on, room)]
    return KeyPlan(TOP + deep + TOP, room, drawn, (*numbers, *_others(surfaces, room)))


def _depth(surfaces: Sequence[PlanSurface]) -> int:
    """Height of the room in the drawing from the longest walls north or south, east or west."""
    longest: Counter[str] = Counter()
    for surface in surfaces:
        if surface.kind == SurfaceKind.WALL and surface.length_nm:
            side = "across" if surface.facing in {"N", "S"} else "down"
            longest[side] = max(longest[side], surface.length_nm)
    if not longest["across"] or not longest["down"]:
        return 168
    return max(LEAST, min(MOST, WIDTH * longest["down"] // longest["across"]))


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


def _numbers(side: str, on: Sequence[PlanSurface], room: tuple[int, int, int, int]) -> list[Number]:
    x, y, w, h = room
    found = []
    for place, surface in enumerate(on, 1):
        across, down = x + w * place // (len(on) + 1), y + h * place // (len(on) + 1)
        to_x, to_y = {
            "N": (across, y + 6),
            "S": (across, y + h - 6),
            "W": (x + 6, down),
            "E": (x + w - 6, down),
        }[side]
        dx, dy = {"N": (0, OFF), "S": (0, -OFF), "W": (OFF, 0), "E": (-OFF, 0)}[side]
        found.append(Number(surface.number, to_x + dx, to_y + dy, to_x, to_y, dot=True))
    return found


def _others(surfaces: Sequence[PlanSurface], room: tuple[int, int, int, int]) -> list[Number]:
    """What is not a wall with a side: below ground and outside to the right of the room, the rest in the middle."""
    x, y, w, h = room
    rest = [surface for surface in surfaces if surface.kind != SurfaceKind.WALL or not surface.facing]
    apart = [surface for surface in rest if surface.kind in {SurfaceKind.TRENCH, SurfaceKind.OUTSIDE}]
    within = [surface for surface in rest if surface not in apart]
    found = []
    for place, surface in enumerate(within, 1):
        at = x + 70 + (w - 140) * place // (len(within) + 1)
        found.append(Number(surface.number, at, y + h // 2, at, y + h // 2, dot=False))
    for place, surface in enumerate(apart, 1):
        at = y + h * place // (len(apart) + 1)
        found.append(Number(surface.number, x + w + 26, at, x + w + 26, at, dot=False))
    return found
