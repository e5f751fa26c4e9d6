"""One-point perspective: inches on and before a wall to places on the sheet."""

from dataclasses import dataclass

from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import INK, OBJECT, WOOD, WOOD_SIDE, Point


@dataclass(frozen=True)
class Camera:
    """Looks straight at a plane; x right, y up, z out of the plane towards the eye, all in inches.

    `look` is the point of the plane in the middle of the sheet, `eye` the point the eye stands before (the vanishing
    point), `away` its distance, `scale` how many units of the sheet an inch of the plane takes.
    """

    look: Point
    eye: Point
    away: float
    scale: float
    middle: Point = (800, 600)

    def at(self, x: float, y: float, z: float = 0.0) -> Point:
        """Where a place is on the sheet; things at or behind the eye are pinned just before it."""
        near = self.away / max(self.away - z, self.away * 0.04)
        side = (x - self.eye[0]) * near + self.eye[0] - self.look[0]
        rise = (y - self.eye[1]) * near + self.eye[1] - self.look[1]
        return (self.middle[0] + side * self.scale, self.middle[1] - rise * self.scale)

    def front(self, x0: float, y0: float, x1: float, y1: float, z: float = 0.0) -> list[Point]:
        """The four corners of an upright rectangle, from the lower left round by the lower right."""
        return [self.at(x0, y0, z), self.at(x1, y0, z), self.at(x1, y1, z), self.at(x0, y1, z)]

    def flat(self, x0: float, z0: float, x1: float, z1: float, y: float = 0.0) -> list[Point]:
        """The four corners of a level rectangle, such as a strip of floor."""
        return [self.at(x0, y, z0), self.at(x1, y, z0), self.at(x1, y, z1), self.at(x0, y, z1)]

    def across(self, x: float, y0: float, z0: float, y1: float, z1: float) -> list[Point]:
        """The four corners of an upright rectangle seen from the side."""
        return [self.at(x, y0, z0), self.at(x, y0, z1), self.at(x, y1, z1), self.at(x, y1, z0)]


@dataclass(frozen=True)
class Block:
    """A squared piece of wood, steel or anything, by its two opposite corners."""

    x0: float
    y0: float
    x1: float
    y1: float
    z0: float = -3.5
    z1: float = 0.0


def draw_sides(pen: Pen, camera: Camera, block: Block, side: str = WOOD_SIDE, width: float = OBJECT) -> None:
    """The faces of a block that look away from the plane, as far as the eye sees them."""
    if block.x0 > camera.eye[0]:
        pen.panel(camera.across(block.x0, block.y0, block.z0, block.y1, block.z1), side, width=width)
    elif block.x1 < camera.eye[0]:
        pen.panel(camera.across(block.x1, block.y0, block.z0, block.y1, block.z1), side, width=width)
    if block.y0 > camera.eye[1]:
        pen.panel(camera.flat(block.x0, block.z0, block.x1, block.z1, block.y0), side, width=width)
    elif block.y1 < camera.eye[1]:
        pen.panel(camera.flat(block.x0, block.z0, block.x1, block.z1, block.y1), side, width=width)


def draw_front(pen: Pen, camera: Camera, block: Block, fill: str = WOOD, width: float = OBJECT) -> None:
    """The face of a block that looks at the eye."""
    pen.panel(camera.front(block.x0, block.y0, block.x1, block.y1, block.z1), fill, INK, width)


def draw_block(pen: Pen, camera: Camera, block: Block, fill: str = WOOD, side: str = WOOD_SIDE) -> None:
    """A whole block, sides first."""
    draw_sides(pen, camera, block, side)
    draw_front(pen, camera, block, fill)
