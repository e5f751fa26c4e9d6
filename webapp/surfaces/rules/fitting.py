"""Whether something can be where it was typed: inside its surface, not in an opening, not where another thing is."""

from collections.abc import Iterable, Mapping, Sequence
from fractions import Fraction
from itertools import pairwise
from typing import Protocol

from webapp.surfaces.rules.face import Run, Thing
from webapp.surfaces.rules.places import outside
from webapp.values.length import show_length
from webapp.values.words import join_words

LEAST_BENDS = 2
NEAREST_NM = 50_800_000
"""2 in: no two boxes have their centres nearer, the narrowest is about that wide (common practice, no source)"""


class Opening(Protocol):
    """Lower left corner and size, in nanometres."""

    @property
    def name(self) -> str: ...
    @property
    def x_nm(self) -> int: ...
    @property
    def y_nm(self) -> int: ...
    @property
    def width_nm(self) -> int: ...
    @property
    def height_nm(self) -> int: ...


def opening_wrong(
    kind: str, length_nm: int | None, height_nm: int | None, one: Opening, others: Iterable[Opening], unit: str
) -> Mapping[str, str]:
    """What is wrong with an opening, by field (x, y, width, height)."""
    wrong = dict(outside(kind, length_nm, height_nm, one.x_nm, one.y_nm, unit))
    far = outside(kind, length_nm, height_nm, one.x_nm + one.width_nm, one.y_nm + one.height_nm, unit)
    for corner, size in (("x", "width"), ("y", "height")):
        if corner in far and corner not in wrong:
            wrong[size] = f"With this size it ends outside. {far[corner]}"
    for other in others:
        if not wrong and _overlap(one, other):
            wrong["x"] = (
                f"“{other.name}” is there already: from {show_length(other.x_nm, unit)} to "
                f"{show_length(other.x_nm + other.width_nm, unit)}."
            )
    return wrong


def _overlap(one: Opening, other: Opening) -> bool:
    return (
        one.x_nm < other.x_nm + other.width_nm
        and other.x_nm < one.x_nm + one.width_nm
        and one.y_nm < other.y_nm + other.height_nm
        and other.y_nm < one.y_nm + one.height_nm
    )


def in_opening(x_nm: int, y_nm: int, openings: Iterable[Opening]) -> Opening | None:
    """The opening in which a point lies, not counting its edge: nothing can be fixed there."""
    for one in openings:
        if one.x_nm < x_nm < one.x_nm + one.width_nm and one.y_nm < y_nm < one.y_nm + one.height_nm:
            return one
    return None


def goes_past(kind: str, width_nm: int | None, one: Opening) -> bool:
    """A row of blocking wider than an opening is cut by it and stands on both its sides."""
    return kind == "blocking" and (width_nm or 0) > one.width_nm


def opening_holds(one: Opening, things: Iterable[Thing], runs: Iterable[Run]) -> str:
    """What would lie in an opening, in a sentence with the names of the drawing; empty where nothing would.

    What was moved or replaced since is in nobody's way.
    """
    within = [
        f"{thing.tag} {thing.label}"
        for thing in things
        if not thing.replaced
        and in_opening(thing.x_nm, thing.y_nm, (one,))
        and not goes_past(thing.kind, thing.width_nm, one)
    ]
    through = [
        f"{run.tag} {run.label}".strip()
        for run in runs
        if not run.replaced and any(_crosses(start, end, one) for start, end in pairwise(run.points))
    ]
    said = []
    if within:
        said.append(f"{join_words(within)} {'lies' if len(within) == 1 else 'lie'} in it")
    if through:
        said.append(f"{join_words(through)} {'goes' if len(through) == 1 else 'go'} through it")
    if not said:
        return ""
    them = "it" if len(within) + len(through) == 1 else "them"
    return f"{', and '.join(said)}: move {them} first, or measure the opening again."


class Box(Protocol):
    """A box by its centre, in nanometres; without both offsets it is nowhere yet."""

    @property
    def label(self) -> str: ...
    @property
    def x_nm(self) -> int | None: ...
    @property
    def y_nm(self) -> int | None: ...


def thing_wrong(x_nm: int | None, y_nm: int | None, openings: Iterable[Opening]) -> str:
    """What is wrong with the place of a hidden thing: nothing is hidden in a hole."""
    if x_nm is None or y_nm is None:
        return ""
    inside = in_opening(x_nm, y_nm, openings)
    if inside is None:
        return ""
    return f"This lies in the opening “{inside.name}”, where nothing can be hidden."


def box_wrong(x_nm: int | None, y_nm: int | None, boxes: Iterable[Box], unit: str) -> str:
    """What is wrong with the place of a box: two cannot be in one."""
    if x_nm is None or y_nm is None:
        return ""
    for other in boxes:
        if other.x_nm is None or other.y_nm is None:
            continue
        if abs(other.x_nm - x_nm) < NEAREST_NM and abs(other.y_nm - y_nm) < NEAREST_NM:
            return f"“{other.label}” is there already, at {show_length(other.x_nm, unit)}. Was one of them mistyped?"
    return ""


def run_wrong(
    kind: str,
    length_nm: int | None,
    height_nm: int | None,
    points: Sequence[tuple[int, int]],
    openings: Iterable[Opening],
    unit: str,
) -> str:
    """What is wrong with the bends of a run, in a sentence; empty when it can be so."""
    if len(points) < LEAST_BENDS:
        return "A run has a start and an end: write at least two lines, one for each bend."
    openings = tuple(openings)
    for number, (x, y) in enumerate(points, 1):
        for sentence in outside(kind, length_nm, height_nm, x, y, unit).values():
            return f"Line {number}: {sentence}"
        inside = in_opening(x, y, openings)
        if inside:
            return f"Line {number} lies in the opening “{inside.name}”."
    for number, (start, end) in enumerate(pairwise(points), 2):
        if start == end:
            return f"Line {number} is the same place as the line before."
        crossed = next((one for one in openings if _crosses(start, end, one)), None)
        if crossed:
            return f"Between lines {number - 1} and {number} it goes through the opening “{crossed.name}”."
    return ""


def _crosses(start: tuple[int, int], end: tuple[int, int], opening: Opening) -> bool:
    """Whether a straight stretch passes through the inside of an opening (its part within each pair of edges)."""
    first, last = Fraction(0), Fraction(1)
    edges = (
        (start[0], end[0], opening.x_nm, opening.x_nm + opening.width_nm),
        (start[1], end[1], opening.y_nm, opening.y_nm + opening.height_nm),
    )
    for begins, ends, low, high in edges:
        if begins == ends:
            if not low < begins < high:
                return False
            continue
        enters, leaves = sorted((Fraction(low - begins, ends - begins), Fraction(high - begins, ends - begins)))
        first, last = max(first, enters), min(last, leaves)
    return first < last
