"""What makes the key plan a plan: openings where they are, the inside measures, and a scale bar that measures true.

Walls are drawn thicker than they are; along the inner faces everything is to scale.
"""

from collections.abc import Sequence
from dataclasses import dataclass

from webapp.surfaces.rules.corners import ENDS, is_same
from webapp.values.length import NM_PER_CM, NM_PER_FOOT, NM_PER_INCH, show_length

Rectangle = tuple[int, int, int, int]
METRE_NM = 1_000_000_000
REACH = 7
"""how far a gap is cleared beyond the wall on its inner side, through the board"""


@dataclass(frozen=True, slots=True)
class PlanOpening:
    """A door, window or other opening by its start from the named corner, as it is typed."""

    kind: str
    start_nm: int
    width_nm: int


@dataclass(frozen=True, slots=True)
class Gap:
    """An opening in the plan: `clear` is painted over wall and board, `box` is its frame, `lines` its panes or sill."""

    kind: str
    clear: Rectangle
    box: Rectangle
    lines: str


@dataclass(frozen=True, slots=True)
class Measure:
    """A dimension: line with its ends, oblique ticks, and the words beside it; `turned` reads upwards."""

    line: str
    ticks: str
    words: str
    x: int
    y: int
    turned: bool


@dataclass(frozen=True, slots=True)
class Bar:
    """A scale bar: x of its left end, y of its top, its length in drawing units, and what that length is."""

    x: int
    y: int
    length: int
    words: str


def gap(side: str, room: Rectangle, thick: int, length_nm: int, corner: str, opening: PlanOpening) -> Gap:
    """Where an opening of a wall lies. A wall is measured from its left corner as seen from inside, unless the right
    one is named."""
    start = opening.start_nm
    if is_same(corner, ENDS[side][1]):
        start = length_nm - opening.start_nm - opening.width_nm
    x, y, w, h = room
    along = (w if side in "NS" else h) - 2 * thick
    first, last = (round(at * along / length_nm) for at in (start, start + opening.width_nm))
    if side in "SW":  # looking at it from inside, left is east or south
        first, last = along - last, along - first
    size = max(2, last - first)
    if side in "NS":
        top = y if side == "N" else y + h - thick
        clear = (x + thick + first, y if side == "N" else top - REACH, size, thick + REACH)
        box = (x + thick + first, top, size, thick)
    else:
        left = x if side == "W" else x + w - thick
        clear = (x if side == "W" else left - REACH, y + thick + first, thick + REACH, size)
        box = (left, y + thick + first, thick, size)
    return Gap(opening.kind, clear, box, _lines(opening.kind, box))


def _lines(kind: str, box: Rectangle) -> str:
    """Two panes for a window; a door is left open but for its sill on the outer face, which the frame draws."""
    x, y, w, h = box
    if kind != "window":
        return ""
    if w > h:
        return f"M{x} {y + h // 3}h{w}M{x} {y + 2 * h // 3}h{w}"
    return f"M{x + w // 3} {y}v{h}M{x + 2 * w // 3} {y}v{h}"


def measures(room: Rectangle, thick: int, across_nm: int, down_nm: int, unit: str) -> tuple[Measure, ...]:
    """The inside measures below and to the left of the room."""
    x, y, w, h = room
    left, right, top, bottom = x + thick, x + w - thick, y + thick, y + h - thick
    low, out = y + h + 26, x - 18
    return (
        Measure(
            f"M{left} {low}H{right}M{left} {low - 7}v14M{right} {low - 7}v14",
            _ticks((left, low), (right, low)),
            show_length(across_nm, unit),
            (left + right) // 2,
            low - 6,
            turned=False,
        ),
        Measure(
            f"M{out} {top}V{bottom}M{out - 7} {top}h14M{out - 7} {bottom}h14",
            _ticks((out, top), (out, bottom)),
            show_length(down_nm, unit),
            out - 6,
            (top + bottom) // 2,
            turned=True,
        ),
    )


def _ticks(*places: tuple[int, int]) -> str:
    return "".join(f"M{x - 5} {y + 5}l10 -10" for x, y in places)


def scale_bar(x: int, y: int, units: int, length_nm: int, unit: str) -> Bar:
    """A bar beside a drawing in which `units` stand for `length_nm`: the longest round length of at most a third.

    What is shorter than a foot or a metre has a bar of inches or centimetres.
    """
    imperial = unit in {"ft-in", "in"}
    one = NM_PER_FOOT if imperial else METRE_NM
    steps: Sequence[int] = (1, 2, 4, 8, 16, 32) if imperial else (1, 2, 5, 10, 20)
    name = "ft" if imperial else "m"
    if length_nm < one:
        one, name, steps = (NM_PER_INCH, "in", (1, 2, 4)) if imperial else (NM_PER_CM, "cm", (1, 2, 5, 10, 20))
    most = max(1, length_nm // (3 * one))
    whole = max(step for step in steps if step <= most)
    return Bar(x, y, round(units * whole * one / length_nm), f"{whole} {name}")
