"""From the record to what is drawn: the surface with both corners named, and what is hidden in it with short tags."""

from collections import Counter
from collections.abc import Iterable
from datetime import date
from typing import Protocol

from webapp.surfaces.rules.face import Face, Thing
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, SurfaceKind

CORNERS = {"N": ("NW", "NE"), "E": ("NE", "SE"), "S": ("SE", "SW"), "W": ("SW", "NW")}
"""left and right corner of a wall that faces so, as seen from inside"""
UNLETTERED = {"blocking": "BL", "nail plate": "NP", "strap": "ST", "fireblock": "FB"}
LIKE = "X"
"""letter of framing and of whatever has no service"""


class Surface(Protocol):
    """The measures of a surface as they are kept."""

    @property
    def code(self) -> str: ...
    @property
    def name(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def length_nm(self) -> int | None: ...
    @property
    def height_nm(self) -> int | None: ...
    @property
    def origin_corner(self) -> str: ...
    @property
    def far_corner(self) -> str: ...
    @property
    def spacing_nm(self) -> int | None: ...
    @property
    def first_stud_nm(self) -> int | None: ...
    @property
    def facing(self) -> str: ...


class Item(Protocol):
    """Something hidden, as it is kept; without both offsets it cannot be drawn."""

    @property
    def id(self) -> int: ...
    @property
    def label(self) -> str: ...
    @property
    def kind(self) -> str: ...
    @property
    def service(self) -> str: ...
    @property
    def x_nm(self) -> int | None: ...
    @property
    def y_nm(self) -> int | None: ...
    @property
    def width_nm(self) -> int | None: ...
    @property
    def replaced_on(self) -> date | None: ...


def face_of(surface: Surface, unit: str) -> Face | None:
    """The surface to draw; None until its length and its other measure are known."""
    if not surface.length_nm or not surface.height_nm:
        return None
    left, right = CORNERS.get(surface.facing, ("", ""))
    corner = surface.origin_corner
    far = left if corner.upper() == right else right if corner.upper() == left else ""
    far = surface.far_corner or far
    return Face(
        code=surface.code,
        name=surface.name,
        kind=SurfaceKind(surface.kind),
        length_nm=surface.length_nm,
        height_nm=surface.height_nm,
        origin_corner=corner,
        far_corner=far,
        spacing_nm=surface.spacing_nm,
        first_stud_nm=surface.first_stud_nm,
        unit=unit,
    )


def things_of(items: Iterable[Item]) -> tuple[Thing, ...]:
    """What can be drawn, each with its tag: E1, E2 by service from the corner on, BL1 for blocking. What was replaced
    is numbered after what is there, so that a tag stays when something is moved."""
    placed = [item for item in items if item.x_nm is not None and item.y_nm is not None]
    placed.sort(key=lambda item: (item.replaced_on is not None, item.x_nm, item.y_nm, item.id))
    count: Counter[str] = Counter()
    found = []
    for item in placed:
        letters = UNLETTERED.get(item.kind) or SERVICE_LETTERS[item.service].upper() or LIKE
        count[letters] += 1
        found.append(_thing(f"{letters}{count[letters]}", item))
    return tuple(found)


def _thing(tag: str, item: Item) -> Thing:
    return Thing(
        id=item.id,
        tag=tag,
        kind=item.kind,
        label=item.label,
        service=item.service,
        x_nm=item.x_nm or 0,
        y_nm=item.y_nm or 0,
        width_nm=item.width_nm,
        replaced=item.replaced_on is not None,
    )
