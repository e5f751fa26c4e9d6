"""Papers: cards, slips, notices, letters, drawings and receipts, with figures to read and words that nobody can."""

from webapp.demo.rules.drawing.pen import Pen
from webapp.demo.rules.drawing.shapes import (
    CUT,
    FAINT,
    HEIGHT,
    INK,
    INK2,
    OBJECT,
    SHADE,
    THIN,
    WHITE,
    WIDTH,
    WOOD,
    Point,
)

_BENCH = "#e3d3ae"
PENCIL = "#5d6468"


def bench(pen: Pen) -> None:
    """A bench top as background: boards running across, with grain."""
    pen.fill(_BENCH)
    for row in range(5):
        y = row * 260 + 90
        pen.line((0, y), (WIDTH, y + 14), ink=INK2, width=OBJECT)
        for _ in range(6):
            start = (pen.random.uniform(0, 1100), y + pen.random.uniform(20, 240))
            length = pen.random.uniform(200, 520)
            points = [(start[0] + length * s / 3, start[1] + pen.near(9)) for s in range(4)]
            pen.curve(points, "#c3ae80", THIN)
    for place in ((250, 1010), (1380, 180)):
        for reach in (34, 22, 10):
            pen.arc(place, reach, (0, 350), "#b79f6e", THIN)


class Leaf:
    """A sheet of paper lying a little askew; places on it run from 0 to 1 across and down."""

    def __init__(self, pen: Pen, left: float, top: float, size: Point, lean: float, fill: str = WHITE) -> None:
        self.pen, self.left, self.top, self.lean = pen, left, top, lean
        self.wide, self.high = size
        shadow = [(x + 14, y + 16) for x, y in self.corners()]
        pen.area(shadow, SHADE)
        pen.panel(self.corners(), fill, INK, OBJECT)

    def at(self, across: float, down: float) -> Point:
        """Where a place of the leaf lies on the picture."""
        x, y = self.left + across * self.wide, self.top + down * self.high
        return (x - down * self.high * self.lean, y + across * self.wide * self.lean)

    def corners(self) -> list[Point]:
        """Its outline."""
        return [self.at(0, 0), self.at(1, 0), self.at(1, 1), self.at(0, 1)]

    def title(self, text: str, down: float, size: float = 52) -> None:
        """A heading in printed capitals with a heavy rule under it."""
        self.pen.letters(text, self.at(0.5, down), size, INK, size / 6)
        self.pen.line(self.at(0.07, down + 0.055), self.at(0.93, down + 0.055), width=CUT)

    def writing(self, first: float, last: float, rows: int, ink: str = INK, right: float = 0.92) -> None:
        """Ruled lines filled in by hand."""
        for row in range(rows):
            down = first + (last - first) * row / max(1, rows - 1)
            self.pen.line(self.at(0.07, down + 0.02), self.at(0.93, down + 0.02), ink=FAINT, width=THIN)
            x, y = self.at(0.09, down)
            length = (right - 0.12) * self.wide * self.pen.random.uniform(0.55, 1.0)
            self.pen.scribble((x, y), length, 30, ink)

    def table(self, first: float, last: float, rows: int, columns: tuple[float, ...]) -> None:
        """A ruled table."""
        for row in range(rows + 1):
            down = first + (last - first) * row / rows
            self.pen.line(self.at(0.07, down), self.at(0.93, down), width=2.4)
        for across in columns:
            self.pen.line(self.at(across, first), self.at(across, last), width=2.4)


def card(pen: Pen, signed: int, struck: int = -1) -> None:
    """A card with a line for each visit, the first `signed` of them dated and signed; row `struck` is crossed out."""
    bench(pen)
    leaf = Leaf(pen, 420, 70, (800, 1050), 0.025, "#efe6c4")
    leaf.title("INSPECTION CARD", 0.07)
    pen.scribble(leaf.at(0.09, 0.17), 420, 26)
    pen.scribble(leaf.at(0.58, 0.17), 230, 26)
    rows = 8
    leaf.table(0.24, 0.94, rows, (0.07, 0.17, 0.47, 0.66, 0.93))
    for row in range(rows):
        down = 0.24 + 0.7 * (row + 0.5) / rows
        pen.letters(str(row + 1), leaf.at(0.12, down), 30, INK2)
        if row < signed:
            pen.scribble(leaf.at(0.19, down), 190, 26)
            pen.scribble(leaf.at(0.49, down), 120, 28, PENCIL)
            signature = [leaf.at(0.69 + step * 0.022, down + pen.near(0.018)) for step in range(10)]
            pen.curve(signature, "#24407a", 4.4)
        if row == struck:
            pen.line(leaf.at(0.08, down + 0.01), leaf.at(0.92, down - 0.01), width=CUT)
    pen.subject |= {"card"}


def notice(pen: Pen, heading: str, items: int, *, pencil: bool = False) -> None:
    """A slip or notice with numbered items, each a few lines of handwriting."""
    bench(pen)
    leaf = Leaf(pen, 470, 60, (700, 1080), -0.03, "#f3ecd2" if pencil else WHITE)
    leaf.title(heading, 0.08, 46)
    pen.scribble(leaf.at(0.09, 0.18), 330, 26)
    pen.scribble(leaf.at(0.6, 0.18), 190, 26)
    for item in range(items):
        first = 0.27 + item * 0.56 / max(items, 1)
        pen.disc(leaf.at(0.12, first), 24, WHITE, INK, OBJECT)
        pen.letters(str(item + 1), leaf.at(0.12, first), 26)
        for row in range(2 if items > 2 else 3):
            x, y = leaf.at(0.19, first + row * 0.06)
            pen.scribble((x, y), pen.random.uniform(330, 480), 32, PENCIL if pencil else INK)
            pen.line((x, y + 26), (x + 500, y + 10), ink=FAINT, width=THIN)
    signature = [leaf.at(0.55 + step * 0.03, 0.92 + pen.near(0.016)) for step in range(11)]
    pen.curve(signature, "#24407a", 4.6)
    pen.line(leaf.at(0.52, 0.955), leaf.at(0.92, 0.955), width=2.4)
    pen.subject |= {"notice"}


def letter(pen: Pen, heading: str) -> None:
    """A page of writing under a heading."""
    bench(pen)
    leaf = Leaf(pen, 430, 50, (790, 1090), 0.02)
    leaf.title(heading, 0.08, 44)
    leaf.writing(0.2, 0.82, 13)
    pen.curve([leaf.at(0.55 + step * 0.03, 0.91 + pen.near(0.016)) for step in range(11)], "#24407a", 4.6)
    pen.subject |= {"letter"}


def makers_sheet(pen: Pen, heading: str) -> None:
    """A printed leaflet: a dimensioned figure above, a table below."""
    bench(pen)
    leaf = Leaf(pen, 420, 50, (800, 1090), -0.015)
    leaf.title(heading, 0.07, 44)
    pen.panel([leaf.at(0.25, 0.18), leaf.at(0.68, 0.18), leaf.at(0.68, 0.42), leaf.at(0.25, 0.42)], "#eef0ee")
    pen.panel([leaf.at(0.31, 0.22), leaf.at(0.62, 0.22), leaf.at(0.62, 0.38), leaf.at(0.31, 0.38)], WHITE)
    pen.line(leaf.at(0.25, 0.46), leaf.at(0.68, 0.46), width=THIN)
    pen.line(leaf.at(0.74, 0.18), leaf.at(0.74, 0.42), width=THIN)
    for place in ((0.25, 0.46), (0.68, 0.46), (0.74, 0.18), (0.74, 0.42)):
        x, y = leaf.at(*place)
        pen.line((x - 12, y + 12), (x + 12, y - 12), width=OBJECT)
    leaf.table(0.54, 0.93, 7, (0.07, 0.4, 0.67, 0.93))
    for row in range(7):
        for across in (0.09, 0.43, 0.7):
            pen.scribble(leaf.at(across, 0.54 + 0.39 * (row + 0.5) / 7), 150, 22, INK2)
    pen.subject |= {"maker's sheet"}


def plan_sheet(pen: Pen) -> None:
    """Stamped plans half unrolled: a plan, a section and a stamp."""
    bench(pen)
    leaf = Leaf(pen, 150, 150, (1260, 860), 0.015)
    pen.outline([leaf.at(0.02, 0.03), leaf.at(0.98, 0.03), leaf.at(0.98, 0.97), leaf.at(0.02, 0.97)], INK, OBJECT)
    pen.outline([leaf.at(0.08, 0.14), leaf.at(0.6, 0.14), leaf.at(0.6, 0.62), leaf.at(0.08, 0.62)], INK, CUT + 2)
    pen.outline([leaf.at(0.1, 0.17), leaf.at(0.58, 0.17), leaf.at(0.58, 0.59), leaf.at(0.1, 0.59)], INK, OBJECT)
    pen.line(
        leaf.at(0.66, 0.6), leaf.at(0.66, 0.3), leaf.at(0.79, 0.14), leaf.at(0.92, 0.3), leaf.at(0.92, 0.6), width=CUT
    )
    pen.line(leaf.at(0.64, 0.6), leaf.at(0.94, 0.6), width=CUT)
    for down in (0.7, 0.76, 0.82, 0.88):
        pen.scribble(leaf.at(0.08, down), 560, 22, INK2)
    for reach in (96, 82):
        pen.arc(leaf.at(0.8, 0.8), reach, (0, 360), "#bf1029", OBJECT)
    pen.letters("SEEN", leaf.at(0.8, 0.8), 44, "#bf1029")
    pen.disc(leaf.at(-0.005, 0.5), 34, "#e8e4d6")
    pen.subject |= {"plans"}


def till_slip(pen: Pen, day: str, lines: int, total: str) -> None:
    """A till slip: a scribbled head, one scribbled line each, the total in figures."""
    bench(pen)
    rows = min(lines, 10)
    high = min(1090, 520 + rows * 62)
    leaf = Leaf(pen, 530, (HEIGHT - high) / 2 - 10, (540, high), 0.03, "#fbfbf8")
    zigzag = [leaf.at(step / 24, 1.0 + (0.012 if step % 2 else 0.0)) for step in range(25)]
    pen.line(*zigzag, width=OBJECT, waver=0)
    pen.letters("RECEIPT", leaf.at(0.5, 70 / high), 46, INK, 7)
    pen.scribble(leaf.at(0.25, 140 / high), 260, 24, INK2)
    pen.letters(day, leaf.at(0.5, 200 / high), 28, INK2)
    for row in range(rows):
        down = (270 + row * 62) / high
        pen.scribble(leaf.at(0.08, down), pen.random.uniform(190, 300), 24)
        pen.scribble(leaf.at(0.77, down), 92, 24)
    foot = (285 + rows * 62) / high
    pen.line(leaf.at(0.08, foot), leaf.at(0.92, foot), width=CUT)
    pen.letters("TOTAL", leaf.at(0.24, foot + 70 / high), 40)
    pen.letters(total, leaf.at(0.7, foot + 70 / high), 46, INK, 8)
    for step in range(34):
        x = 0.14 + step * 0.0215
        pen.line(leaf.at(x, foot + 125 / high), leaf.at(x, foot + 175 / high), width=pen.random.choice((2, 4, 7)))
    pen.area([leaf.at(0, 0.47), leaf.at(1, 0.46), leaf.at(1, 0.475), leaf.at(0, 0.485)], SHADE)
    pen.subject |= {"receipt", total}


def sleeve(pen: Pen) -> None:
    """The permit card in a clear sleeve, pinned by the door."""
    pen.fill("#e6dcc4")
    for x in range(0, WIDTH, 200):
        pen.line((x, 0), (x + 4, HEIGHT), ink=FAINT, width=THIN)
    pen.panel([(0, 0), (210, 0), (214, HEIGHT), (0, HEIGHT)], WOOD)
    leaf = Leaf(pen, 470, 130, (720, 940), -0.012, "#f0dfa6")
    leaf.title("PERMIT", 0.09, 70)
    leaf.writing(0.22, 0.6, 6)
    pen.outline([leaf.at(0.1, 0.68), leaf.at(0.44, 0.68), leaf.at(0.44, 0.92), leaf.at(0.1, 0.92)])
    pen.scribble(leaf.at(0.5, 0.75), 290, 28)
    pen.scribble(leaf.at(0.5, 0.86), 240, 28)
    pen.panel([leaf.at(-0.06, -0.05), leaf.at(1.06, -0.05), leaf.at(1.06, 1.05), leaf.at(-0.06, 1.05)], "#ffffff30")
    pen.line(leaf.at(0.1, 0.98), leaf.at(0.62, 0.03), ink=WHITE, width=9)
    for across in (0.03, 0.97):
        pen.disc(leaf.at(across, -0.02), 13, "#bf1029")
    pen.subject |= {"card"}
