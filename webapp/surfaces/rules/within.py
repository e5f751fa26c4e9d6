"""What lies outside its surface, as happens when the surface is measured anew: it stays listed and is not drawn."""

from collections.abc import Iterable, Sequence

from webapp.surfaces.rules.face import Opening, Point, Run, Thing


def corners_of(one: Opening) -> tuple[Point, Point]:
    """Lower left and upper right corner of an opening."""
    return (one.x_nm, one.y_nm), (one.x_nm + one.width_nm, one.y_nm + one.height_nm)


def lies_within(length_nm: int | None, height_nm: int | None, points: Iterable[Point]) -> bool:
    """Whether all points lie on a surface of this size; a measure that is not known asks nothing."""
    return all(_fits(x, length_nm) and _fits(y, height_nm) for x, y in points)


def _fits(value: int, most: int | None) -> bool:
    return value >= 0 and (most is None or value <= most)


def names_outside(
    length_nm: int | None,
    height_nm: int | None,
    things: Sequence[Thing],
    openings: Sequence[Opening],
    runs: Sequence[Run],
) -> tuple[str, ...]:
    """What does not lie on a surface of this size, named as in its drawing; what was replaced since is not asked."""
    placed = [
        *((f"{one.tag} {one.label}", ((one.x_nm, one.y_nm),)) for one in things if not one.replaced),
        *((one.name or one.kind, corners_of(one)) for one in openings),
        *((f"{one.tag} {one.label}".strip(), one.points) for one in runs if not one.replaced),
    ]
    return tuple(name for name, points in placed if not lies_within(length_nm, height_nm, points))
