"""A long surface in pictures that overlap, clockwise: how many stretches, and how each is called.

One picture for each about 6 ft or 2 m of a framed surface, about 20 ft or 6 m of a trench; each reaches a little into
the next. Common practice, no source.
"""

from dataclasses import dataclass
from fractions import Fraction
from itertools import pairwise

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.values.length import NM_PER_FOOT, NM_PER_M, show_length
from webapp.values.rounding import half_up

MOST = 12
INCHES = {"ft-in", "in"}
_NAMES = {2: ("first half", "second half"), 3: ("first third", "middle third", "last third")}


@dataclass(frozen=True, slots=True)
class Stretch:
    """Number `number` of `of`, from the named corner on; `begin_nm` and `end_nm` without the overlap."""

    number: int
    of: int
    name: str
    words: str
    begin_nm: int
    end_nm: int

    def holds(self, x_nm: int) -> bool:
        """Whether a thing's centre lies in it; the last one also holds its end."""
        return self.begin_nm <= x_nm < self.end_nm or (self.number == self.of and x_nm >= self.end_nm)


def how_many(kind: SurfaceKind, length_nm: int, unit: str) -> int:
    """Stretches of a surface; 1 where one picture takes it all in."""
    each = 2 * NM_PER_M if unit not in INCHES else 6 * NM_PER_FOOT
    if kind == SurfaceKind.TRENCH:
        each = 6 * NM_PER_M if unit not in INCHES else 20 * NM_PER_FOOT
    return min(MOST, max(1, -(-length_nm // each)))


def stretches(kind: SurfaceKind, length_nm: int | None, unit: str, near: str, far: str) -> tuple[Stretch, ...]:
    """From the corner `near` to the corner `far`; none where one picture takes it all in, or its length is unknown."""
    if not length_nm:
        return ()
    count = how_many(kind, length_nm, unit)
    if count == 1:
        return ()
    marks = [length_nm * at // count for at in range(count + 1)]
    told = [_corner(near), *(_rounded(mark, unit) for mark in marks[1:-1]), _corner(far) if far else "the end"]
    names = [_name(at, count) for at in range(count)]
    words = [f"{name.capitalize()}: {told[at]} to {told[at + 1]}"[:200] for at, name in enumerate(names)]
    return tuple(
        Stretch(at + 1, count, names[at], words[at], begin, end) for at, (begin, end) in enumerate(pairwise(marks))
    )


def _name(at: int, count: int) -> str:
    if count in _NAMES:
        return _NAMES[count][at]
    return f"part {at + 1} of {count}"


def _corner(name: str) -> str:
    return f"{name} corner" if 0 < len(name) <= 2 else name or "the corner"


def _rounded(nm: int, unit: str) -> str:
    """To the nearest half foot or tenth of a metre: nobody frames a picture finer."""
    step = NM_PER_FOOT // 2 if unit in INCHES else NM_PER_M // 10
    return show_length(half_up(Fraction(nm, step)) * step, unit)
