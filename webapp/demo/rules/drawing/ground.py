"""The feeder trench and the cut in the slab, from the side, from above and along their length."""

from webapp.demo.rules.drawing.camera import Camera
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.props import tape_along
from webapp.demo.rules.drawing.shapes import (
    CONCRETE,
    COPPER,
    CUT,
    DARK,
    DEEP,
    DRAIN,
    EARTH,
    EARTH_DARK,
    ELECTRIC,
    FAINT,
    INK,
    INK2,
    OBJECT,
    SHADE,
    STEEL,
    THIN,
    WATER,
    WHITE,
    WIDTH,
    Point,
)

_GRASS = "#7d8c5c"
_SAND = "#e2cf9f"


def side_on(look: Point, wide: float) -> Camera:
    """Straight at a cut face: x along it, y up, nothing nearer or farther."""
    return Camera(look=look, eye=look, away=1e6, scale=WIDTH / wide)


def earth(pen: Pen, camera: Camera, x0: float, x1: float, top: float, bottom: float) -> None:
    """Soil in section: tone, layers, stones, and grass along the top."""
    pen.area(camera.front(x0, bottom, x1, top), EARTH)
    pen.area(camera.front(x0, bottom, x1, bottom + (top - bottom) * 0.4), SHADE)
    for _ in range(70):
        x, y = pen.random.uniform(x0, x1), pen.random.uniform(bottom, top - 1)
        if pen.random.random() < 0.35:
            reach = pen.random.uniform(0.3, 1.1)
            stone = [(-1, -0.4), (-0.3, 0.6), (0.7, 0.5), (1, -0.2), (0.2, -0.7)]
            pen.panel([camera.at(x + dx * reach, y + dy * reach) for dx, dy in stone], "#cdbda0", INK2, THIN)
        else:
            for step in range(3):
                start = camera.at(x + step * 0.5, y)
                pen.line(start, (start[0] + 16, start[1] - 22), ink=EARTH_DARK, width=2.4)
    turf = [camera.at(x0 + (x1 - x0) * step / 40, top + pen.near(0.25)) for step in range(41)]
    pen.line(*turf, ink=_GRASS, width=9)
    for step in range(90):
        x, y = camera.at(x0 + (x1 - x0) * step / 90, top)
        pen.line((x, y), (x + pen.near(10), y - pen.random.uniform(10, 34)), ink=_GRASS, width=3)


def level_pipe(pen: Pen, camera: Camera, run: tuple[float, float, float], wide: float, fill: str, ink: str) -> None:
    """A pipe or conduit lying level: `run` is its left end, right end and the height of its top."""
    x0, x1, top = run
    pen.panel(camera.front(x0, top - wide, x1, top), fill)
    pen.area(camera.front(x0, top - wide, x1, top - wide * 0.68), SHADE)
    pen.line(camera.at(x0, top - wide * 0.3), camera.at(x1, top - wide * 0.3), ink=WHITE, width=4)
    if ink:
        pen.line(
            camera.at(x0, top - wide * 0.5), camera.at(x1, top - wide * 0.5), ink=ink, width=wide * 0.16 * camera.scale
        )


def coupling(pen: Pen, camera: Camera, x: float, top: float, wide: float, fill: str) -> None:
    """A sleeve joint on a level pipe."""
    pen.panel(camera.front(x - 1.6, top - wide - 0.22, x + 1.6, top + 0.22), fill)
    pen.line(camera.at(x, top - wide - 0.2), camera.at(x, top + 0.2), ink=INK2, width=THIN)


def trench_side(pen: Pen, view: str) -> None:
    """The trench face with the power conduit at 24 inches; `view` says at which place."""
    camera = side_on((0, -14.5), 50)
    pen.fill("#e8ebe6")
    earth(pen, camera, -26, 26, 0, -34)
    pen.area(camera.front(-26, -34, 26, -27.2), _SAND)
    for _ in range(120):
        pen.dot(camera.at(pen.random.uniform(-25, 25), pen.random.uniform(-33, -27.5)), 2.2, EARTH_DARK)
    grey = "#aeb4b5"
    if view == "garage end":
        _bend(pen, camera, grey)
    elif view == "house end":
        _house_foot(pen, camera)
        level_pipe(pen, camera, (-15, 26, -24), 1.66, grey, ELECTRIC)
    else:
        level_pipe(pen, camera, (-26, 26, -24), 1.66, grey, ELECTRIC)
    if view == "warning":
        _warning_tape(pen, camera)
    if view == "crossing":
        pen.disc(camera.at(5, -30.2), 1.3 * camera.scale, WATER)
        pen.disc(camera.at(5, -30.2), 0.85 * camera.scale, DARK)
        _tape_down(pen, camera, 5, 29)
        pen.subject.add("water sleeve")
    coupling(pen, camera, -6 if view != "house end" else 18, -24, 1.66, grey)
    _tape_down(pen, camera, -1.5, 12 if view == "warning" else 24)
    pen.subject |= {"trench", "conduit", view}


def _tape_down(pen: Pen, camera: Camera, x: float, depth: int) -> None:
    """A tape held from grade down to the top of something, a figure at every fourth inch."""
    pen.panel(camera.front(x - 0.6, -depth, x + 0.6, 4), "#f0d98a")
    for mark in range(depth + 1):
        reach = 0.6 if mark % 4 == 0 else 0.35
        pen.line(camera.at(x - 0.6, -mark), camera.at(x - 0.6 + reach, -mark), width=THIN, waver=0)
        last = mark == depth
        if last or (mark % 4 == 0 and 0 < mark < depth - 1):
            pen.letters(str(mark), camera.at(x + (2.2 if last else 1.6), -mark + 0.1), 44 if last else 24, INK)
    pen.line(camera.at(x - 4, 0), camera.at(x + 4, 0), width=CUT)
    pen.subject.add("tape")


def _bend(pen: Pen, camera: Camera, grey: str) -> None:
    """The conduit turns up a wall in a long bend."""
    pen.area(camera.front(14, -34, 26, 8), CONCRETE)
    pen.line(camera.at(14, -34), camera.at(14, 8), width=CUT)
    sweep = [(-26, -24.8), (-4, -24.8), (3, -24.6), (8, -22.4), (10.6, -17.5), (11, -11), (11, 8)]
    points = [camera.at(*place) for place in sweep]
    pen.curve(points, INK, 1.66 * camera.scale + 7)
    pen.curve(points, grey, 1.66 * camera.scale)
    pen.curve(points, ELECTRIC, 0.26 * camera.scale)


def _house_foot(pen: Pen, camera: Camera) -> None:
    """The foot of the house wall with the hole the conduit leaves by."""
    pen.area(camera.front(-26, -34, -15, 8), CONCRETE)
    pen.line(camera.at(-15, -34), camera.at(-15, 8), width=CUT)
    for y in range(-30, 8, 8):
        pen.line(camera.at(-26, y), camera.at(-15, y), ink=INK2, width=THIN)
    pen.disc(camera.at(-15, -24.8), 1.5 * camera.scale, DARK)


def _warning_tape(pen: Pen, camera: Camera) -> None:
    """The warning tape, lying in folds at twelve inches, and the last heap of fill beside it."""
    top = [(-26 + step * 4, -12 + pen.near(0.5)) for step in range(14)]
    points = [camera.at(*place) for place in top]
    pen.curve(points, INK, 46)
    pen.curve(points, "#d8404f", 40)
    for x, y in top[1:]:
        pen.line(camera.at(x - 0.5, y - 0.5), camera.at(x + 0.5, y + 0.5), ink=WHITE, width=9)
    heap = [camera.at(x, y) for x, y in ((8, 0.4), (12, 4.5), (16, 6.2), (21, 5.4), (26, 6), (26, 0.4))]
    pen.area(heap, EARTH_DARK)
    pen.curve(heap[:-1], INK, OBJECT)
    pen.subject.add("warning tape")


def joint(pen: Pen) -> None:
    """A glued joint, and the sawn-out one beside it."""
    camera = side_on((0, 0), 26)
    pen.fill(_SAND)
    for _ in range(260):
        pen.dot(camera.at(pen.random.uniform(-13, 13), pen.random.uniform(-10, 10)), 2.4, EARTH_DARK)
    grey = "#aeb4b5"
    level_pipe(pen, camera, (-14, 14, 1.5), 1.66, grey, ELECTRIC)
    coupling(pen, camera, 1, 1.5, 1.66, grey)
    pen.curve([camera.at(-0.8, 1.9), camera.at(-0.7, 0.6), camera.at(-0.75, -0.4)], DRAIN, 8)
    level_pipe(pen, camera, (-5, 1.6, -3.4), 1.66, grey, "")
    coupling(pen, camera, -2, -3.4, 1.66, grey)
    for side in (-5.0, 1.6):
        teeth = [camera.at(side + (0.14 if step % 2 else 0), -3.4 - 1.66 * step / 8) for step in range(9)]
        pen.line(*teeth, width=OBJECT)
    pen.subject |= {"trench", "conduit", "joint"}


def rod(pen: Pen, other: bool) -> None:
    """A ground rod with its clamp and bare wire, and a tape to the wall or to the other rod."""
    camera = side_on((-36, -2), 96) if other else side_on((0, -2), 44)
    pen.fill("#e3ded0")
    left = -86 if other else -24
    for x in range(left, 24, 6):
        pen.line(camera.at(x, 3), camera.at(x, 40), ink=FAINT, width=THIN)
    pen.panel(camera.front(left, 2, 24, 6), CONCRETE)
    earth(pen, camera, left, 24, 1.6, -40)
    for x in (-72, 0) if other else (0,):
        _driven(pen, camera, x)
    wire = (
        [(0.9, -3.8), (-6, -5), (-24, -4.2), (-48, -5.4), (-71, -4)]
        if other
        else [(0.9, -3.8), (-3, -2.6), (-8, -3.2), (-14, -1), (-24, -1.6)]
    )
    pen.curve([camera.at(*place) for place in wire], COPPER, 0.45 * camera.scale)
    if other:
        _long_tape(pen, camera)
    else:
        tape_along(pen, camera, (-16, -0.6), 16)
    pen.subject |= {"ground rod", "clamp"}


def _driven(pen: Pen, camera: Camera, x: float) -> None:
    """A rod in its small pit, the clamp tight on it."""
    pit = [camera.at(x + dx, y) for dx, y in ((-10, 1.4), (-7.5, -4), (0, -6), (8, -4.4), (10.5, 1.4))]
    pen.area(pit, EARTH_DARK)
    pen.curve(pit, INK, OBJECT)
    pen.panel(camera.front(x - 0.5, -40, x + 0.5, -1.6), COPPER)
    pen.line(camera.at(x - 0.2, -39), camera.at(x - 0.2, -2), ink="#e0a86e", width=5)
    pen.panel(camera.front(x - 1.1, -4.8, x + 1.5, -3.2), "#c79a52")
    pen.disc(camera.at(x + 2.2, -4.0), 0.7 * camera.scale, STEEL)


def _long_tape(pen: Pen, camera: Camera) -> None:
    """A tape from rod to rod: seventy-two inches."""
    pen.panel(camera.front(-72, -0.6, 0.6, 1.2), "#f0d98a")
    for mark in range(73):
        reach = 1.1 if mark % 12 == 0 else 0.6
        pen.line(camera.at(-72 + mark, 1.2), camera.at(-72 + mark, 1.2 - reach), width=THIN, waver=0)
        if mark % 12 == 0 and mark:
            pen.letters(str(mark), camera.at(-72 + mark - 2, 3.4), 40 if mark == 72 else 26)
    pen.subject.add("tape")


def trench_long(pen: Pen) -> None:
    """Along the open trench to the house, both conduits in it and the tape lying over them."""
    camera = Camera(look=(0, 20), eye=(10, 74), away=700, scale=2.3, middle=(760, 400))
    pen.fill("#e6ecec")
    pen.area([camera.at(-3000, 0), camera.at(3000, 0), (WIDTH, 1200), (0, 1200)], "#b9c29a")
    house(pen, camera)
    near = 668.0
    for x0, x1, fill in ((-70, -12, EARTH_DARK), (14, 17, EARTH)):
        pen.area(camera.flat(x0, 30, x1, near), fill)
    pen.area(camera.flat(-11, 0, 11, near), DEEP)
    pen.panel(camera.across(-11, -26, 0, 0, near), EARTH, INK, OBJECT)
    pen.panel(camera.across(11, -26, 0, 0, near), EARTH_DARK, INK, OBJECT)
    pen.panel(camera.flat(-11, 0, 11, near, -26), _SAND, INK, OBJECT)
    for _ in range(60):
        z, y = pen.random.uniform(150, near), pen.random.uniform(-24, -2)
        side = pen.random.choice((-11, 11))
        pen.line(camera.at(side, y, z), camera.at(side, y + 1, min(near, z + 12)), ink=INK2, width=THIN)
    for x, wide, ink in ((-6, 1.66, ELECTRIC), (6, 1.3, "#c4661a")):
        pen.panel(camera.flat(x - wide / 2, 0, x + wide / 2, near, -24), "#b8bdbe")
        pen.area(camera.flat(x - 0.22, 0, x + 0.22, near, -24), ink)
    pen.panel(camera.flat(-1.3, 60, 0.5, near, -25), "#f0d98a")
    for z in range(120, 660, 12):
        pen.line(camera.at(-1.3, -25, z), camera.at(-0.2, -25, z), width=THIN, waver=0)
    _spoil(pen, camera)
    pen.subject |= {"trench", "conduit", "tape", "house"}


def house(pen: Pen, camera: Camera) -> None:
    """A plain house front with a door; no number is drawn that anybody could read."""
    pen.panel(camera.front(-190, 0, 170, 96), "#f1ede2")
    for y in range(8, 96, 8):
        pen.line(camera.at(-190, y), camera.at(170, y), ink=FAINT, width=THIN)
    roof = [camera.at(-215, 92), camera.at(195, 92), camera.at(150, 168), camera.at(-170, 168)]
    pen.panel(roof, "#a9aaa3")
    pen.hatch(roof, 22, 0.5, INK2)
    pen.panel(camera.front(40, 0, 76, 80), "#8d9aa0")
    pen.panel(camera.front(82, 50, 92, 56), WHITE, INK2, THIN)
    for x in (-160, -90, 110):
        pen.panel(camera.front(x, 34, x + 40, 76), "#cfdadd")
        pen.line(camera.at(x + 20, 34), camera.at(x + 20, 76), width=OBJECT)


def _spoil(pen: Pen, camera: Camera) -> None:
    """The heap along the left edge."""
    ridge = [camera.at(-44 + pen.near(5), 12 + pen.near(3), z) for z in range(60, 640, 50)]
    foot = [camera.at(-14, 0, z) for z in range(610, 30, -50)]
    pen.area([*ridge, *foot], "#b49a76")
    pen.curve(ridge, INK, OBJECT)


def digger(pen: Pen) -> None:
    """A small digger opening the line beside the house."""
    camera = side_on((0, 30), 150)
    pen.fill("#e6ecec")
    pen.panel(camera.front(-80, 0, -46, 96), "#f1ede2")
    for y in range(8, 96, 8):
        pen.line(camera.at(-80, y), camera.at(-46, y), ink=FAINT, width=THIN)
    earth(pen, camera, -80, 80, 0, -32)
    cut = [camera.at(*p) for p in ((-46, 0.5), (-45, -24), (-12, -25), (-6, -14), (-2, 0.5))]
    pen.area(cut, EARTH_DARK)
    pen.curve(cut, INK, CUT)
    body = "#d9b44f"
    pen.panel([camera.at(*p) for p in ((14, 1), (58, 1), (60, 8), (56, 13), (16, 13), (12, 8))], DARK)
    for x in range(18, 58, 8):
        pen.disc(camera.at(x, 6.5), 34, STEEL)
    pen.panel([camera.at(*p) for p in ((16, 14), (60, 14), (62, 30), (40, 34), (18, 24))], body)
    pen.panel([camera.at(*p) for p in ((22, 28), (42, 32), (42, 60), (26, 60))], "#d7e2e4")
    pen.panel(camera.front(22, 58, 46, 62), body)
    arm = [camera.at(*p) for p in ((17, 22), (2, 66), (-26, 48), (-32, 4))]
    pen.line(*arm, ink=INK, width=60)
    pen.line(*arm, ink=body, width=52)
    for place in arm[1:3]:
        pen.disc(place, 18, DARK)
    bucket = [camera.at(*p) for p in ((-37, 6), (-24, 4), (-22, -8), (-28, -16), (-40, -12))]
    pen.panel(bucket, DARK)
    pen.panel(camera.front(48, 20, 58, 24), WHITE, INK2, THIN)
    pen.subject |= {"digger", "trench"}
