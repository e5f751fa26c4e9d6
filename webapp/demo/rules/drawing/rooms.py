"""A framed surface as it is seen from the room, with floor, ceiling and the walls beside it."""

from webapp.demo.rules.drawing.camera import Camera
from webapp.demo.rules.drawing.fixtures import draw_backing, draw_item, draw_run, is_backing
from webapp.demo.rules.drawing.framing import (
    Frame,
    draw_back,
    draw_batts,
    draw_board,
    draw_opening,
    draw_retarder,
    draw_wood,
    inches,
)
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import (
    CONCRETE,
    FAINT,
    GLOOM,
    INK,
    INK2,
    SHADE,
    SHEATHING,
    THIN,
    WIDTH,
    WOOD,
    WOOD_SIDE,
)

_OVER_BOARD = {"receptacle", "switch", "light box", "data box", "alarm box", "fan box"}
_OVER_RETARDER = _OVER_BOARD | {"sub-panel", "valve", "stub-out", "disconnect", "sleeve", "cleanout"}


def whole(frame: Frame) -> Camera:
    """Far enough back to see the whole surface and some of the room."""
    scale = min(1380 / frame.length, 760 / frame.height)
    middle = (frame.length / 2, frame.height / 2)
    eye = (frame.length * 0.47, 58.0 if frame.surface.kind == "wall" else frame.height * 0.45)
    return Camera(look=middle, eye=eye, away=190, scale=scale, middle=(800, 570))


def close(x: float, y: float, wide: float) -> Camera:
    """`wide` inches of a surface around a point, seen from a little to one side so that wood has depth."""
    scale = WIDTH / wide
    return Camera(look=(x, y), eye=(x - wide * 0.16, y + wide * 0.12), away=wide * 1.15 + 8, scale=scale)


def draw_room(pen: Pen, camera: Camera, frame: Frame) -> None:
    """Everything of the surface, back to front, in the room it stands in."""
    pen.fill(SHEATHING if frame.surface.kind == "wall" else GLOOM)
    if frame.surface.kind == "wall":
        _floor(pen, camera, frame)
        _overhead(pen, camera, frame)
    _beside(pen, camera, frame)
    if not frame.covered:
        draw_open(pen, camera, frame)
    if frame.covered or "half board" in frame.look:
        _covered(pen, camera, frame)
    pen.subject.add(frame.surface.id)


def draw_open(pen: Pen, camera: Camera, frame: Frame) -> None:
    """Back, services, openings, wood, then boxes and plates, then the retarder if it is up."""
    filled = bool(frame.look & {"batts", "retarder"})
    new = "old" not in frame.look
    draw_back(pen, camera, frame)
    if filled:
        draw_batts(pen, camera, frame)
        pen.subject.add("batts")
    elif new:
        for run in frame.runs:
            draw_run(pen, camera, frame, run)
        for item in filter(is_backing, frame.items):
            draw_backing(pen, camera, item)
    if "bare" not in frame.look:
        for opening in frame.openings:
            draw_opening(pen, camera, frame, opening)
            pen.subject.add(opening.kind)
    draw_wood(pen, camera, frame)
    if "retarder" in frame.look:
        draw_retarder(pen, camera, frame)
        pen.subject.add("retarder")
    for item in frame.items if new else ():
        if not filled or item.kind in _OVER_RETARDER:
            draw_item(pen, camera, frame, item)


def _covered(pen: Pen, camera: Camera, frame: Frame) -> None:
    upto = frame.length * 0.56 if "half board" in frame.look else frame.length
    draw_board(pen, camera, frame, upto)
    pen.subject.add("board")
    for opening in frame.openings:
        if inches(opening.x_nm) < upto:
            draw_opening(pen, camera, frame, opening)
            x0, y0 = inches(opening.x_nm), inches(opening.y_nm)
            x1, y1 = x0 + inches(opening.width_nm), y0 + inches(opening.height_nm)
            pen.outline(camera.front(x0, y0, x1, y1, 0.5))
            pen.subject.add(opening.kind)
    for item in frame.items:
        if item.kind in _OVER_BOARD and inches(item.x_nm) < upto:
            draw_item(pen, camera, frame, item)


def _floor(pen: Pen, camera: Camera, frame: Frame) -> None:
    near = camera.away * 0.8
    pen.area(camera.flat(-60, 0, frame.length + 60, near), CONCRETE)
    pen.area(camera.flat(-60, 0, frame.length + 60, 9), SHADE)
    for depth in (14, 34, 60, 92):
        if depth < near:
            pen.line(camera.at(-40, 0, depth), camera.at(frame.length + 40, 0, depth), ink=FAINT, width=THIN, waver=2)
    for _ in range(26):
        x, z = pen.random.uniform(0, frame.length), pen.random.uniform(6, near * 0.7)
        reach = pen.random.uniform(6, 20)
        pen.line(camera.at(x, 0, z), camera.at(x + reach, 0, z + pen.near(1)), ink=FAINT, width=THIN)


def _overhead(pen: Pen, camera: Camera, frame: Frame) -> None:
    """Joists over the room: towards the eye over long walls, across it over the gable ends."""
    top, near = frame.height, camera.away * 0.8
    pen.area(camera.flat(-80, -4, frame.length + 80, near, top), GLOOM)
    if frame.surface.id in ("N", "S"):
        x = -12.0
        while x < frame.length + 20:
            pen.panel(camera.flat(x, 0, x + 1.5, near, top), WOOD_SIDE, INK, THIN)
            x += 16
        return
    depth = 2.0
    while depth < near:
        pen.panel(camera.flat(-60, depth, frame.length + 60, depth + 1.5, top), WOOD_SIDE, INK, THIN)
        depth += 16


def _beside(pen: Pen, camera: Camera, frame: Frame) -> None:
    """The two surfaces at right angles, as bare studs running away from the corner."""
    near = camera.away * 0.8
    for x in (0.0, frame.length):
        pen.area(camera.across(x, 0, 0, frame.height, near), SHEATHING)
        pen.area(camera.across(x, 0, 0, frame.height, near), SHADE)
        depth = 3.0
        while depth < near:
            pen.panel(camera.across(x, 0, depth, frame.height, depth + 1.5), WOOD, INK2, THIN)
            depth += 16
        for y in (0, frame.height - 3):
            pen.panel(camera.across(x, y, 0, y + 3, near), WOOD, INK2, THIN)
