"""What a drawing of one surface is made from: plain facts, lengths in whole nanometres.

x runs from the named corner along the surface, y up from the finished floor; on a ceiling, floor or slab y runs across
from the same corner, in a trench down from grade.
"""

from dataclasses import dataclass

from webapp.surfaces.rules.kinds import SurfaceKind

STUD_NM = 38_100_000
"""1 1/2 in: the dressed thickness of nominal 2-inch lumber (PS 20, American Softwood Lumber Standard, Table 3, from
memory)"""

Point = tuple[int, int]


@dataclass(frozen=True, slots=True)
class Face:
    """The surface itself. `first_stud_nm` is the centre of the first stud from the corner, `spacing_nm` on centre."""

    code: str
    name: str
    kind: SurfaceKind
    length_nm: int
    height_nm: int
    origin_corner: str
    far_corner: str
    spacing_nm: int | None
    first_stud_nm: int | None
    unit: str


@dataclass(frozen=True, slots=True)
class Opening:
    """A door, window, hatch or sleeve by its lower left corner and its rough size."""

    id: int
    kind: str
    name: str
    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int


@dataclass(frozen=True, slots=True)
class Thing:
    """Something hidden, by its centre. `tag` is its short name in the drawing: E1. `replaced`: it was moved since."""

    id: int
    tag: str
    kind: str
    label: str
    service: str
    x_nm: int
    y_nm: int
    width_nm: int | None
    replaced: bool


@dataclass(frozen=True, slots=True)
class Run:
    """A cable, pipe or duct on this surface: `points` from bend to bend. `tag` names its circuit or line: C1.

    `line_kind` is the kind of that line: warning tape and tracer wire are drawn as such.
    """

    id: int
    tag: str
    label: str
    service: str
    points: tuple[Point, ...]
    replaced: bool
    line_kind: str = ""
