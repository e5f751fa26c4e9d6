"""What a scene is made of: three shapes in a frame 1600 wide and 1200 high, and the inks they are drawn in."""

from typing import NamedTuple

WIDTH = 1600
HEIGHT = 1200

THIN = 1.8
OBJECT = 3.4
CUT = 6.0

PAPER = "#f4f0e6"
INK = "#16262f"
INK2 = "#5b676c"
FAINT = "#b3ab97"
SHADE = "#16262f22"
DEEP = "#16262f50"
WOOD = "#f5ead0"
WOOD_SIDE = "#d8c8a4"
SHEATHING = "#e6dcc4"
CONCRETE = "#e2e0d8"
EARTH = "#bfa98a"
EARTH_DARK = "#a38c6c"
STEEL = "#cfd5d7"
PLASTIC = "#b4c6d1"
PIPE = "#e6e6df"
BATT = "#f6ecd2"
SKY = "#e3ebec"
WHITE = "#fbfaf5"
DARK = "#4a565b"
GLOOM = "#a7a394"
TAPE = "#f0d98a"
COPPER = "#b5763a"
ELECTRIC = "#bf1029"
DATA = "#c4661a"
WATER = "#0a5fae"
DRAIN = "#00694a"
AIR = "#7d2391"
COLOURS = {"red": ELECTRIC, "orange": DATA, "blue": WATER, "green": DRAIN, "purple": AIR}

Point = tuple[float, float]


class Line(NamedTuple):
    """A stroke through `points`."""

    points: tuple[Point, ...]
    ink: str
    width: float


class Area(NamedTuple):
    """A filled outline; `fill` may carry two more hexadecimal digits for how dense it is."""

    points: tuple[Point, ...]
    fill: str


class Disc(NamedTuple):
    """A filled circle."""

    centre: Point
    radius: float
    fill: str


Shape = Line | Area | Disc


class Scene(NamedTuple):
    """A picture before it is painted; `subject` names the parts drawn, so that a caption can be held against them."""

    shapes: tuple[Shape, ...]
    subject: frozenset[str]
