"""Points of a trench or slab found again from two fixed points, and how a drawing letters them. Lengths in nanometres.

Two points of a line and one fixed point make a triangle, so no side is longer than the two others together (Euclid,
Elements, book I, proposition 20). How far apart the two fixed points are is not on record, so the two ties of one point
cannot be checked against each other; two points tied to the same fixed point can.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from string import ascii_uppercase
from typing import Protocol

from webapp.surfaces.rules.kinds import SurfaceKind

TIED = {SurfaceKind.TRENCH, SurfaceKind.SLAB, SurfaceKind.FLOOR}
"""what is found again from outside once it is closed"""
SLACK_NM = 6 * 25_400_000
"""6 in: what two tapes over rough ground may differ (common practice, no source)"""


class Tie(Protocol):
    """A point `x_nm` along its surface, `a_nm` from one fixed point and `b_nm` from another."""

    @property
    def name(self) -> str: ...
    @property
    def x_nm(self) -> int: ...
    @property
    def from_a(self) -> str: ...
    @property
    def a_nm(self) -> int: ...
    @property
    def from_b(self) -> str: ...
    @property
    def b_nm(self) -> int: ...


@dataclass(frozen=True, slots=True)
class Apart:
    """Two points tied to one fixed point: its name, the other point, how far apart both lie along the surface, and by
    how much their ties differ or how long they are together."""

    field: str
    fixed: str
    other: str
    along_nm: int
    ties_nm: int


def same_point(one: str, other: str) -> bool:
    return " ".join(one.casefold().split()) == " ".join(other.casefold().split())


def _ties(tie: Tie) -> tuple[tuple[str, str, int], ...]:
    return ("a", tie.from_a, tie.a_nm), ("b", tie.from_b, tie.b_nm)


def too_far_apart(kind: str, tie: Tie, others: Sequence[Tie]) -> Apart | None:
    """The first pair that cannot be, however a trench runs: its ties differ by more than the points lie apart along it.

    Only in a trench: on a slab two points also lie apart across it, and that is not on record.
    """
    if kind != SurfaceKind.TRENCH:
        return None
    for field, fixed, distance in _ties(tie):
        for other in others:
            for _, name, known in _ties(other):
                apart = abs(tie.x_nm - other.x_nm)
                if same_point(fixed, name) and abs(distance - known) > apart + SLACK_NM:
                    return Apart(field, fixed, other.name, apart, abs(distance - known))
    return None


def bends_between(kind: str, ties: Sequence[Tie]) -> tuple[Apart, ...]:
    """Pairs of neighbours that lie farther apart along a trench than their ties reach: it bends between them, or a
    length is wrong. A bend is no mistake, so this is a hint."""
    if kind != SurfaceKind.TRENCH:
        return ()
    ordered, found = sorted(ties, key=lambda tie: tie.x_nm), []
    for at, tie in enumerate(ordered):
        for other in ordered[at + 1 :]:
            for field, fixed, distance in _ties(tie):
                for _, name, known in _ties(other):
                    apart = other.x_nm - tie.x_nm
                    if same_point(fixed, name) and apart > distance + known + SLACK_NM:
                        found.append(Apart(field, fixed, f"{tie.name} and {other.name}", apart, distance + known))
    return tuple(found)


def lettered(ties: Sequence[Tie]) -> dict[str, str]:
    """A letter for each fixed point in the order they are first named: {"corner of the porch": "A"}."""
    names: list[str] = []
    for tie in ties:
        for _, fixed, _ in _ties(tie):
            if not any(same_point(fixed, name) for name in names):
                names.append(fixed)
    return {name: _letter(at) for at, name in enumerate(names)}


def _letter(at: int) -> str:
    """A to Z, then A2, B2."""
    turn, place = divmod(at, len(ascii_uppercase))
    return f"{ascii_uppercase[place]}{turn + 1 if turn else ''}"


def letter_of(letters: dict[str, str], fixed: str) -> str:
    return next(letter for name, letter in letters.items() if same_point(name, fixed))
