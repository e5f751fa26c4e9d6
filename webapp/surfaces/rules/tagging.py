"""From the record to what is drawn: the surface with both corners named, and what is hidden in it with short tags."""

from collections import Counter
from collections.abc import Iterable, Iterator, Mapping
from datetime import date
from typing import Protocol

from webapp.surfaces.rules.corners import ends_of
from webapp.surfaces.rules.face import Face, Opening, Point, Run, Thing
from webapp.surfaces.rules.kinds import SERVICE_LETTERS, SurfaceKind

UNLETTERED = {"blocking": "BL", "nail plate": "NP", "strap": "ST", "fireblock": "FB"}
LIKE = "X"
UNMEASURED = "?"
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
    @property
    def from_picture(self) -> bool: ...


class Hole(Protocol):
    """An opening, as it is kept."""

    @property
    def id(self) -> int: ...
    @property
    def kind(self) -> str: ...
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
    @property
    def removed_on(self) -> date | None: ...


class Stretch(Protocol):
    """A run on one surface, as it is kept."""

    @property
    def id(self) -> int: ...
    @property
    def line(self) -> str: ...
    @property
    def label(self) -> str: ...
    @property
    def service(self) -> str: ...
    @property
    def points(self) -> tuple[Point, ...]: ...
    @property
    def line_kind(self) -> str: ...
    @property
    def replaced_on(self) -> date | None: ...


def face_of(surface: Surface, unit: str) -> Face | None:
    """The surface to draw; None until its length and its other measure are known."""
    if not surface.length_nm or not surface.height_nm:
        return None
    corner, far = ends_of(surface)
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
    """What can be drawn of one surface, each with its tag."""
    return tuple(_thing(tag, item) for tag, item in _tagged(items))


def tags_of(items: Iterable[Item]) -> Mapping[int, str]:
    """The short names alone of what can be drawn of one surface, by the ids of the things."""
    return {item.id: tag for tag, item in _tagged(items)}


def _tagged(items: Iterable[Item]) -> Iterator[tuple[str, Item]]:
    """What can be drawn with its tag: E1, E2 by service from the corner on, BL1 for blocking. What was replaced
    is numbered after what is there, so that a tag stays when something is moved. A place read from a picture and not
    measured yet has a question mark."""
    placed = [item for item in items if item.x_nm is not None and item.y_nm is not None]
    placed.sort(key=lambda item: (item.replaced_on is not None, item.x_nm, item.y_nm, item.id))
    count: Counter[str] = Counter()
    for item in placed:
        letters = UNLETTERED.get(item.kind) or SERVICE_LETTERS[item.service].upper() or LIKE
        count[letters] += 1
        yield f"{letters}{count[letters]}{UNMEASURED if item.from_picture else ''}", item


def unmeasured_words(things: Iterable[Thing]) -> str:
    """What a question mark at a tag means; empty where there is none."""
    if not any(thing.tag.endswith(UNMEASURED) for thing in things):
        return ""
    return f"Where a tag has “{UNMEASURED}” the place is read from a picture, not measured."


def openings_of(openings: Iterable[Hole]) -> tuple[Opening, ...]:
    """Openings as they are drawn, those that are there."""
    return tuple(
        Opening(one.id, one.kind, one.name, one.x_nm, one.y_nm, one.width_nm, one.height_nm)
        for one in openings
        if one.removed_on is None
    )


def runs_of(runs: Iterable[Stretch]) -> tuple[Run, ...]:
    """Stretches of cable, pipe and duct as they are drawn, tagged with their circuit or line."""
    return tuple(
        Run(one.id, one.line, one.label, one.service, one.points, one.replaced_on is not None, one.line_kind)
        for one in runs
    )


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
