"""The two faces of one wall: which belong together, and what is in the other one as it lies in this one.

Who stands before one face has the corner that is left here on the right there. So a measure from the other face's own
corner is counted from the other end here, but where both faces are measured from the corner of the same name.
"""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from typing import Protocol, TypeVar

from webapp.surfaces.rules.face import Face, Run, Thing
from webapp.surfaces.rules.framing import UPRIGHT
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.values.length import NM_PER_INCH, show_length

APART_NM = NM_PER_INCH
"""by so much two measures of one wall may differ (common practice, no source)"""


class Surface(Protocol):
    """What is said of a surface; `back_of_id` is said on one face of the two."""

    @property
    def id(self) -> int: ...
    @property
    def name(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def length_nm(self) -> int | None: ...
    @property
    def back_of_id(self) -> int | None: ...


Some = TypeVar("Some", bound=Surface)


def other_face(one: Surface, surfaces: Iterable[Some]) -> Some | None:
    """The other face of the same wall, whichever of the two says so."""
    for other in surfaces:
        if other.id != one.id and (one.back_of_id == other.id or other.back_of_id == one.id):
            return other
    return None


def can_have_back(kind: str) -> bool:
    return SurfaceKind(kind) in UPRIGHT


def back_wrong(one: Surface, other: Surface, surfaces: Sequence[Surface], unit: str) -> str:
    """Why `other` cannot be the other face of `one`; empty where it can."""
    if other.id == one.id:
        return "A wall cannot be its own other face. Choose the one that is seen from the other side."
    for which in (one, other):
        if not can_have_back(which.kind):
            return f"{which.name} is a {which.kind}. Only a wall has another face."
    known = other_face(other, surfaces)
    if known is not None and known.id != one.id:
        return f"{other.name} is the other face of {known.name} already. Take that away there first."
    if one.length_nm is not None and other.length_nm is not None and abs(one.length_nm - other.length_nm) > APART_NM:
        lengths = f"{show_length(other.length_nm, unit)} long, this one {show_length(one.length_nm, unit)}"
        return f"{other.name} is {lengths}. Two faces of one wall are of one length; measure again, or choose another."
    return ""


def turned(x_nm: int, length_nm: int, other_nm: int, same_corner: bool) -> int:
    """An offset on one face as it is on the other; turned twice it is the same again.

    Where both lengths differ a little, half the difference goes to either end.
    """
    return x_nm if same_corner else (length_nm + other_nm) // 2 - x_nm


def is_same_corner(one: Face, other: Face) -> bool:
    return bool(one.origin_corner) and one.origin_corner.strip().casefold() == other.origin_corner.strip().casefold()


def seen_through(
    face: Face, other: Face, things: Iterable[Thing], runs: Iterable[Run]
) -> tuple[tuple[Thing, ...], tuple[Run, ...]]:
    """What is in the other face and not replaced, by the offsets of this one. It stays within this face's edges."""
    same = is_same_corner(face, other)

    def here(x: int, y: int) -> tuple[int, int]:
        x = turned(x, face.length_nm, other.length_nm, same)
        return min(max(x, 0), face.length_nm), min(y, face.height_nm)

    lying = []
    for one in things:
        if not one.replaced:
            x, y = here(one.x_nm, one.y_nm)
            lying.append(replace(one, x_nm=x, y_nm=y))
    led = (replace(run, points=tuple(here(*point) for point in run.points)) for run in runs if not run.replaced)
    return tuple(lying), tuple(led)
