"""Close-ups that no elevation shows: a gauge, hangers, a staple, conductors, a rotten stud."""

import math

from webapp.demo.rules.drawing.camera import Block, Camera, draw_block
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.props import CLOTH, SKIN, clock
from webapp.demo.rules.drawing.shapes import (
    CUT,
    DARK,
    DEEP,
    ELECTRIC,
    FAINT,
    INK,
    INK2,
    OBJECT,
    PIPE,
    SHADE,
    SHEATHING,
    SKY,
    STEEL,
    THIN,
    WATER,
    WHITE,
    WOOD,
    WOOD_SIDE,
    Point,
)


def _bay(pen: Pen, camera: Camera, studs: tuple[float, ...]) -> None:
    pen.fill(SHEATHING)
    for x in studs:
        block = Block(x, -60, x + 1.5, 60)
        pen.hatch(camera.front(x + 1.5, -12, x + 3.4, 12, -3.5), 18, 0.7, "#8f8772")
        draw_block(pen, camera, block)
        for share in (0.3, 0.7):
            points = [camera.at(x + 1.5 * share + pen.near(0.08), y) for y in (-12, -4, 4, 12)]
            pen.curve(points, FAINT, THIN)


def gauge(pen: Pen) -> None:
    """A pressure gauge on the supply, its needle at 92, with a telephone showing the time."""
    camera = Camera(look=(0, 0), eye=(-3, 2), away=34, scale=66)
    _bay(pen, camera, (-10.5, 8.6))
    pen.panel(camera.front(-0.5, -12, 0.5, -4.6), PIPE)
    pen.line(camera.at(0, -12), camera.at(0, -4.6), ink=WATER, width=20)
    pen.panel(camera.front(-1, -5.2, 1, -3.2), "#d8b95e")
    centre = camera.at(0, 1)
    pen.disc((centre[0] + 12, centre[1] + 14), 5.0 * camera.scale, "#b9ad90", "#b9ad90")
    pen.disc(centre, 5.0 * camera.scale, STEEL, INK, CUT)
    pen.disc(centre, 4.4 * camera.scale, WHITE)
    for psi in range(0, 161, 4):
        angle = 135 + psi * 270 / 160
        inner = 3.6 if psi % 20 == 0 else 3.9
        ends = [_on_dial(centre, camera.scale * reach, angle) for reach in (inner, 4.2)]
        pen.line(*ends, width=OBJECT if psi % 20 == 0 else THIN, waver=0)
        if psi % 20 == 0:
            pen.letters(str(psi), _on_dial(centre, camera.scale * 3.0, angle), 32)
    needle = 135 + 92 * 270 / 160
    pen.line(_on_dial(centre, -60, needle), _on_dial(centre, camera.scale * 3.7, needle), ink=ELECTRIC, width=9)
    pen.disc(centre, 17, DARK)
    pen.letters("PSI", (centre[0], centre[1] + 108), 34, INK2)
    clock(pen, camera, (6.2, -3.4), "19:30")
    pen.subject |= {"gauge", "clock"}


def _on_dial(centre: Point, reach: float, degrees: float) -> Point:
    angle = math.radians(degrees)
    return (centre[0] + reach * math.cos(angle), centre[1] + reach * math.sin(angle))


def hangers(pen: Pen, *, full: bool) -> None:
    """Three joist hangers on the ledger; every hole filled, or some of them empty."""
    camera = Camera(look=(0, 0), eye=(-2, -6), away=46, scale=58)
    pen.fill("#c9c1ac")
    pen.panel(camera.front(-22, -2.75, 22, 2.75, -2), WOOD)
    for y in (-1.6, 0.2, 1.5):
        pen.curve([camera.at(x, y + pen.near(0.3), -2) for x in (-21, -9, 3, 14, 21)], FAINT, THIN)
    for number, x in enumerate((-12.0, 0.0, 12.0)):
        draw_block(pen, camera, Block(x - 0.75, -2.75, x + 0.75, 2.75, -2, 9))
        for side in (-1, 1):
            flange = sorted((x + side * 0.8, x + side * 2.5))
            pen.panel(camera.front(flange[0], -2.9, flange[1], 2.3, -1.9), STEEL)
            for hole in range(4):
                place = camera.at(x + side * 1.65, -2.2 + hole * 1.25, -1.9)
                empty = not full and (hole + number) % 3 == 0
                pen.disc(place, 9, DARK if empty else "#aab3b7", INK, THIN if empty else OBJECT)
                if not empty:
                    pen.line((place[0] - 4, place[1] - 4), (place[0] + 4, place[1] + 4), width=THIN)
        pen.panel(camera.front(x - 1.0, -3.3, x + 1.0, -2.6, 2.2), STEEL)
    for number, x in enumerate((-12.0, 0.0, 12.0)):
        pen.letters(str(number + 5), camera.at(x + 4.2, 1.6, -1.9), 44, INK2)
    pen.subject |= {"hangers", "every hole filled" if full else "empty holes", "C"}


def staple(pen: Pen, *, flat: bool) -> None:
    """A cable down the side of a stud: on its edge under the old staple, or flat under a new one."""
    camera = Camera(look=(0, 0), eye=(-3, 1), away=24, scale=84)
    _bay(pen, camera, (-1.6,))
    wide = 0.62 if flat else 0.24
    x = 1.0 if flat else 0.75
    points = [camera.at(x + 0.3, 9), camera.at(x + 0.1, 4), camera.at(x, 0), camera.at(x, -9)]
    if not flat:
        points = [
            camera.at(x + 1.0, 9),
            camera.at(x + 0.5, 3.5),
            camera.at(x, 0.4),
            camera.at(x, -1),
            camera.at(x + 0.5, -4),
        ]
        points.append(camera.at(x + 0.9, -9))
    pen.curve(points, INK, wide * camera.scale + 6)
    pen.curve(points, ELECTRIC, wide * camera.scale)
    if not flat:
        for ends in (points[:2], points[-2:]):
            pen.curve(ends, INK, 0.58 * camera.scale + 6)
            pen.curve(ends, ELECTRIC, 0.58 * camera.scale)
    left, right = x - 0.55, x + 0.55
    pen.panel(camera.front(left, -0.32, right, 0.32, 0.3), WHITE if flat else "#d8c27a", INK, CUT)
    for side in (left + 0.08, right - 0.08):
        pen.disc(camera.at(side, 0, 0.4), 9, STEEL)
    if not flat:
        for y in (2.0, -2.4):
            pen.disc(camera.at(-0.9, y, 0.02), 5, DARK, INK, THIN)
    pen.subject |= {"cable", "staple", "flat" if flat else "on edge"}


def feeder(pen: Pen) -> None:
    """The feeder coming out of the top of the bend: four conductors taped together, two pairs of hands."""
    camera = Camera(look=(0, 0), eye=(-4, 3), away=46, scale=44)
    _bay(pen, camera, (-13.5, 10.5))
    pen.panel(camera.front(-1.7, -16, 1.7, -5.0), "#b8bdbe")
    pen.panel(camera.front(-2.1, -6.6, 2.1, -4.8), "#b8bdbe")
    pen.area(camera.front(-1.7, -16, -0.9, -6.6), SHADE)
    for number, ink in enumerate(("#1d1f22", "#1d1f22", WHITE, "#2f7d3c")):
        lean = (number - 1.5) * 0.75
        points = [camera.at(lean * dx, y, 0.4) for dx, y in ((0.9, -5.2), (1.0, -2), (0.7, 1.8), (1.6, 6), (2.8, 11))]
        pen.curve(points, INK, 32)
        pen.curve(points, ink, 25)
    pen.panel(camera.front(-1.6, 0.6, 1.6, 3.2, 0.6), DARK)
    for y in (1.2, 1.9, 2.6):
        pen.line(camera.at(-1.6, y, 0.6), camera.at(1.6, y + 0.2, 0.6), ink=INK2, width=THIN)
    for side, low in ((-1, -1.6), (1, 4.2)):
        palm = [(1.2, 0), (2.6, 1.6), (5.6, 1.8), (8.4, 0.4), (8.0, -2.4), (5.0, -3.2), (2.4, -2.6), (0.6, -1.4)]
        points = [camera.at(side * dx, low + dy, 1) for dx, dy in palm]
        pen.area(points, SKIN)
        pen.curve([*points, points[0]], INK, OBJECT)
        for step in range(3):
            y = low + 0.9 - step * 1.0
            pen.curve([camera.at(side * dx, y + dy, 1) for dx, dy in ((0.4, 0), (1.6, 0.3), (3.4, 0))], INK, THIN)
        cuff = [(7.8, 1.2), (17, 3.4), (17, -5.4), (7.4, -3.0)]
        pen.panel([camera.at(side * dx, low + dy, 1) for dx, dy in cuff], CLOTH)
    pen.subject |= {"conductors", "conduit", "hands"}


def rot(pen: Pen, camera: Camera, at: Point) -> None:
    """The foot of a stud gone soft: dark, split and crumbling."""
    x, y = at
    edge = [(-0.75, 9), (-0.2, 7.4), (0.3, 8.2), (0.75, 6.6), (0.75, -4.4), (-0.75, -4.4)]
    pen.area([camera.at(x + dx, y + dy, 0.05) for dx, dy in edge], "#8f7450")
    for _ in range(26):
        px, py = x + pen.near(0.7), y + pen.random.uniform(-4.2, 6)
        start, end = camera.at(px, py, 0.1), camera.at(px + pen.near(0.15), py - pen.random.uniform(0.5, 2.0), 0.1)
        pen.line(start, end, ink="#54422b", width=pen.random.choice((THIN, OBJECT, 5)))
    for _ in range(34):
        place = camera.at(x + pen.near(4.5), y - 4.4 + abs(pen.near(0.9)), 1.5)
        pen.dot(place, pen.random.uniform(3, 8), pen.random.choice(("#8f7450", "#6f5637")))
    pen.subject.add("rot")


def splice(pen: Pen, camera: Camera, at: Point) -> None:
    """A new length of sill with foam under it and a strap over the joint."""
    x, y = at
    pen.panel(camera.front(x - 24, -0.5, x + 24, 0.1, 0.2), "#7fb0bd")
    pen.panel(camera.front(x, 0.1, x + 24, 1.7, 0.2), "#c9cf9f")
    pen.panel(camera.front(x - 24, 0.1, x, 1.7, 0.2), WOOD)
    pen.line(camera.at(x, 0.1, 0.3), camera.at(x, 1.7, 0.3), width=CUT)
    pen.panel(camera.front(x - 9, 0.3, x + 9, 1.5, 0.4), STEEL)
    for number in range(12):
        place = camera.at(x - 8.3 + number * 1.5, 0.6 + (0.6 if number % 2 else 0), 0.4)
        pen.disc(place, 6, DARK, INK, THIN)
    pen.letters("NEW", camera.at(x + 14, y + 0.1, 0.3), 30, INK2)
    pen.subject |= {"sill", "strap"}


def hole(pen: Pen, camera: Camera, at: Point) -> None:
    """A rough hole in a wall with daylight in it and dust under it."""
    x, y = at
    rim = [(0, 0), (36, 0.6), (35.2, 47), (0.6, 48)]
    pen.panel([camera.at(x + dx, y + dy, -3.4) for dx, dy in rim], SKY, INK, CUT)
    hills = [camera.at(x + dx, y + 15 + pen.near(2), -3.4) for dx in (0, 9, 18, 27, 36)]
    pen.area([*hills, camera.at(x + 36, y, -3.4), camera.at(x, y, -3.4)], "#cfd8cf")
    pen.curve(hills, INK2, OBJECT)
    for stud in (12, 28):
        for low, high in ((y - 4, y + 0.4), (y + 47.6, y + 52)):
            pen.panel(camera.front(x + stud - 0.7, low, x + stud + 0.8, high, 0), WOOD)
    for beside in (-3, 36):
        draw_block(pen, camera, Block(x + beside, 1.5, x + beside + 3, 106))
    draw_block(pen, camera, Block(x - 1.5, y + 48, x + 37.5, y + 53.5), WOOD, WOOD_SIDE)
    for _ in range(60):
        place = camera.at(x + pen.random.uniform(-10, 46), 0, pen.random.uniform(2, 20))
        pen.dot(place, pen.random.uniform(2, 5), "#c3a468")
    pen.area(camera.flat(x, 2, x + 36, 16), DEEP)
    pen.subject.add("opening")
