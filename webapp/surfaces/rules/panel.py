"""Spaces of a panel: read as they are typed, told apart, and laid out as they are met behind the door.

Odd numbers down the left and even ones down the right, so that a breaker of two poles takes 7 and 9: common practice in
North America, no source. Boards numbered in one row take 7 and 8; both are read.
"""

import re
from collections.abc import Iterable, Sequence
from dataclasses import dataclass
from itertools import pairwise
from typing import Protocol

from webapp.plan.rules.cautions import Caution
from webapp.values.errors import BadInput
from webapp.values.words import join_words, plural

CAUTION = Caution(
    "The list in the door must say what is wired",
    (
        "This prints what is on record here, not what is wired. Read it against the breakers, one by one, first.",
        "Name each circuit so that anyone finds it: what it serves and where, no two alike, legible for years.",
    ),
    "NEC 408.4(A), 2023 edition, from memory: each circuit legibly identified as to its clear, evident and specific "
    "purpose",
)
MOST_SPACES = 200
MOST_POLES = 3
COLUMNS = 2

Space = tuple[int, str]
"""number, and the letter of a half space: (7, "A")"""

_SPACE = re.compile(r"(\d{1,3})([A-Za-z]?)", re.ASCII)
_BETWEEN = re.compile(r"\s*(?:[-–,/&+;]|\band\b|\bto\b)\s*|\s+", re.IGNORECASE)


def read_spaces(text: str, poles: int) -> tuple[Space, ...]:
    """The spaces of one breaker, lowest first: `7`, `7-9`, `7,9`, `7A`. Raises BadInput."""
    spaces = [_space(part, text) for part in _BETWEEN.split(text.strip()) if part]
    if not spaces:
        raise BadInput(_example(text))
    spaces = sorted(_filled(spaces, poles))
    named = join_words([show_space(space) for space in spaces])
    if len(set(spaces)) != len(spaces):
        raise BadInput(f"“{text}” names one space twice.")
    if len(spaces) != poles:
        count = plural(len(spaces), "space")
        raise BadInput(f"{named}: that is {count}, and a breaker of {plural(poles, 'pole')} takes {poles}.")
    steps = {after[0] - before[0] for before, after in pairwise(spaces)}
    if all(not half for _, half in spaces) and len(spaces) > 1 and steps not in ({1}, {COLUMNS}):
        raise BadInput(f"{named} are not next to each other, as the spaces of one breaker are.")
    return tuple(spaces)


def _example(text: str) -> str:
    return f"“{text}” names no space. Write its number, such as 7, or 7-9 for a breaker of two poles."


def _space(part: str, text: str) -> Space:
    found = _SPACE.fullmatch(part)
    if found is None:
        raise BadInput(_example(text))
    number = int(found[1])
    if not 1 <= number <= MOST_SPACES:
        raise BadInput(f"A space has a number from 1 to {MOST_SPACES}.")
    return number, found[2].upper()


def _filled(spaces: list[Space], poles: int) -> list[Space]:
    """Of a breaker with three poles the middle space need not be typed: `7-11` is 7, 9 and 11, `7-9` is 7, 8 and 9."""
    if poles != MOST_POLES or len(spaces) != 2 or any(half for _, half in spaces):
        return spaces
    (first, _), (last, _) = sorted(spaces)
    return [(first, ""), ((first + last) // 2, ""), (last, "")] if last - first in {2, 4} else spaces


def show_space(space: Space) -> str:
    return f"{space[0]}{space[1]}"


def show_spaces(spaces: Sequence[Space]) -> str:
    """As they are kept and shown: `7`, `7-9`."""
    return "-".join(show_space(space) for space in spaces)


class Line(Protocol):
    """A circuit or feeder with the spaces it was given, as kept."""

    @property
    def code(self) -> str: ...
    @property
    def number(self) -> str: ...
    @property
    def poles(self) -> int: ...


def spaces_of(line: Line) -> tuple[Space, ...] | None:
    """None where it has none, or where what is kept names none."""
    try:
        return read_spaces(line.number, line.poles) if line.number else None
    except BadInput:
        return None


def same_space(one: Space, other: Space) -> bool:
    """Whether two breakers cannot both be there; two halves of one space can."""
    return one[0] == other[0] and (one[1] == other[1] or not one[1] or not other[1])


def taken(spaces: Iterable[Space], others: Iterable[Line]) -> str:
    """Which space another line has already, in a sentence; empty where all are free."""
    wanted = tuple(spaces)
    for other in others:
        for theirs in spaces_of(other) or ():
            if any(same_space(own, theirs) for own in wanted):
                return f"Space {show_space(theirs)} is taken by {other.code}."
    return ""


@dataclass(frozen=True, slots=True)
class Cell:
    """One place in a column: `line` is the place of the line in what was laid out, None for an empty space; it reaches
    over `spans` rows."""

    spaces: str
    line: int | None
    spans: int


@dataclass(frozen=True, slots=True)
class Row:
    """The left and the right place of a row; None where the one above reaches down."""

    left: Cell | None
    right: Cell | None


def two_columns(lines: Sequence[Line]) -> tuple[Row, ...]:
    """The spaces as they lie in the panel; nothing where they cannot lie so: halves, one row of numbers, two in one
    place, or what names no space."""
    columns: tuple[dict[int, Cell | None], ...] = ({}, {})
    for place, line in enumerate(lines):
        spaces = spaces_of(line)
        if spaces is None or any(half for _, half in spaces) or len({number % COLUMNS for number, _ in spaces}) > 1:
            return ()
        column = columns[(spaces[0][0] - 1) % COLUMNS]
        rows = [(number - 1) // COLUMNS for number, _ in spaces]
        if any(row in column for row in rows):
            return ()
        column |= dict.fromkeys(rows)
        column[rows[0]] = Cell(show_spaces(spaces), place, len(rows))
    last = max((row for column in columns for row in column), default=-1)
    return tuple(Row(*(_cell(column, row, side) for side, column in enumerate(columns))) for row in range(last + 1))


def _cell(column: dict[int, Cell | None], row: int, side: int) -> Cell | None:
    return column[row] if row in column else Cell(str(row * COLUMNS + side + 1), None, 1)
