"""The strip cut out of the slab: its edge, the drain in it, its test, the barrier, the patch."""

from webapp.demo.rules.drawing.camera import Camera
from webapp.demo.rules.drawing.ground import level_pipe, side_on
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.props import clock, level, tape_along, tape_up
from webapp.demo.rules.drawing.shapes import (
    CONCRETE,
    CUT,
    DARK,
    DEEP,
    DRAIN,
    ELECTRIC,
    FAINT,
    HEIGHT,
    INK,
    INK2,
    OBJECT,
    PIPE,
    SHADE,
    STEEL,
    THIN,
    WHITE,
    WIDTH,
    WOOD,
)

_GRAVEL = "#c9c2b2"
_SHEET = "#b9c9cf"


def gravel(pen: Pen, camera: Camera, box: tuple[float, float, float, float], stones: int = 130) -> None:
    """A bed of stones."""
    x0, y0, x1, y1 = box
    pen.area(camera.front(x0, y0, x1, y1), _GRAVEL)
    for _ in range(stones):
        x, y = pen.random.uniform(x0, x1), pen.random.uniform(y0, y1)
        reach = pen.random.uniform(0.25, 0.75)
        place = camera.at(x, y)
        fill = pen.random.choice(("#d9d3c6", "#bdb5a3", "#cfc8b8"))
        pen.disc(place, reach * camera.scale, fill, INK2, THIN)


def concrete(pen: Pen, camera: Camera, box: tuple[float, float, float, float]) -> None:
    """Concrete in section: a tone, triangles and dots."""
    x0, y0, x1, y1 = box
    pen.panel(camera.front(x0, y0, x1, y1), CONCRETE, INK, CUT)
    for _ in range(int((x1 - x0) * (y1 - y0) * 0.9)):
        x, y = pen.random.uniform(x0 + 0.4, x1 - 0.4), pen.random.uniform(y0 + 0.4, y1 - 0.4)
        if pen.random.random() < 0.3:
            corners = [camera.at(x + dx, y + dy) for dx, dy in ((-0.35, -0.25), (0.35, -0.2), (0, 0.35))]
            pen.outline(corners, INK2, THIN)
        else:
            pen.dot(camera.at(x, y), 2.4, INK2)


def edge(pen: Pen) -> None:
    """The sawn edge of the slab with a tape on it: five inches."""
    camera = side_on((0, -1.5), 24)
    pen.fill("#ddd9cd")
    concrete(pen, camera, (-13, -5, 3, 0))
    gravel(pen, camera, (-13, -11, 13, -5))
    for x in range(-12, 3):
        pen.line(camera.at(x + 0.2, -4.9), camera.at(x + 0.9, -0.1), ink=FAINT, width=THIN)
    tape_up(pen, camera, (4.2, -5), 8, 0)
    pen.line(camera.at(2, 0), camera.at(7, 0), width=CUT)
    pen.letters("5", camera.at(8.2, 0), 90)
    pen.subject |= {"slab", "edge"}


def strip(pen: Pen) -> None:
    """Along the whole strip to the wall: pipe on its bed, tape beside it."""
    camera = Camera(look=(0, 20), eye=(5, 44), away=130, scale=11, middle=(800, 330))
    pen.fill("#e6dcc4")
    for x in range(-120, 130, 16):
        pen.panel(camera.front(x, 1.5, x + 1.5, 110), WOOD)
    pen.panel(camera.front(-140, 0, 140, 2.5), WOOD)
    pen.panel(camera.flat(-300, 0, 300, 122), CONCRETE)
    near = 122.0
    pen.area(camera.flat(-9, 0, 9, near), DEEP)
    pen.panel(camera.across(-9, -10, 0, 0, near), "#bdb8a9", INK, OBJECT)
    pen.panel(camera.across(9, -10, 0, 0, near), "#a9a494", INK, OBJECT)
    pen.panel(camera.flat(-9, 0, 9, near, -10), _GRAVEL, INK, OBJECT)
    for _ in range(150):
        z = 118 * pen.random.random() ** 0.6
        place = camera.at(pen.random.uniform(-8.5, 8.5), -10, z)
        pen.disc(place, 3 + z * 0.09, pen.random.choice(("#d9d3c6", "#bdb5a3")), INK2, THIN)
    pen.panel(camera.flat(-3.2, 0, -0.8, near, -8), PIPE, INK, CUT)
    pen.area(camera.flat(-2.3, 0, -1.8, near, -8), DRAIN)
    pen.panel(camera.front(-3.2, -8, -0.8, 14), PIPE)
    pen.line(camera.at(-2, -8), camera.at(-2, 14), ink=DRAIN, width=5)
    pen.panel(camera.flat(3.0, 0, 4.6, near, -9), "#f0d98a")
    for z in range(4, 120, 4):
        pen.line(camera.at(3.0, -9, z), camera.at(4.0 if z % 12 else 4.6, -9, z), width=THIN, waver=0)
        if z % 24 == 0:
            pen.letters(str(z), camera.at(6.4, -9, z), 12 + z * 0.34)
    pen.subject |= {"slab", "drain", "tape"}


def pipe_level(pen: Pen) -> None:
    """A level on the drain, its bubble a touch towards the bend."""
    camera = side_on((0, 0), 30)
    pen.fill("#a9a494")
    gravel(pen, camera, (-16, -13, 16, -1.2), 260)
    concrete(pen, camera, (-16, 6.5, 16, 12))
    level_pipe(pen, camera, (-16, 16, 1.2), 2.4, PIPE, DRAIN)
    pen.panel(camera.front(9, -1.6, 12.4, 1.6), PIPE)
    level(pen, camera, (-2, 1.2), 0.32)
    pen.subject |= {"drain", "slab"}


def riser(pen: Pen) -> None:
    """The filled riser with a pencil line at the water, and a telephone with the time beside it."""
    camera = side_on((0, 0), 22)
    pen.fill("#e6dcc4")
    for x in (-9.0, 7.0):
        pen.panel(camera.front(x, -9, x + 1.5, 9), WOOD)
        pen.hatch(camera.front(x + 1.5, -9, x + 3, 9), 20, 0.6, "#8f8772")
    pen.panel(camera.front(-2.6, -9, 0.2, 6.4), PIPE)
    pen.area(camera.front(-2.6, -9, -2.0, 6.4), SHADE)
    pen.line(camera.at(-1.2, -9), camera.at(-1.2, 6), ink=DRAIN, width=16)
    pen.panel(camera.front(-2.9, 5.2, 0.5, 6.8), PIPE)
    pen.line(camera.at(-2.9, 3.0), camera.at(1.4, 3.0), ink=ELECTRIC, width=8)
    pen.letters("10 FT", camera.at(3.2, 3.0), 46, INK2)
    clock(pen, camera, (4.4, -2.6))
    pen.subject |= {"riser", "drain"}


def barrier(pen: Pen) -> None:
    """From above: the lapped and taped sheet, and dowels out of both sides of the cut."""
    camera = side_on((0, 0), 64)
    pen.fill(CONCRETE)
    for _ in range(200):
        pen.dot((pen.random.uniform(0, WIDTH), pen.random.uniform(0, HEIGHT)), 1.8, FAINT)
    pen.panel(camera.front(-34, -11, 34, 11), _SHEET, INK, CUT)
    for _ in range(16):
        x, y = pen.random.uniform(-30, 28), pen.random.uniform(-9, 9)
        fold = [camera.at(x, y), camera.at(x + 3, y + pen.near(1.4)), camera.at(x + 7, y + pen.near(2))]
        pen.curve(fold, "#8fa3ab", OBJECT)
    for x in (-20.0, 12.0):
        pen.panel(camera.front(x, -11, x + 2.4, 11), "#dfe0d2")
        pen.panel(camera.front(x + 6, -11, x + 6.3, 11), "#9fb2ba", INK2, THIN)
    for x in range(-29, 32, 18):
        for side in (-1, 1):
            pen.panel(camera.front(x - 0.35, side * 8 - 3.2, x + 0.35, side * 8 + 3.2), STEEL)
    tape_along(pen, camera, (-29, -14.5), 54)
    for y in (-11, 11):
        pen.line(camera.at(-34, y), camera.at(34, y), width=CUT + 2)
    pen.subject |= {"barrier", "dowels", "slab"}


def cleanout(pen: Pen) -> None:
    """From above: the cleanout in its strip, with tapes from two walls."""
    camera = side_on((4, 3), 46)
    pen.fill(CONCRETE)
    gravel(pen, camera, (-24, -9, 32, 9), 300)
    for y in (-9, 9):
        pen.line(camera.at(-24, y), camera.at(32, y), width=CUT + 2)
    level_pipe(pen, camera, (-24, 32, 1.2), 2.4, PIPE, DRAIN)
    pen.disc(camera.at(6, 0), 3.0 * camera.scale, PIPE, INK, CUT)
    pen.disc(camera.at(6, 0), 2.2 * camera.scale, WHITE, DRAIN, CUT)
    pen.panel(camera.front(5.3, -0.7, 6.7, 0.7), DARK)
    tape_along(pen, camera, (-18, -4.6), 24, 60)
    tape_up(pen, camera, (10.4, 0), 20, 29, -1)
    pen.subject |= {"cleanout", "slab"}


def float_marks(pen: Pen) -> None:
    """The fresh patch with the sweeps of the float in it."""
    pen.fill("#c9c8c1")
    pen.area([(0, 0), (WIDTH, 0), (WIDTH, 190), (0, 250)], CONCRETE)
    pen.line((0, 250), (WIDTH, 190), width=CUT)
    pen.area([(0, 1050), (WIDTH, 990), (WIDTH, HEIGHT), (0, HEIGHT)], CONCRETE)
    pen.line((0, 1050), (WIDTH, 990), width=CUT)
    for row in range(3):
        for turn in range(7):
            centre = (turn * 260 - 20 + row * 110, 720 + row * 130)
            for reach in (300, 322, 352):
                pen.arc(centre, reach, (228, 306), "#8f8e86" if reach == 322 else "#dddcd6", OBJECT)
    pen.panel([(980, 470), (1290, 400), (1310, 470), (1000, 545)], STEEL)
    pen.line((1145, 440), (1235, 330), (1370, 300), width=20, ink=DARK)
    pen.subject |= {"slab", "float"}


def puddle(pen: Pen) -> None:
    """Rain water standing in the strip, a bucket and a pair of good shoes."""
    pen.fill(CONCRETE)
    strip_edge = [(260, 0), (1010, 0), (1290, HEIGHT), (-40, HEIGHT)]
    pen.panel(strip_edge, "#8f8a7c", INK, CUT)
    water = [(330, 120), (960, 90), (1150, 700), (1180, HEIGHT), (60, HEIGHT), (130, 640)]
    pen.area(water, "#a9bcc4")
    pen.curve(water, INK2, OBJECT)
    for _ in range(26):
        x, y = pen.random.uniform(260, 1000), pen.random.uniform(160, 1120)
        pen.curve([(x - 60, y), (x - 20, y - 8), (x + 20, y + 6), (x + 60, y)], WHITE, OBJECT)
    pen.panel([(1130, 470), (1450, 470), (1400, 830), (1180, 830)], "#c2ccd0")
    pen.curve([(1130, 470), (1290, 440), (1450, 470), (1290, 505), (1130, 470)], INK, OBJECT)
    pen.curve([(1135, 475), (1200, 300), (1380, 300), (1446, 475)], INK, 7)
    for left in (1230, 1400):
        shoe = [(left, 960), (left + 60, 940), (left + 84, 1000), (left + 150, 1060), (left + 150, 1110), (left, 1110)]
        pen.panel(shoe, "#6b4f3a")
        pen.line((left, 1112), (left + 152, 1112), width=12)
        for step in range(3):
            pen.line((left + 66 + step * 18, 992 + step * 18), (left + 96 + step * 18, 976 + step * 20), ink=WHITE)
    pen.subject |= {"water", "bucket", "shoes"}
