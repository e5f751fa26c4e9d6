"""What is seen outside, or through the big opening: street, gable, outdoor unit, the old door, the loft."""

from webapp.demo.rules.drawing.camera import Block, Camera, draw_block
from webapp.demo.rules.drawing.ground import house, side_on
from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.props import level, tape_along
from webapp.demo.rules.drawing.shapes import (
    AIR,
    CONCRETE,
    CUT,
    DARK,
    DEEP,
    ELECTRIC,
    FAINT,
    GLOOM,
    HEIGHT,
    INK,
    INK2,
    OBJECT,
    SHADE,
    SHEATHING,
    SKY,
    STEEL,
    THIN,
    WHITE,
    WIDTH,
    WOOD,
    WOOD_SIDE,
)

ROOM = Camera(look=(80, 55), eye=(78, 58), away=190, scale=7.2, middle=(800, 560))


def _shell(pen: Pen) -> None:
    """The west end of the room round a big opening: floor, ceiling, side walls and the wall beside the door."""
    camera = ROOM
    pen.fill(GLOOM)
    pen.area(camera.flat(-60, 0, 220, 150), CONCRETE)
    for depth in (20, 48, 84):
        pen.line(camera.at(-30, 0, depth), camera.at(190, 0, depth), ink=FAINT, width=THIN)
    for x in (0, 161):
        pen.area(camera.across(x, 0, 0, 109, 150), SHEATHING)
        for depth in range(2, 150, 16):
            pen.panel(camera.across(x, 0, depth, 109, depth + 1.5), WOOD, INK2, THIN)
    for depth in range(6, 150, 24):
        pen.panel(camera.flat(-20, depth, 181, depth + 1.5, 109), WOOD_SIDE, INK, THIN)
    pen.panel(camera.front(0, 0, 161, 109), SHEATHING)
    for stud in (0, 8, 16, 143.5, 151.5, 159.5):
        pen.panel(camera.front(stud, 0, stud + 1.5, 96), WOOD)
    pen.panel(camera.front(0, 88, 161, 97), WOOD)


def big_door(pen: Pen, *, tracks: bool) -> None:
    """The old sectional door from inside, with springs and tracks above it, or with them lying on the floor."""
    camera = ROOM
    _shell(pen)
    for row in range(4):
        low = row * 21.5
        pen.panel(camera.front(20, low, 141, low + 21.5, -1), "#e4e3da")
        for column in range(4):
            x = 25 + column * 28.5
            fill = SKY if row == 3 else "#d8d7cd"
            pen.panel(camera.front(x, low + 5, x + 24, low + 16.5, -1), fill, INK2, OBJECT if row == 3 else THIN)
            if row == 3:
                pen.line(camera.at(x + 4, low + 8, -1), camera.at(x + 11, low + 15, -1), ink=WHITE, width=5)
    if tracks:
        for x in (18, 143):
            pen.line(camera.at(x, 0, 3), camera.at(x, 84, 3), camera.at(x, 95, 14), camera.at(x, 97, 120), width=12)
            pen.line(
                camera.at(x, 0, 3), camera.at(x, 84, 3), camera.at(x, 95, 14), camera.at(x, 97, 120), ink=STEEL, width=6
            )
        for start in (28, 84):
            for turn in range(22):
                x = start + turn * 2.3
                pen.line(camera.at(x, 98.5, 4), camera.at(x + 1.4, 103.5, 4), ink=DARK, width=6)
        pen.line(camera.at(20, 101, 4), camera.at(141, 101, 4), width=OBJECT)
        pen.subject.add("springs")
    pen.subject |= {"big door", "W"}


def street(pen: Pen) -> None:
    """The big door gone: a shored header, and a house and a car across the way."""
    camera = ROOM
    _shell(pen)
    pen.panel(camera.front(20, 0, 141, 88, -1), "#e6ecec")
    far = Camera(look=(-20, 30), eye=(0, 40), away=600, scale=2.35, middle=(800, 640))
    pen.area([camera.at(20, 0, -1), camera.at(141, 0, -1), camera.at(141, 27, -1), camera.at(20, 27, -1)], "#c3c6b4")
    house(pen, far)
    _over_opening(pen)
    car = [(560, 860), (585, 800), (660, 790), (705, 735), (850, 735), (900, 795), (980, 808), (990, 860)]
    pen.panel(car, "#b7c3c9")
    pen.panel([(690, 790), (722, 748), (778, 748), (778, 790)], SKY, INK, THIN)
    pen.panel([(792, 790), (792, 748), (842, 748), (872, 790)], SKY, INK, THIN)
    for x in (640, 905):
        pen.disc((x, 862), 34, DARK)
        pen.disc((x, 862), 14, STEEL, INK, THIN)
    for x in (52, 108):
        draw_block(pen, camera, Block(x, 0, x + 3.5, 88, 8, 12))
        pen.panel(camera.front(x - 5, 0, x + 9, 2, 12), WOOD)
    draw_block(pen, camera, Block(24, 86, 137, 91, 8, 12))
    pen.subject |= {"opening", "house", "shore", "W"}


def _over_opening(pen: Pen) -> None:
    """Redraws the wall round the opening, so that what lies outside stays outside."""
    camera = ROOM
    pen.area(camera.front(0, 88, 161, 109), SHEATHING)
    pen.panel(camera.front(0, 88, 161, 97), WOOD)
    pen.panel(camera.front(0, 106, 161, 109), WOOD)
    for x0, x1 in ((0, 20), (141, 161)):
        pen.panel(camera.front(x0, 0, x1, 88), SHEATHING)
        for x in range(int(x0), int(x1), 8):
            pen.panel(camera.front(x, 0, x + 1.5, 88), WOOD)
    pen.area(camera.flat(20, 0, 141, 150), CONCRETE)
    pen.line(camera.at(20, 0), camera.at(141, 0), width=CUT)


def loft(pen: Pen) -> None:
    """Up into the old roof: rafters to the ridge, ties across, a loft of boards lying on them."""
    pen.fill(GLOOM)
    ridge = (800, 150)
    for side in (-1, 1):
        pen.area([ridge, (800 + side * 900, 900), (800 + side * 900, 0), (800, 0)], "#c9c1ac")
        for step in range(9):
            foot = (800 + side * 880, 260 + step * 95)
            top = (800, 150 + step * 12)
            pen.line(foot, top, ink=INK, width=34 - step)
            pen.line(foot, top, ink=WOOD, width=27 - step)
        for step in range(7):
            start, end = (800 + side * (120 + step * 110), 0), (800 + side * (160 + step * 120), 900)
            pen.line(start, end, ink="#a39a82", width=THIN)
    pen.line((800, 0), (800, 200), width=30)
    pen.line((800, 0), (800, 200), ink=WOOD_SIDE, width=22)
    for step in range(4):
        y, reach = 470 + step * 165, 480 + step * 150
        pen.panel([(800 - reach, y), (800 + reach, y), (800 + reach, y + 46), (800 - reach, y + 46)], WOOD)
    for step in range(7):
        x = 360 + step * 128
        board = [
            (x, 452 - pen.random.uniform(0, 30)),
            (x + 112, 450),
            (x + 150 - step * 8, 640),
            (x - 20 - step * 8, 640),
        ]
        pen.panel(board, pen.random.choice((WOOD, WOOD_SIDE, "#e8d9b4")))
        pen.hatch(board, 30, 0.1, "#c3ae80", THIN)
    pen.line((250, HEIGHT), (330, 780), width=22, ink=STEEL)
    pen.line((520, HEIGHT), (440, 780), width=22, ink=STEEL)
    for y in (860, 960, 1070):
        pen.line((310 - (y - 860) * 0.2, y), (460 + (y - 860) * 0.2, y), width=14, ink=STEEL)
    pen.subject |= {"ties", "boards", "ladder", "C"}


def gable(pen: Pen, *, cut: bool) -> None:
    """The gable's outside round the sleeve, with a tape from the south-east corner; or the hole only marked."""
    camera = side_on((66, 106), 158) if cut else side_on((120.5, 118), 40)
    pen.fill("#eeeae0")
    y = 40.0
    while y < 170:
        pen.line(camera.at(0, y), camera.at(230, y), ink=INK2, width=OBJECT)
        pen.area(camera.front(0, y - 0.7, 230, y), SHADE)
        y += 6.0
    if cut:
        _sleeve_and_corner(pen, camera)
    else:
        _marked_hole(pen, camera)
    pen.subject.add("GX")


def _sleeve_and_corner(pen: Pen, camera: Camera) -> None:
    pen.area(camera.front(-40, 20, 0, 180), SKY)
    sky = [camera.at(*p) for p in ((-40, 100), (-14, 103), (84, 157), (182, 103), (182, 190), (-40, 190))]
    pen.area(sky, SKY)
    pen.panel(camera.front(0, 20, 6, 110), WHITE)
    for width, ink in ((40, INK), (32, WHITE)):
        pen.line(camera.at(-14, 103), camera.at(84, 157), camera.at(182, 103), ink=ink, width=width)
    centre = camera.at(120.5, 118)
    pen.disc(centre, 5 * camera.scale, WHITE)
    pen.disc(centre, 3.5 * camera.scale, STEEL, INK, CUT)
    pen.disc(centre, 3.0 * camera.scale, DARK, AIR, 8)
    tape_along(pen, camera, (0, 110), 120.5)
    pen.outline(camera.front(27, 20, 71, 86), INK, CUT)
    pen.panel(camera.front(30, 20, 68, 83), "#8d9aa0")
    for x in (34, 52):
        pen.panel(camera.front(x, 46, x + 12, 76), "#9fabb0", INK2, THIN)
    pen.subject |= {"sleeve", "tape"}


def _marked_hole(pen: Pen, camera: Camera) -> None:
    centre = camera.at(120.5, 118)
    for reach in (3.5, 3.42):
        pen.arc(centre, reach * camera.scale, (0, 358), INK2, OBJECT)
    pen.line(camera.at(114, 118), camera.at(127, 118), ink=INK2, width=OBJECT)
    pen.line(camera.at(120.5, 112), camera.at(120.5, 124), ink=INK2, width=OBJECT)
    level(pen, camera, (120.5, 122.6))
    for width, ink in ((40, INK), (32, STEEL)):
        pen.line(camera.at(113, 114), camera.at(113, 107), camera.at(126, 107), ink=ink, width=width)
    for mark in range(12):
        pen.line(camera.at(114 + mark, 107.4), camera.at(114 + mark, 107), width=THIN, waver=0)
    pen.letters("7", camera.at(125.4, 115.6), 50, INK2)
    pen.subject |= {"mark", "level"}


def unit(pen: Pen) -> None:
    """The outdoor unit on its pad against the south wall."""
    camera = side_on((0, 22), 76)
    pen.fill("#eeeae0")
    for y in range(8, 56, 6):
        pen.line(camera.at(-40, y), camera.at(40, y), ink=INK2, width=OBJECT)
    pen.area(camera.front(-40, -12, 40, 2), "#b9c29a")
    pen.panel(camera.front(-20, -1, 20, 3), CONCRETE, INK, CUT)
    for x in (-13, 10):
        pen.panel(camera.front(x, 3, x + 3, 5), DARK)
    pen.panel(camera.front(-16, 5, 16, 29), "#e7eae6", INK, CUT)
    centre = camera.at(-4, 17)
    for reach in (10.2, 8.2, 6.2, 4.2, 2.2):
        pen.arc(centre, reach * camera.scale, (0, 359), INK, OBJECT)
    for turn in range(0, 360, 24):
        pen.arc(centre, 9.6 * camera.scale, (turn, turn + 1), INK, THIN)
    for blade in range(3):
        pen.arc(centre, 5.4 * camera.scale, (blade * 120, blade * 120 + 60), DARK, 30)
    pen.disc(centre, 1.6 * camera.scale, DARK)
    pen.panel(camera.front(8.5, 8, 14.5, 25), "#d9ddd8")
    for y in range(10, 24, 2):
        pen.line(camera.at(9.2, y), camera.at(13.8, y), ink=INK2, width=THIN)
    pen.panel(camera.front(9.4, 25.7, 13.6, 27.7), WHITE, INK2, THIN)
    pen.scribble((camera.at(9.8, 26.7)), 66, 12, INK2)
    pen.panel(camera.front(23, 26, 30, 37), STEEL)
    pen.subject |= {"outdoor unit", "pad"}


def nails(pen: Pen) -> None:
    """Sheathing nails in their rows, with a stick laid across them."""
    camera = side_on((24, 24), 44)
    pen.fill(SHEATHING)
    for _ in range(170):
        x, y = pen.random.uniform(0, 48), pen.random.uniform(4, 44)
        flake = [
            camera.at(x, y),
            camera.at(x + pen.near(2.2), y + pen.near(1.2)),
            camera.at(x + pen.near(2), y + pen.near(1)),
        ]
        pen.area(flake, pen.random.choice(("#d9cba8", "#cdbd97", "#eee4cb")))
    pen.line(camera.at(24, 0), camera.at(24, 48), width=CUT)
    for x, gap in ((23.2, 6), (24.8, 6), (8, 12), (40, 12)):
        for y in range(4, 48, gap):
            place = camera.at(x + pen.near(0.1), y + pen.near(0.2))
            pen.disc(place, 11, STEEL)
            pen.dot((place[0] + 2, place[1] + 2), 4, INK2)
    stick = [camera.at(25.4, 6), camera.at(28, 6), camera.at(28, 44), camera.at(25.4, 44)]
    pen.panel(stick, WOOD)
    for y in range(10, 44, 6):
        pen.line(camera.at(25.4, y), camera.at(26.8, y), ink=ELECTRIC, width=CUT)
    pen.letters("6", camera.at(27.3, 19), 34)
    pen.subject |= {"sheathing", "nails", "W"}


def carton(pen: Pen) -> None:
    """The fan in its open carton on the bench, with a note on top."""
    pen.fill("#e3d3ae")
    for y in (190, 470, 760, 1040):
        pen.line((0, y), (WIDTH, y + 10), ink=INK2, width=OBJECT)
    pen.area([(360, 1010), (1300, 1010), (1420, 1090), (420, 1090)], DEEP)
    pen.panel([(330, 440), (1230, 440), (1230, 1020), (330, 1020)], "#c9a877")
    pen.panel([(330, 440), (460, 300), (1340, 300), (1230, 440)], "#8d7550")
    pen.panel([(1230, 440), (1340, 300), (1340, 880), (1230, 1020)], "#b39265")
    pen.panel([(330, 440), (180, 520), (200, 400), (460, 300)], "#d6b88a")
    pen.panel([(1340, 300), (1480, 380), (1390, 500), (1230, 440)], "#d6b88a")
    pen.panel([(640, 330), (1010, 330), (1010, 436), (640, 436)], STEEL)
    for x, wide in ((560, 46), (1010, 46)):
        pen.panel([(x, 348), (x + wide + 34, 348), (x + wide + 34, 424), (x, 424)], "#b9c2c6")
    pen.arc((825, 384), 44, (0, 359), INK, OBJECT)
    pen.panel([(430, 620), (860, 600), (876, 880), (446, 900)], WHITE)
    for row in range(4):
        pen.scribble((470, 668 + row * 56), 340, 30)
    pen.panel([(980, 700), (1160, 700), (1160, 860), (980, 860)], WHITE, INK2, OBJECT)
    for row in range(4):
        pen.scribble((1000, 730 + row * 32), 130, 16, INK2)
    pen.subject |= {"fan", "carton", "note"}
