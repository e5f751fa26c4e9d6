"""A framed wall or ceiling from its facts: back, what runs in the bays, wood, and what is put over it."""

from collections.abc import Iterable
from dataclasses import dataclass
from itertools import pairwise

from webapp.demo.rules.cells import NM_PER_INCH
from webapp.demo.rules.drawing.camera import Block, Camera, draw_front, draw_sides
from webapp.demo.rules.drawing.pen import Pen, sees
from webapp.demo.rules.drawing.shapes import (
    BATT,
    DARK,
    DEEP,
    FAINT,
    GLOOM,
    HEIGHT,
    INK,
    INK2,
    SHADE,
    SHEATHING,
    SKY,
    THIN,
    WHITE,
    WIDTH,
    WOOD,
    Point,
)
from webapp.demo.rules.place_rows import Item, Opening, Run, Service, Surface

STUD = 1.5


def inches(nm: int) -> float:
    """Nanometres as inches, for drawing only."""
    return nm / NM_PER_INCH


@dataclass(frozen=True)
class Frame:
    """A surface with what belongs to it, and how it is to be shown.

    `look` holds words: `bare` (no openings), `old` (nothing new), `pipes` (no wires yet), `batts`, `retarder`, `board`,
    `mud`, `primed`, `half board`, `daylight` (no sheathing yet), `one jack`, `one side` (half framed).
    """

    surface: Surface
    openings: tuple[Opening, ...]
    items: tuple[Item, ...]
    runs: tuple[Run, ...]
    services: dict[str, Service]
    look: frozenset[str]

    @property
    def length(self) -> float:
        return inches(self.surface.length_nm)

    @property
    def height(self) -> float:
        return inches(self.surface.height_nm)

    @property
    def depth(self) -> float:
        return 5.5 if self.surface.kind == "ceiling" else 3.5

    @property
    def covered(self) -> bool:
        return bool(self.look & {"board", "mud", "primed"})


def draw_back(pen: Pen, camera: Camera, frame: Frame) -> None:
    """The inner side of the sheathing, board by board, darker towards the top, and the sides of the studs."""
    back = -frame.depth
    tone = GLOOM if frame.surface.kind == "ceiling" else SHEATHING
    if "daylight" in frame.look:
        tone = SKY
    pen.area(camera.front(0, 0, frame.length, frame.height, back), tone)
    for low in (0.7, 0.84) if camera.scale < 20 else ():
        pen.area(camera.front(0, frame.height * low, frame.length, frame.height, back), "#16262f14")
    step = 7.5 if "old" in frame.look else 24.0
    y = step
    while y < frame.height:
        pen.line(camera.at(0, y, back), camera.at(frame.length, y, back), ink=INK2, width=THIN)
        y += step
    if camera.scale > 20 and "old" not in frame.look and frame.surface.kind == "wall":
        _flakes(pen, camera.at(0, frame.height, back), camera.at(frame.length, 0, back))
    for block in members(frame):
        draw_sides(pen, camera, block)
        if block.y1 - block.y0 > 6:
            _bay_shadow(pen, camera, block)


def _flakes(pen: Pen, first: Point, last: Point) -> None:
    """The pressed flakes of the sheathing, seen from near by, between two opposite corners of it."""
    for _ in range(110):
        x = pen.random.uniform(max(0, first[0]), min(WIDTH, last[0]))
        y = pen.random.uniform(max(0, first[1] + 40), min(HEIGHT, last[1]))
        flake = [(x, y), (x + pen.near(70), y + pen.near(34)), (x + pen.near(60), y + pen.near(40))]
        pen.area(flake, pen.random.choice(("#dfd3b7", "#ece3cd", "#d9ccae")))


def _bay_shadow(pen: Pen, camera: Camera, block: Block) -> None:
    """What a stud throws on the sheathing beside it: a tone, and pencil strokes across it."""
    shadow = camera.front(block.x1, block.y0, block.x1 + 2.6, block.y1, block.z0)
    pen.area(shadow, SHADE)
    pen.hatch(shadow, max(13.0, camera.scale * 1.1), 0.7, "#8f8772", THIN)


def draw_wood(pen: Pen, camera: Camera, frame: Frame) -> None:
    """The faces of plates, studs, headers and sills, with grain where they are large enough to show it."""
    for block in members(frame):
        draw_front(pen, camera, block)
        draw_grain(pen, camera, block)


def draw_grain(pen: Pen, camera: Camera, block: Block) -> None:
    """A few long lines along the wood, and now and then a knot."""
    if camera.scale < 9 or not sees(camera.front(block.x0, block.y0, block.x1, block.y1, block.z1)):
        return
    upright = block.y1 - block.y0 > block.x1 - block.x0
    low, high = (block.y0, block.y1) if upright else (block.x0, block.x1)
    base, wide = (block.x0, block.x1 - block.x0) if upright else (block.y0, block.y1 - block.y0)
    for share in (0.22, 0.45, 0.68, 0.85)[: 4 if camera.scale > 20 else 2]:
        side = base + wide * (share + pen.near(0.06))
        ends = [low + (high - low) * part for part in (0.02, 0.3, 0.62, 0.98)]
        sides = [side + pen.near(wide * 0.05) for _ in ends]
        points = [
            camera.at(s, e, block.z1) if upright else camera.at(e, s, block.z1)
            for s, e in zip(sides, ends, strict=True)
        ]
        pen.curve(points, FAINT, THIN)


def members(frame: Frame) -> list[Block]:
    """Every piece of the frame as a block, studs first and plates last."""
    depth, length, height = -frame.depth, frame.length, frame.height
    openings = () if "bare" in frame.look else frame.openings
    studs = [Block(0, STUD, STUD, height - 2 * STUD, depth)]
    x = inches(frame.surface.first_stud_nm or 0)
    spacing = inches(frame.surface.spacing_nm or 0) or 16
    while x < length - 2:
        studs += [Block(x - STUD / 2, y0, x + STUD / 2, y1, depth) for y0, y1 in _pieces(x, openings, height)]
        x += spacing
    studs.append(Block(length - STUD, STUD, length, height - 2 * STUD, depth))
    for opening in openings:
        studs += _round_opening(opening, frame)
    plates = [(0, STUD), (height - 2 * STUD, height - STUD), (height - STUD, height)]
    doors = [o for o in openings if o.kind == "door"]
    for y0, y1 in plates:
        cuts = [(inches(o.x_nm), inches(o.x_nm + o.width_nm)) for o in doors] if y0 == 0 else []
        studs += [Block(a, y0, b, y1, depth) for a, b in _without(0, length, cuts)]
    return studs


def _without(start: float, end: float, cuts: list[Point]) -> list[Point]:
    pieces = []
    for low, high in cuts:
        pieces.append((start, low))
        start = high
    return [*pieces, (start, end)]


def _pieces(x: float, openings: Iterable[Opening], height: float) -> list[Point]:
    """The stretches of a stud at `x` that the openings leave standing."""
    for opening in openings:
        left, right = inches(opening.x_nm), inches(opening.x_nm + opening.width_nm)
        low, high = inches(opening.y_nm), inches(opening.y_nm + opening.height_nm)
        beside = 3.75 if opening.kind != "hatch" else 2.2
        if left <= x <= right:
            below = [] if low < 4 else [(STUD, low - STUD)]
            return [*below, (high + 5.5, height - 2 * STUD)]
        if left - beside < x < right + beside:
            return []
    return [(STUD, height - 2 * STUD)]


def _round_opening(opening: Opening, frame: Frame) -> list[Block]:
    """Kings, jacks, header and sill of one opening."""
    depth = -frame.depth
    left, right = inches(opening.x_nm), inches(opening.x_nm + opening.width_nm)
    low, high = inches(opening.y_nm), inches(opening.y_nm + opening.height_nm)
    jacks = opening.jacks_each_side or 0
    found = []
    for side, out in ((left, -1.0), (right, 1.0)):
        if side == right and "one side" in frame.look:
            continue
        count = 1 if side == left and "one jack" in frame.look else jacks
        for place in range(count):
            near, far = sorted((side + out * STUD * place, side + out * STUD * (place + 1)))
            found.append(Block(near, STUD, far, high, depth))
        near, far = sorted((side + out * STUD * count, side + out * STUD * (count + 1)))
        found.append(Block(near, STUD, far, frame.height - 2 * STUD, depth))
    reach = STUD * max(jacks, 1)
    found.append(Block(left - reach, high, right + reach, high + 5.5, depth))
    if low > 4:
        found.append(Block(left, low - STUD, right, low, depth))
    return found


def draw_opening(pen: Pen, camera: Camera, frame: Frame, opening: Opening) -> None:
    """What is seen through an opening: glass and sky, a door leaf, a board over it, or the attic."""
    x0, y0 = inches(opening.x_nm), inches(opening.y_nm)
    x1, y1 = x0 + inches(opening.width_nm), y0 + inches(opening.height_nm)
    if opening.kind == "door":
        _door(pen, camera, x0, x1, y1)
    elif opening.kind == "hatch":
        pen.panel(camera.front(x0, y0, x1, y1, -frame.depth), DARK)
    elif "boarded" in opening.state:
        pen.panel(camera.front(x0, y0, x1, y1, -3.2), WOOD)
        for share in (0.0, 1.0):
            pen.line(
                camera.at(x0, y0 + (y1 - y0) * share, -3.2), camera.at(x1, y1 - (y1 - y0) * share, -3.2), ink=FAINT
            )
        pen.hatch(camera.front(x0, y0, x1, y1, -3.2), camera.scale * 2.6, 0.3)
    else:
        _window(pen, camera, x0, y0, x1, y1)


def _window(pen: Pen, camera: Camera, x0: float, y0: float, x1: float, y1: float) -> None:
    back = -2.8
    pen.panel(camera.front(x0, y0, x1, y1, back), SKY)
    far = y0 + (y1 - y0) * 0.34
    steps = 7
    hills = [
        camera.at(x0 + (x1 - x0) * step / steps, far + pen.near((y1 - y0) * 0.05), back) for step in range(steps + 1)
    ]
    pen.area([*hills, camera.at(x1, y0, back), camera.at(x0, y0, back)], "#cfd8cf")
    pen.curve(hills, INK2, THIN)
    for inset in (0.0, 1.6):
        pen.outline(camera.front(x0 + inset, y0 + inset, x1 - inset, y1 - inset, back), INK, 3.0)
    middle = (x0 + x1) / 2
    pen.line(camera.at(middle, y0, back), camera.at(middle, y1, back), width=5.0)
    for share in (0.28, 0.36):
        x = x0 + (middle - x0) * share
        pen.line(camera.at(x, y0 + (y1 - y0) * 0.55, back), camera.at(x + 5, y0 + (y1 - y0) * 0.85, back), ink=WHITE)


def _door(pen: Pen, camera: Camera, x0: float, x1: float, y1: float) -> None:
    back = -2.5
    pen.panel(camera.front(x0, 0, x1, y1, back), WHITE)
    leaf = (x0 + 1.2, 0.6, x1 - 1.2, y1 - 1.2)
    pen.panel(camera.front(*leaf, back), "#dfe3e0")
    for low, high in ((7.0, 32.0), (39.0, 74.0)):
        for left, right in ((leaf[0] + 4, leaf[0] + 16), (leaf[2] - 16, leaf[2] - 4)):
            pen.panel(camera.front(left, low, right, high, back), "#e9ece8", INK2, THIN)
    pen.disc(camera.at(leaf[2] - 3, 36, back), 1.2 * camera.scale, "#c9b26a")


def draw_batts(pen: Pen, camera: Camera, frame: Frame) -> None:
    """Insulation bay by bay, as the loops of a drafting hatch."""
    pen.area(camera.front(0, STUD, frame.length, frame.height - STUD, -0.3), BATT)
    edges = sorted({round(b.x1, 2) for b in members(frame) if b.y1 - b.y0 > 20})
    rise = max(4.5, 26 / camera.scale)
    for left, right in pairwise(edges):
        width = right - left - STUD
        if width < 4:
            continue
        y, points, flip = STUD + rise / 2, [], False
        while y < frame.height - 3:
            low, high = left + width * 0.1, left + width * 0.9
            points += [
                camera.at(low if flip else high, y, -0.3),
                camera.at(high if flip else low, y + rise * 0.1, -0.3),
            ]
            y, flip = y + rise, not flip
        pen.curve(points, "#a98f5c", THIN + 0.4)


def draw_retarder(pen: Pen, camera: Camera, frame: Frame) -> None:
    """A thin clear sheet over studs and batts, with its taped seams and a little shine."""
    pen.area(camera.front(0, 0, frame.length, frame.height, 0.1), "#e8eff26e")
    x = 36.0
    while x < frame.length:
        shine = [camera.at(x, 12, 0.1), camera.at(x + 5, 50, 0.1), camera.at(x + 2, 96, 0.1)]
        pen.curve(shine, WHITE, max(3.0, camera.scale * 0.5))
        x += 41
    for seam in (frame.length * 0.34, frame.length * 0.68):
        pen.panel(camera.front(seam, 0, seam + 2.5, frame.height, 0.15), "#e9e4c8", INK2, THIN)


def draw_board(pen: Pen, camera: Camera, frame: Frame, upto: float) -> None:
    """Gypsum board up to `upto` inches from the left, with screws, mud or primer over it as the look says."""
    fill = "#f6f4ec" if "primed" in frame.look else "#e4e2da"
    pen.panel(camera.front(0, 0.5, upto, frame.height, 0.5), fill)
    if "primed" in frame.look:
        pen.hatch(camera.front(0, 0.5, upto, frame.height, 0.5), 70, 0.4, "#dcdad0", 5)
        return
    joints = [(0.0, 54.5, upto, 54.5)] + [(x, y, x, y + 54.5) for x, y in ((144.0, 0.5), (113.0, 54.5)) if x < upto]
    for x0, y0, x1, y1 in joints:
        ends = (camera.at(x0, y0, 0.5), camera.at(x1, min(y1, frame.height), 0.5))
        if "mud" in frame.look:
            pen.line(*ends, ink="#f7f5ee", width=camera.scale * 7, waver=3)
        else:
            pen.line(*ends, ink=INK2)
    for block in members(frame):
        if block.x1 - block.x0 > 2 or block.x1 > upto:
            continue
        for y in range(4, int(frame.height), 12):
            pen.dot(camera.at(block.x0 + 0.7, y, 0.5), 2.2, "#f7f5ee" if "mud" in frame.look else INK2)
    pen.area(camera.front(0, 0.5, upto, 3.0, 0.5), DEEP)
