"""Facts of an east wall for tests of rules: what is in it, in inches from its corner and above the floor."""

from tests.builders import INCH
from webapp.surfaces.rules.face import Face, Run, Thing
from webapp.surfaces.rules.kinds import SurfaceKind

WALL = Face("E", "East wall", SurfaceKind.WALL, 161 * INCH, 109 * INCH, "NE", "SE", 16 * INCH, 12 * INCH, "ft-in")
"""its studs stand at 12 in and every 16 in from there"""


def a_thing(kind: str = "receptacle", x: float = 60, y: float = 16, **more: object) -> Thing:
    values = {"id": 1, "tag": "E1", "label": kind.capitalize(), "service": "electric", "width_nm": None}
    return Thing(kind=kind, x_nm=int(x * INCH), y_nm=int(y * INCH), **(values | {"replaced": False} | more))


def a_run(*points: tuple[float, float], **more: object) -> Run:
    values = {"id": 1, "tag": "C02", "label": "Bench, 12-2", "service": "electric", "replaced": False}
    return Run(points=tuple((int(x * INCH), int(y * INCH)) for x, y in points), **(values | more))
