"""Things that belong to a surface for one picture only: a door off its hinge, a string line, furring, a card."""

from webapp.demo.rules.drawing.camera import Block, Camera, draw_block
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import (
    DARK,
    DATA,
    FAINT,
    INK,
    INK2,
    OBJECT,
    SHADE,
    SKY,
    STEEL,
    THIN,
    WHITE,
    WOOD,
    Point,
)


def door_off(pen: Pen, camera: Camera, at: Point) -> None:
    """The old side door hanging from its lower hinge, daylight behind it."""
    x, y = at
    pen.panel(camera.front(x, y, x + 38, y + 82, -2.6), SKY)
    pen.area(camera.front(x, y, x + 38, y + 26, -2.6), "#cfd8cf")
    leaf = [(2, 1), (36, -1), (44, 78), (10, 80)]
    pen.panel([camera.at(x + dx, max(0.0, y + dy), 3) for dx, dy in leaf], "#d5cfbd")
    for low, high in ((8, 32), (40, 70)):
        for left in (6, 21):
            lean = low * 0.1
            corners = [
                (left + lean, low),
                (left + 11 + lean, low),
                (left + 11 + high * 0.1, high),
                (left + high * 0.1, high),
            ]
            pen.panel([camera.at(x + dx, y + dy, 3) for dx, dy in corners], "#e0dbca", INK2, THIN)
    pen.panel(camera.front(x - 0.5, y + 8, x + 4, y + 12, 3.2), STEEL)
    pen.panel(camera.front(x - 1.5, y + 68, x + 1.5, y + 72, 0.2), STEEL)
    pen.disc(camera.at(x + 37, y + 36, 3.2), 1.3 * camera.scale, "#c9b26a")
    pen.subject.add("door off its hinge")


def string_line(pen: Pen, camera: Camera, at: Point, length: float) -> None:
    """A string stretched tight under the joists, with a block at each end."""
    x, y = at
    for end in (x, x + length):
        draw_block(pen, camera, Block(end - 2, y - 2, end + 2, y + 2, 0, 2))
    pen.line(camera.at(x, y, 2), camera.at(x + length, y, 2), ink=DATA, width=5, waver=0.3)
    pen.subject.add("string line")


def furring(pen: Pen, camera: Camera, at: Point, length: float) -> None:
    """Strips across the joists, as far as they have got."""
    x, y = at
    for row in range(5):
        low = y + row * 16
        pen.panel(camera.front(x, low, x + length, low + 2.6, 0.8), "#efe0b8")
        for along in range(int(x) + 6, int(x + length), 16):
            pen.dot(camera.at(along, low + 1.3, 0.8), 3, INK2)
    pen.subject.add("furring")


def product_card(pen: Pen, camera: Camera, at: Point) -> None:
    """The maker's card for the batts, pinned up, its print turned outwards."""
    x, y = at
    pen.panel(camera.front(x, y, x + 15, y + 20, 0.6), WHITE)
    pen.area(camera.front(x, y + 15.5, x + 15, y + 20, 0.6), "#d9d3c2")
    pen.letters("R-15", camera.at(x + 7.5, y + 17.6, 0.6), 2.6 * camera.scale)
    for row in range(6):
        left, top = camera.at(x + 1.4, y + 13 - row * 2.1, 0.6)
        pen.scribble((left, top), 11.5 * camera.scale, 1.3 * camera.scale, INK2)
    for corner in (1, 14):
        pen.disc(camera.at(x + corner, y + 19.2, 0.7), 0.4 * camera.scale, "#bf1029")
    pen.subject.add("card")


def sagging_header(pen: Pen, camera: Camera, at: Point, length: float) -> None:
    """The old door header, a little low in the middle, over studs each with its own length on it."""
    x, y = at
    share = [step / 10 for step in range(11)]
    lower = [camera.at(x + length * s, y - 9 * s * (1 - s), 0.3) for s in share]
    upper = [camera.at(x + length * s, y + 11 - 9 * s * (1 - s), 0.3) for s in reversed(share)]
    pen.panel([*lower, *upper], WOOD)
    pen.curve(lower, INK, 6)
    for step in range(3):
        grain = [(px, py - 9 * camera.scale * (0.25 + step * 0.25)) for px, py in lower]
        pen.curve(grain, FAINT, THIN)
    for number in range(5):
        along = x + 16 + number * 22
        pen.letters(
            ("95 1/4", "95 1/8", "95", "95 1/8", "95 1/4")[number], camera.at(along, 52 + number % 2 * 8, 0.3), 22, INK2
        )
    pen.subject.add("header")


def behind_glass(pen: Pen, camera: Camera, at: Point) -> None:
    """Somebody outside a window, from the shoulders up, as a plain silhouette."""
    x, y = at
    shoulders = [(-12, 0), (-11, 8), (-4, 12), (4, 12), (11, 8), (12, 0)]
    pen.panel([camera.at(x + dx, y + dy, -2.7) for dx, dy in shoulders], "#8b999f", INK, OBJECT)
    pen.disc(camera.at(x, y + 17, -2.7), 5 * camera.scale, "#6f7f86")
    pen.line(camera.at(x + 14, y - 1, -2.6), camera.at(x + 14, y + 30, -2.6), ink=WHITE, width=7)
    pen.subject.add("person")


def key(pen: Pen, camera: Camera, at: Point) -> None:
    """A key in the lock."""
    x, y = at
    pen.disc(camera.at(x, y, -2), 1.1 * camera.scale, STEEL)
    pen.panel(camera.front(x - 0.3, y - 3.4, x + 0.3, y, -1.5), "#c9b26a")
    pen.disc(camera.at(x, y - 4.2, -1.4), 1.2 * camera.scale, "#c9b26a")
    pen.disc(camera.at(x, y - 4.4, -1.4), 0.45 * camera.scale, DARK, INK, THIN)
    pen.subject.add("key")


def off_cuts(pen: Pen, camera: Camera, at: Point) -> None:
    """A few ends of wood on the floor."""
    for number in range(4):
        x = at[0] + number * 17 + pen.near(3)
        draw_block(pen, camera, Block(x, 0, x + 11, 1.5, 12 + number * 4, 16 + number * 4))
    pen.area(camera.flat(at[0] - 4, 10, at[0] + 80, 12), SHADE)
