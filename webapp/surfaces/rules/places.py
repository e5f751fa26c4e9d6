"""Whether a hidden thing lies where its surface is, and words for where it lies."""

from collections.abc import Mapping

from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.values.length import NM_PER_FOOT, NM_PER_M, show_length

ACROSS = {
    SurfaceKind.WALL: "height",
    SurfaceKind.OUTSIDE: "height",
    SurfaceKind.CEILING: "width",
    SurfaceKind.FLOOR: "width",
    SurfaceKind.SLAB: "width",
    SurfaceKind.TRENCH: "depth",
}
"""what the second measure of each kind of surface is called"""

UP = {
    SurfaceKind.WALL: "Above the finished floor",
    SurfaceKind.OUTSIDE: "Above the finished floor",
    SurfaceKind.CEILING: "Across, from the same corner",
    SurfaceKind.FLOOR: "Across, from the same corner",
    SurfaceKind.SLAB: "Across, from the same corner",
    SurfaceKind.TRENCH: "Below grade, to its top",
}
"""what the second offset of a hidden thing is measured along"""


LONGEST_NM = {True: 300 * NM_PER_FOOT, False: 100 * NM_PER_M}
"""no surface of a house is longer: in a build measured in feet and inches, and in a metric one"""


def absurd(nm: int, unit: str) -> str:
    """What is wrong with a length that no surface has, or nothing."""
    imperial = unit in {"ft-in", "in"}
    if abs(nm) <= LONGEST_NM[imperial]:
        return ""
    return (
        f"{show_length(nm, unit)} is longer than any surface here can be; at most {'300 ft' if imperial else '100 m'}."
    )


def outside(
    kind: str, length_nm: int | None, height_nm: int | None, x_nm: int | None, y_nm: int | None, unit: str
) -> Mapping[str, str]:
    """What is wrong with an offset, by field (x, y): below zero or beyond the surface. Unknown measures ask nothing."""
    wrong = {}
    for field, value, most, name in (
        ("x", x_nm, length_nm, "length"),
        ("y", y_nm, height_nm, ACROSS[SurfaceKind(kind)]),
    ):
        if value is None:
            continue
        if value < 0:
            wrong[field] = "Measure from the corner into the surface; this is below zero."
        elif most is not None and value > most:
            wrong[field] = (
                f"{show_length(value, unit)} lies outside: the {name} of this surface is {show_length(most, unit)}."
            )
    return wrong
