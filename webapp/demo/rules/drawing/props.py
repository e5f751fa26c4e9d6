"""Things that stand, hang or lie about on a site, placed by inches on or before the surface in view."""

from webapp.demo.rules.drawing.camera import Block, Camera, draw_block
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import (
    DARK,
    DATA,
    ELECTRIC,
    INK,
    INK2,
    OBJECT,
    STEEL,
    TAPE,
    THIN,
    WHITE,
    WOOD,
    WOOD_SIDE,
    Point,
)

SKIN = "#d9b79a"
CLOTH = "#6f7f86"


def tape_floor(pen: Pen, camera: Camera, at: Point, length: float) -> None:
    """A tape laid along the foot of a wall from `at`, with the distance from the corner every other foot."""
    x0, y = at
    high = max(2.2, 19 / camera.scale)
    pen.panel(camera.front(x0, y, x0 + length, y + high, 2.0), TAPE, INK, OBJECT)
    for mark in range(0, int(length) + 1, 4):
        tall = high * (0.55 if mark % 12 == 0 else 0.3)
        pen.line(camera.at(x0 + mark, y, 2), camera.at(x0 + mark, y + tall, 2), width=THIN, waver=0)
        if (mark + x0) % 24 == 0 and 0 < mark < length - 6:
            pen.letters(
                str(int(mark + x0)), camera.at(x0 + mark, y + high * 1.9, 2), max(18, high * camera.scale * 0.9)
            )
    pen.panel(camera.front(x0 + length - 1, y - 0.2, x0 + length + 4, y + high + 1.6, 3), DATA, INK, OBJECT)
    pen.subject.add("tape")


def tape_up(pen: Pen, camera: Camera, at: Point, length: float, start: float | None = None, turn: int = 1) -> None:
    """A tape hanging beside something: `at` is its foot, figures read the height above the floor.

    With `start` they count from that figure instead, downwards when `turn` is -1.
    """
    x, y0 = at
    first = y0 if start is None else start
    low, high = sorted((first, first + turn * length))
    wide = 1.0
    pen.panel(camera.front(x - wide / 2, y0, x + wide / 2, y0 + length, 0.8), TAPE)
    for mark in range(int(low) + 1, int(high) + 1):
        y = y0 + (mark - first) * turn
        reach = wide * (0.5 if mark % 4 == 0 else 0.3)
        pen.line(camera.at(x - wide / 2, y, 0.8), camera.at(x - wide / 2 + reach, y, 0.8), width=THIN, waver=0)
        if mark % 2 == 0:
            ink = ELECTRIC if mark % 16 == 0 else INK
            pen.letters(str(mark), camera.at(x + 0.1, y - 0.45, 0.8), 0.55 * camera.scale, ink)
    pen.subject.add("tape")


def tape_along(pen: Pen, camera: Camera, at: Point, length: float, start: float = 0) -> None:
    """A tape held level from `at` to the right: figures every 2 inches, or every foot from farther off."""
    x0, y = at
    near = camera.scale > 18
    half = max(0.5, 13 / camera.scale)
    pen.panel(camera.front(x0, y - half, x0 + length, y + half, 0.8), TAPE)
    for mark in range(int(length) + 1):
        reach = half * (1.0 if mark % 4 == 0 else 0.6)
        top = y + half
        pen.line(camera.at(x0 + mark, top, 0.8), camera.at(x0 + mark, top - reach, 0.8), width=THIN, waver=0)
        if mark % (2 if near else 12) == 0 and mark:
            place = camera.at(x0 + mark - 0.55, y - 0.1, 0.8) if near else camera.at(x0 + mark, y - half * 2.4, 0.8)
            pen.letters(str(int(start) + mark), place, 0.5 * camera.scale if near else 26)
    pen.subject.add("tape")


def person(pen: Pen, camera: Camera, at: Point, away: float = 14, tall: float = 68) -> None:
    """Somebody as a plain silhouette, from behind, working at the wall."""
    x, foot = at
    body = [
        (-7, 0), (-6.5, 16), (-7, 31), (-8.6, 44), (-9, 54), (-4, 58.5), (4, 58.5), (9, 54), (15, 62), (18, 71),
        (20.5, 70), (18.5, 60), (11, 46), (7.4, 40), (7, 31), (7, 16), (8, 0), (1.2, 0), (0.6, 26), (-0.6, 26), (-1, 0),
    ]  # fmt: skip
    unit = tall / 68
    points = [camera.at(x + dx * unit, foot + dy * unit, away) for dx, dy in body]
    pen.panel(points, CLOTH, INK, OBJECT)
    belt = [camera.at(x - 7 * unit, foot + 31 * unit, away), camera.at(x + 7.3 * unit, foot + 31 * unit, away)]
    pen.line(*belt, width=6)
    reach = 5 * unit * camera.scale * camera.away / max(camera.away - away, 1)
    pen.disc(camera.at(x, foot + 64 * unit, away), reach, DARK)
    pen.hatch(points[1:5] + points[13:16], 16, 0.8, "#51606a", THIN)
    pen.subject.add("person")


def plank(pen: Pen, camera: Camera, at: Point) -> None:
    """A board carried level."""
    draw_block(pen, camera, Block(at[0] - 36, at[1], at[0] + 40, at[1] + 2.4, 14, 18), WOOD, WOOD_SIDE)


def shelves(pen: Pen, camera: Camera, at: Point) -> None:
    """Three sagging shelves of paint tins."""
    for row, high in enumerate((26.0, 48.0, 70.0)):
        left, right = at[0], at[0] + 92
        draw_block(pen, camera, Block(left, high, right, high + 1.2, 0, 10))
        x = left + 3
        while x < right - 9:
            wide, tall = pen.random.choice(((6.6, 7.5), (4.4, 5.0), (6.6, 7.5), (8.0, 9.0)))
            _tin(pen, camera, (x, high + 1.2), wide, tall)
            x += wide + pen.random.choice((0.8, 1.2, 5.0 + row))
    pen.subject.add("shelves")


def _tin(pen: Pen, camera: Camera, at: Point, wide: float, tall: float) -> None:
    x, y = at
    fill = pen.random.choice((STEEL, "#d9d3c2", "#c3ccc4", "#cdbfb4"))
    pen.panel(camera.front(x, y, x + wide, y + tall, 9), fill, INK, 2.6)
    pen.panel(camera.front(x + 0.4, y + 1.4, x + wide - 0.4, y + tall - 1.4, 9), WHITE, INK2, THIN)
    pen.panel(camera.front(x - 0.2, y + tall - 0.7, x + wide + 0.2, y + tall, 9), fill, INK, THIN)
    drip = [camera.at(x + wide * 0.3, y + tall, 9), camera.at(x + wide * 0.32, y + tall * 0.6, 9)]
    pen.line(*drip, ink=INK2, width=5)


def bike(pen: Pen, camera: Camera, at: Point) -> None:
    """A small bicycle against the wall."""
    x, y = at
    wheels = [camera.at(x, y + 9, 8), camera.at(x + 26, y + 9, 8)]
    for hub in wheels:
        radius = 9 * camera.scale
        pen.arc(hub, radius, (0, 360), INK, 7)
        for turn in range(0, 360, 45):
            pen.arc(hub, radius, (turn, turn + 1), INK, 3)
        pen.dot(hub, 5)
    frame = {"seat": (9, 21), "crank": (11, 9), "head": (21, 22), "bar": (20, 28)}
    place = {name: camera.at(x + dx, y + dy, 8) for name, (dx, dy) in frame.items()}
    for start, end in (("seat", "crank"), ("crank", "head"), ("head", "seat"), ("head", "bar")):
        pen.line(place[start], place[end], width=7, ink=DARK)
    for start, wheel in (("seat", wheels[0]), ("crank", wheels[0]), ("head", wheels[1])):
        pen.line(place[start], wheel, width=6, ink=DARK)
    pen.line(camera.at(x + 6, y + 22.5, 8), camera.at(x + 12, y + 22.5, 8), width=10)
    pen.line(camera.at(x + 17, y + 29, 8), camera.at(x + 22, y + 28, 8), width=7)
    pen.subject.add("bike")


def springs(pen: Pen, camera: Camera, at: Point) -> None:
    """Two long door springs and a length of track lying on the floor."""
    for number, depth in enumerate((22.0, 34.0)):
        left = at[0] + number * 12
        for turn in range(26):
            x = left + turn * 2.2
            pen.line(camera.at(x, at[1], depth), camera.at(x + 1.7, at[1] + 3.4, depth), ink=DARK, width=5)
        pen.line(camera.at(left - 4, at[1] + 1.6, depth), camera.at(left + 62, at[1] + 1.6, depth), width=2.4)
    track = camera.flat(at[0] - 14, 46, at[0] + 96, 49)
    pen.panel(track, STEEL)
    pen.subject.add("springs")


def hand(pen: Pen, camera: Camera, at: Point, size: float) -> None:
    """A hand with one finger out, coming from below on the right; its tip is at `at`."""
    x, y = at
    shape = [
        (0, 0), (0.9, 0.5), (3.2, -0.6), (4.6, -0.4), (6.4, -1.6), (11, -6), (8.4, -9.6), (4.2, -5.4), (3.0, -4.9),
        (2.5, -4.0), (2.9, -3.0), (2.3, -2.2), (2.6, -1.6), (0.8, -0.6),
    ]  # fmt: skip
    points = [camera.at(x + dx * size, y + dy * size, 3) for dx, dy in shape]
    pen.area(points, SKIN)
    pen.curve([*points, points[0]], INK, OBJECT)
    knuckles = ((2.9, -3.0), (4.4, -2.6)), ((2.6, -4.0), (4.2, -3.6)), ((2.6, -1.6), (4.0, -1.4))
    for start, end in knuckles:
        places = [camera.at(x + dx * size, y + dy * size, 3) for dx, dy in (start, end)]
        pen.line(*places, width=THIN)
    cuff = [(8.0, -3.2), (11.0, -6), (16, -10.5), (12.6, -14.5), (8.4, -9.6), (6.2, -7.4)]
    pen.panel([camera.at(x + dx * size, y + dy * size, 3.2) for dx, dy in cuff], CLOTH)
    pen.subject.add("hand")


def lamp(pen: Pen, camera: Camera, at: Point) -> None:
    """A work light on a stand, with its light going across the wall."""
    x, y = at
    beam = [camera.at(x + 5, y + 50, 12), camera.at(x + 150, y + 96, 1), camera.at(x + 150, y + 4, 1)]
    pen.area(beam, "#fff6cf70")
    for dx in (-10, 0, 10):
        pen.line(camera.at(x, y + 16, 16), camera.at(x + dx, y, 20 - abs(dx) * 0.6), width=6)
    pen.line(camera.at(x, y + 14, 16), camera.at(x, y + 48, 16), width=7)
    pen.panel(camera.front(x - 5, y + 45, x + 5, y + 55, 16), DARK)
    pen.panel(camera.front(x + 1, y + 46, x + 5, y + 54, 16.2), "#fff1b8")
    pen.subject.add("lamp")


def laser(pen: Pen, camera: Camera, at: Point) -> None:
    """A dot of light with the line it came by."""
    place = camera.at(at[0], at[1], 0.8)
    pen.line((place[0] - 130, 1200), place, ink="#d8404f", width=2.4, waver=0.2)
    pen.dot(place, 26, "#d8404f55")
    pen.dot(place, 10, ELECTRIC)
    pen.subject.add("laser")


def level(pen: Pen, camera: Camera, at: Point, off: float = 0.0) -> None:
    """A short spirit level; the bubble sits `off` tenths from the middle."""
    x, y = at
    pen.panel(camera.front(x - 6, y, x + 6, y + 1.5, 1.2), "#c9d0cf")
    pen.panel(camera.front(x - 1.3, y + 0.35, x + 1.3, y + 1.25, 1.3), "#dfe8a2")
    pen.disc(camera.at(x + off, y + 0.85, 1.3), 0.36 * camera.scale, WHITE, INK, THIN)
    for side in (-0.5, 0.5):
        pen.line(camera.at(x + side, y + 0.35, 1.3), camera.at(x + side, y + 1.25, 1.3), width=THIN, waver=0)
    for end in (-4.3, 4.3):
        pen.disc(camera.at(x + end, y + 0.78, 1.3), 0.42 * camera.scale, WHITE, INK, THIN)
    pen.subject.add("level")


def clock(pen: Pen, camera: Camera, at: Point, time: str = "19:55") -> None:
    """A telephone propped up, with the time on it and a line nobody can read."""
    x, y = at
    unit = camera.scale
    pen.panel(camera.front(x - 1.5, y - 2.8, x + 1.5, y + 2.8, 1), DARK)
    pen.panel(camera.front(x - 1.3, y - 2.4, x + 1.3, y + 2.4, 1.05), "#e9eff0", INK, THIN)
    pen.letters(time, camera.at(x, y + 1.0, 1.05), 0.62 * unit)
    px, py = camera.at(x - 1.0, y - 0.4, 1.05)
    pen.scribble((px, py), 2.0 * unit, 0.3 * unit, INK2)
    pen.subject.add("clock")


def pencil_marks(pen: Pen, camera: Camera, at: Point, text: str) -> None:
    """A figure pencilled on the wood."""
    pen.letters(text, camera.at(at[0], at[1], 0.1), max(16, 0.85 * camera.scale), INK2)


def tag(pen: Pen, camera: Camera, at: Point) -> None:
    """Three paper tags on three cables."""
    for number, lean in enumerate((-1.5, 0.2, 1.6)):
        x, y = at[0] + lean, at[1] + number * 1.5
        pen.panel(camera.front(x - 1.1, y, x + 1.1, y + 1.3, 0.8), WHITE)
        pen.letters("ABC"[number], camera.at(x, y + 0.65, 0.8), 0.7 * camera.scale)
    pen.subject.add("tags")
