"""Which ends a surface has, and where something lies that was measured from its other end. Lengths in nanometres."""

from typing import Protocol

ENDS = {"N": ("NW", "NE"), "E": ("NE", "SE"), "S": ("SE", "SW"), "W": ("SW", "NW")}
"""left and right corner of a wall that faces so, as seen from inside"""
_OVER = {"N": "S", "S": "N", "E": "W", "W": "E"}


class Surface(Protocol):
    """What a surface says of its ends, as it is kept."""

    @property
    def length_nm(self) -> int | None: ...
    @property
    def origin_corner(self) -> str: ...
    @property
    def far_corner(self) -> str: ...
    @property
    def facing(self) -> str: ...


def ends_of(surface: Surface) -> tuple[str, str]:
    """The corner it is measured from and its other end; empty where neither is said nor follows from its side."""
    left, right = ENDS.get(surface.facing, ("", ""))
    origin = surface.origin_corner
    opposite = left if is_same(origin, right) else right if is_same(origin, left) else ""
    return origin, surface.far_corner or opposite


def is_same(one: str, other: str) -> bool:
    """Whether two names mean one corner: "NE", "ne" and "the NE corner" do."""
    return _bare(one) == _bare(other)


def _bare(name: str) -> str:
    return " ".join(name.casefold().split()).removeprefix("the ").removesuffix(" corner")


def is_known(surface: Surface, corner: str) -> bool:
    """Whether a corner is one of the surface's ends. Where neither end has a name, any name may mean the first."""
    named = [end for end in ends_of(surface) if end]
    return not corner or not named or any(is_same(corner, end) for end in named)


def along(surface: Surface, from_corner: str, x_nm: int | None) -> int | None:
    """Where something lies from the surface's own corner, that is `x_nm` from `from_corner`.

    From the far end it is the length less that, exactly; None while the length is not known. A corner that is neither
    end says nothing else, so it is taken for the first.
    """
    origin, far = ends_of(surface)
    if x_nm is None or not from_corner or is_same(from_corner, origin) or not far or not is_same(from_corner, far):
        return x_nm
    return None if surface.length_nm is None else surface.length_nm - x_nm


def across_corners(origin: str, far: str) -> tuple[str, str]:
    """The other two corners of a plan whose upper edge runs from NW to NE: ("SW", "SE"); empty for other names."""
    one, two = origin.upper(), far.upper()
    compass = {left for left, _ in ENDS.values()}
    shared = set(one) & set(two)
    if one not in compass or two not in compass or len(shared) != 1:
        return "", ""
    letter = shared.pop()
    return one.replace(letter, _OVER[letter]), two.replace(letter, _OVER[letter])
