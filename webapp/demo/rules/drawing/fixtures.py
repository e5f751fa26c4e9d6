"""What is fixed in a wall: boxes with their wires, plates, pipes' ends, the panel, blocking."""

from collections.abc import Callable
from itertools import pairwise

from webapp.demo.rules.drawing import pipes
from webapp.demo.rules.drawing.camera import Block, Camera, draw_block, draw_front, draw_sides
from webapp.demo.rules.drawing.framing import Frame, inches
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import (
    AIR,
    COLOURS,
    COPPER,
    DARK,
    DATA,
    DRAIN,
    ELECTRIC,
    HEIGHT,
    INK,
    INK2,
    OBJECT,
    PIPE,
    PLASTIC,
    STEEL,
    THIN,
    WHITE,
    WIDTH,
    Point,
)
from webapp.demo.rules.place_rows import Item, Run

_CABLE_WIDTHS = {"10-2": 0.65, "12-2": 0.55, "14-2": 0.5, "14-3": 0.5, "network": 0.32, "2 in": 2.4, "1 1/2 in": 1.9}
_CABLE_WIDTHS |= {"6 in duct": 6.0, "1/2 in": 0.7, "3/4 in": 1.0, "1 1/2 in tube": 1.8, "line set": 1.6, "bare 6": 0.3}
_WET = {"DR", "VT", "CW", "HW", "CD", "LS", "DX"}


def in_view(camera: Camera, item: Item) -> bool:
    """Whether an item's face can be on the sheet."""
    x, y = camera.at(inches(item.x_nm), inches(item.y_nm))
    beside, above = (inches(item.width_nm or 0) / 2 + 8) * camera.scale, 12 * camera.scale
    return -beside < x < WIDTH + beside and -above < y < HEIGHT + above


def draw_run(pen: Pen, camera: Camera, frame: Frame, run: Run) -> None:
    """A cable, pipe or duct in its bays, in the colour of its service, with staples where it runs upright."""
    if run.state == "not yet" or ("pipes" in frame.look and run.service not in _WET):
        return
    service = frame.services[run.service]
    colour = COLOURS.get(service.colour, INK)
    width = max(4.2, _CABLE_WIDTHS.get(run.cable, 1.5) * camera.scale)
    places = [(inches(x), inches(y)) for x, y in run.points]
    points = [camera.at(x, y, -1.7) for x, y in places]
    if run.service in _WET and width > 8:
        pen.line(*points, ink=INK, width=width + 4, waver=0.5)
        pen.line(*points, ink=PIPE, width=width, waver=0.5)
        pen.line(*points, ink=colour, width=width * 0.3, waver=0.5)
    else:
        pen.line(*points, ink=INK, width=width + 2.6, waver=0.8)
        pen.line(*points, ink=colour, width=width, waver=0.8)
    pen.subject.add(service.kind)
    if service.colour == "red" and camera.scale > 9:
        for start, end in pairwise(places):
            _staples(pen, camera, start, end)


def _staples(pen: Pen, camera: Camera, start: Point, end: Point) -> None:
    if abs(start[0] - end[0]) > 1 or abs(start[1] - end[1]) < 12:
        return
    low, high = sorted((start[1], end[1]))
    y = low + 7
    while y < high - 4:
        pen.line(camera.at(start[0] - 0.55, y, -1.5), camera.at(start[0] + 0.55, y, -1.5), ink=INK, width=7)
        y += 26


def draw_item(pen: Pen, camera: Camera, frame: Frame, item: Item) -> None:
    """One thing of the wall, if its kind has a face worth drawing."""
    if item.state in ("not yet", "here") or not in_view(camera, item):
        return
    if "pipes" in frame.look and item.service not in _WET | {""}:
        return
    if item.kind in _BOXES:
        open_wall = not frame.covered and not frame.look & {"batts", "retarder"}
        _box(pen, camera, item, -1 if _fed_from_below(frame, item) else 1, with_cables=open_wall)
    elif item.kind in _FACES:
        _FACES[item.kind](pen, camera, item)
    else:
        return
    pen.subject.add(item.kind)


def _fed_from_below(frame: Frame, item: Item) -> bool:
    """Whether the cables of a box reach it from underneath rather than from above."""
    place, rises = (item.x_nm, item.y_nm), 0
    for run in frame.runs:
        for end, beside in ((run.points[0], run.points[1]), (run.points[-1], run.points[-2])):
            if end == place:
                rises += 1 if beside[1] < end[1] else -1
    return rises > 0


def is_backing(item: Item) -> bool:
    """Wood between the studs, which the studs' faces cut off."""
    return item.kind in ("blocking", "fireblock")


def draw_backing(pen: Pen, camera: Camera, item: Item) -> None:
    """Blocking between studs, with its name's height, and a cross-line as drawings show it."""
    x, y, half = inches(item.x_nm), inches(item.y_nm), inches(item.width_nm or 0) / 2
    tall = {"2x8": 7.25, "2x10": 9.25, "2x6": 5.5, "2x6 pair": 5.5}.get(item.material, 3.5) / 2
    block = Block(x - half, y - tall, x + half, y + tall, -1.5, -0.05)
    draw_block(pen, camera, block)
    corners = camera.front(block.x0, block.y0, block.x1, block.y1, block.z1)
    pen.hatch(corners, 46, -0.35, "#cbb588", THIN)
    pen.subject.add(item.kind)


def _box(pen: Pen, camera: Camera, item: Item, up: int, *, with_cables: bool) -> None:
    x, y, gangs = inches(item.x_nm), inches(item.y_nm), item.gangs or 1
    half, tall = 1.15 + (gangs - 1) * 0.9, 1.85
    metal = "metal" in item.material or "in-use" in item.material
    fill = STEEL if metal else PLASTIC
    draw_sides(pen, camera, Block(x - half, y - tall, x + half, y + tall, -3, 0.5), INK2)
    draw_front(pen, camera, Block(x - half, y - tall, x + half, y + tall, -3, 0.5), fill)
    if camera.scale < 12:
        return
    inner = camera.front(x - half + 0.22, y - tall + 0.25, x + half - 0.22, y + tall - 0.25, 0.5)
    pen.panel(inner, DARK, INK, OBJECT)
    for gang in range(gangs):
        centre = x + (gang - (gangs - 1) / 2) * 1.8
        for end in (-1, 1):
            pen.dot(camera.at(centre, y + end * (tall - 0.12), 0.5), 0.1 * camera.scale, INK)
    if with_cables:
        _cables(pen, camera, (x, y, half), item, up)
    _wires(pen, camera, (x, y, half), item, up)


def _entries(item: Item) -> int:
    return min(4, max(1, sum(int(cable.partition("*")[2]) for cable in item.cables)))


def _cables(pen: Pen, camera: Camera, box: tuple[float, float, float], item: Item, up: int) -> None:
    """The last hand's breadth of each cable, spreading from the bundle to its own hole in the box."""
    x, y, half = box
    entries = _entries(item)
    for number in range(entries):
        place = number - (entries - 1) / 2
        edge = x + place * min(0.7, half / entries * 1.4)
        ends = [(x + place * 0.3, 9.0, -1.7), (x + place * 0.45, 5.5, -1.5), (edge, 3.0, -0.8), (edge, 1.35, 0.4)]
        sheath = [camera.at(px, y + rise * up, z) for px, rise, z in ends]
        pen.curve(sheath, INK, 0.5 * camera.scale + 3.4)
        pen.curve(sheath, ELECTRIC, 0.5 * camera.scale)


def _wires(pen: Pen, camera: Camera, box: tuple[float, float, float], item: Item, up: int) -> None:
    """Conductors folded into a box: grounds twisted together in the middle, black and white to the sides."""
    x, y, half = box
    entries = _entries(item)
    twist = camera.at(x, y + 0.2 * up, 0.5)
    for number in range(entries):
        edge = x + (number - (entries - 1) / 2) * min(0.7, half / entries * 1.4)
        rim = camera.at(edge, y + 1.35 * up, 0.4)
        for ink, lean in (("#1d1f22", -0.62), (WHITE, 0.62)):
            end = x + lean * half * (1 + number * 0.06)
            mid = camera.at((edge + end) / 2 + lean * 0.5, y + 0.5 * up, 0.5)
            tip = camera.at(end - lean * 0.35, y - (0.7 + number * 0.2) * up, 0.5)
            pen.curve([rim, mid, camera.at(end, y - 0.1 * up, 0.5), tip], ink, 0.13 * camera.scale)
        pen.curve([rim, camera.at(edge + 0.12, y + 0.85 * up, 0.5), twist], COPPER, 0.1 * camera.scale)
    if "to be grounded" in item.note:
        loose = [
            twist,
            camera.at(x + 0.9, y + 0.9 * up, 0.8),
            camera.at(x + 2.6, y + 0.2, 1),
            camera.at(x + 3.4, y - 1.4, 1),
        ]
        pen.curve(loose, INK, 0.16 * camera.scale + 3)
        pen.curve(loose, COPPER, 0.16 * camera.scale)
        return
    pen.disc(twist, 0.2 * camera.scale, DRAIN, INK, THIN)
    tail = [twist, camera.at(x - 0.25, y - 0.55 * up, 0.5), camera.at(x + 0.2, y - 1.1 * up, 0.5)]
    pen.curve(tail, COPPER, 0.11 * camera.scale)


def _round_box(pen: Pen, camera: Camera, item: Item) -> None:
    x, y = inches(item.x_nm), inches(item.y_nm)
    fill = STEEL if "metal" in item.material else PLASTIC
    draw_block(pen, camera, Block(x - 2.4, y - 0.5, x + 2.4, y + 0.5, -2.5, -0.4))
    if "square" in item.material:
        draw_block(pen, camera, Block(x - 2, y - 2, x + 2, y + 2, -2.2, 0.2), fill, INK2)
    else:
        pen.disc(camera.at(x, y, 0.4), 2.05 * camera.scale, fill)
    pen.disc(camera.at(x, y, 0.4), 1.65 * camera.scale, DARK, INK, THIN)
    if camera.scale < 12:
        return
    for lean, ink in ((-0.7, "#1d1f22"), (0.7, WHITE), (0.1, COPPER)):
        start, end = camera.at(x + lean * 0.4, y + 1.3, 0.4), camera.at(x + lean * 1.2, y - 0.8, 0.4)
        pen.curve([start, camera.at(x + lean * 1.6, y + 0.3, 0.4), end], ink, 0.13 * camera.scale)


def _ring(pen: Pen, camera: Camera, item: Item) -> None:
    x, y, half = inches(item.x_nm), inches(item.y_nm), 1.2 + ((item.gangs or 1) - 1) * 0.9
    pen.panel(camera.front(x - half, y - 1.9, x + half, y + 1.9, 0.4), "#e9b98a", INK, OBJECT)
    pen.panel(camera.front(x - half + 0.4, y - 1.45, x + half - 0.4, y + 1.45, 0.4), DARK, INK, THIN)
    if camera.scale > 9:
        curl = [(0.1, 1.4), (0.5, 0.4), (-0.5, -0.2), (0.45, -0.8), (0.0, -1.6), (0.4, -3.0)]
        pen.curve([camera.at(x + dx, y + dy, 0.5) for dx, dy in curl], DATA, max(4.0, 0.25 * camera.scale))


def _plate(pen: Pen, camera: Camera, item: Item) -> None:
    x, y = inches(item.x_nm), inches(item.y_nm)
    pen.panel(camera.front(x - 0.75, y - 1.5, x + 0.75, y + 1.5, 0.1), STEEL)
    for end in (-1, 1):
        pen.dot(camera.at(x + 0.4 * end, y + end, 0.1), max(2.0, 0.14 * camera.scale), INK2)


def _shield(pen: Pen, camera: Camera, item: Item) -> None:
    x, y = inches(item.x_nm), inches(item.y_nm)
    pen.panel(camera.front(x - 0.75, y - 2.5, x + 0.75, y + 2.5, 0.1), STEEL)
    for share in (-2, -0.7, 0.7, 2):
        pen.dot(camera.at(x, y + share, 0.1), max(2.0, 0.13 * camera.scale), INK2)


def _strap(pen: Pen, camera: Camera, item: Item) -> None:
    x, y, half = inches(item.x_nm), inches(item.y_nm), inches(item.width_nm or 0) / 2
    pen.panel(camera.front(x - half, y - 0.8, x + half, y + 0.8, 0.15), STEEL)
    for number in range(8):
        along = x - half + (number + 0.5) * half / 4
        pen.dot(camera.at(along, y + (0.3 if number % 2 else -0.3), 0.15), max(2.0, 0.12 * camera.scale), INK)


def _panel_board(pen: Pen, camera: Camera, item: Item) -> None:
    """The sub-panel without its cover: two columns of breakers, neutral bar left, ground bar right, kept apart."""
    x, y = inches(item.x_nm), inches(item.y_nm)
    draw_block(pen, camera, Block(x - 7, y - 11, x + 7, y + 11, -3.4, 0.4), STEEL, INK2)
    pen.panel(camera.front(x - 6.3, y - 10.3, x + 6.3, y + 10.3, 0.4), "#aab3b7", INK, THIN)
    for side in (-1, 1):
        for row in range(8):
            low = y - 7 + row * 1.7
            near, far = sorted((x + side * 0.2, x + side * 2.7))
            pen.panel(camera.front(near, low, far, low + 1.4, 0.5), DARK, INK, THIN)
            pen.area(camera.front(near + 0.9, low + 0.4, far - 0.9, low + 1.0, 0.5), WHITE)
        bar = x + side * 4.9
        pen.panel(camera.front(bar - 0.5, y - 8, bar + 0.5, y + 4, 0.5), "#d8c27a" if side > 0 else WHITE)
        for row in range(9):
            place = camera.at(bar, y - 7.4 + row * 1.3, 0.6)
            pen.dot(place, max(1.5, 0.22 * camera.scale), INK2)
            top = camera.at(x + side * (3.4 - row * 0.25), y + 9.8, 0.5)
            bend = camera.at(bar + side * 0.6, y + 2 - row * 0.5, 0.5)
            if row % 2 == 0 and camera.scale > 9:
                pen.curve([top, bend, place], COPPER if side > 0 else WHITE, 0.16 * camera.scale)
    for lean, ink in ((-0.8, "#1d1f22"), (0.8, "#1d1f22"), (-3.6, WHITE)):
        feeder = [(lean, -10.2), (lean * 1.1, -9), (lean, -7.2)]
        pen.curve([camera.at(x + dx, y + dy, 0.6) for dx, dy in feeder], ink, max(2.5, 0.3 * camera.scale))


def _plate_holes(pen: Pen, camera: Camera, item: Item) -> None:
    x, y = inches(item.x_nm), inches(item.y_nm)
    for side in (-2.6, 2.6):
        centre = camera.at(x + side, y - 1.4, 0)
        pen.disc(centre, 0.75 * camera.scale, DARK)
        pen.line(centre, camera.at(x + side * 0.9, y - 9, -0.5), ink=ELECTRIC, width=0.5 * camera.scale)


def _hangers(pen: Pen, camera: Camera, item: Item) -> None:
    x, y, half = inches(item.x_nm), inches(item.y_nm), inches(item.width_nm or 0) / 2
    for step in (-1, 0, 1):
        pen.panel(camera.front(x + step * half * 0.67 - 1.6, y - 4, x + step * half * 0.67 + 1.6, y, 0.1), STEEL)


def _boot(pen: Pen, camera: Camera, item: Item) -> None:
    centre = camera.at(inches(item.x_nm), inches(item.y_nm), 0.3)
    pen.disc(centre, 3.2 * camera.scale, STEEL)
    pen.disc(centre, 2.6 * camera.scale, DARK, AIR, max(3, camera.scale * 0.2))


_BOXES = {"receptacle", "switch", "disconnect"}
_Face = Callable[[Pen, Camera, Item], None]
_FACES: dict[str, _Face] = {
    "light box": _round_box,
    "alarm box": _round_box,
    "fan box": _round_box,
    "junction box": _round_box,
    "data box": _ring,
    "nail plate": _plate,
    "shield plate": _shield,
    "strap": _strap,
    "sub-panel": _panel_board,
    "stub-out": pipes.stub,
    "sleeve": pipes.stub,
    "valve": pipes.valve,
    "tee": pipes.tee,
    "cleanout": pipes.tee,
    "conduit entry": pipes.conduit_entry,
    "plate hole": _plate_holes,
    "vent": pipes.vent,
    "hanger": _hangers,
    "duct boot": _boot,
}
