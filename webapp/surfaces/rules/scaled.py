"""A scale from two spots of a picture whose place on the wall is known, and what that says of a third.

The picture is taken to be square on to the wall: it is moved, turned and brought to size as a whole. In truth it never
quite is, so what comes out is a proposal and no measure. Numbers are exact until the last step.
"""

from dataclasses import dataclass
from fractions import Fraction

from webapp.values.length import NM_PER_INCH

MILLION = 1_000_000
TURNED = "Those two spots would turn the picture by more than half a right angle. Are they the right way round?"
SAME = "The two known spots are the same. Tap two that lie apart, the further the better."
HALF_INCH, CENTIMETRE = NM_PER_INCH // 2, 10_000_000


@dataclass(frozen=True, slots=True)
class Spot:
    """A place in a picture, in millionths of its width from the left and of its height from the top."""

    across: int
    down: int


@dataclass(frozen=True, slots=True)
class Known:
    """A spot whose offsets on the wall are known: from its own corner, and up, in nanometres."""

    spot: Spot
    x_nm: int
    y_nm: int


def trouble(first: Known, second: Known, width: int, height: int) -> str:
    """Why these two give no scale, as a sentence; empty where they do."""
    (u, v), (x, y) = _between(first, second, width, height)
    if (u, v) == (0, 0) or (x, y) == (0, 0):
        return SAME
    along, across = x * u + y * v, y * u - x * v
    return TURNED if along <= abs(across) else ""


def proposed(first: Known, second: Known, width: int, height: int, spot: Spot) -> tuple[int, int]:
    """Offsets of a third spot, in nanometres. `width` and `height`: of the picture, in pixels, upright.

    As complex numbers: the wall is the picture times (w2 - w1) / (z2 - z1), laid on the first spot.
    """
    (u, v), (x, y) = _between(first, second, width, height)
    size = u * u + v * v
    real, turned = Fraction(x * u + y * v, size), Fraction(y * u - x * v, size)
    p, q = _pixels(spot, width, height)
    p0, q0 = _pixels(first.spot, width, height)
    p, q = p - p0, q - q0
    return round(first.x_nm + real * p - turned * q), round(first.y_nm + real * q + turned * p)


def _pixels(spot: Spot, width: int, height: int) -> tuple[int, int]:
    """Millionths of a pixel to the right and, as on a wall, upwards."""
    return spot.across * width, (MILLION - spot.down) * height


def _between(first: Known, second: Known, width: int, height: int) -> tuple[tuple[int, int], tuple[int, int]]:
    (u1, v1), (u2, v2) = _pixels(first.spot, width, height), _pixels(second.spot, width, height)
    return (u2 - u1, v2 - v1), (second.x_nm - first.x_nm, second.y_nm - first.y_nm)


def about(nm: int, metric: bool) -> int:
    """To half an inch or a centimetre: a picture says no more."""
    step = CENTIMETRE if metric else HALF_INCH
    return (2 * nm + step) // (2 * step) * step
