"""A steady but human hand: strokes that waver a little, hatches, shading, grain and lettering."""

import math
from collections.abc import Iterable, Sequence
from itertools import pairwise
from random import Random

from webapp.demo.rules.drawing.lettering import strokes
from webapp.demo.rules.drawing.shapes import (
    FAINT,
    HEIGHT,
    INK,
    OBJECT,
    PAPER,
    THIN,
    WIDTH,
    Area,
    Disc,
    Line,
    Point,
    Scene,
    Shape,
)

_STEP = 90.0
_MARGIN = 60.0


class Pen:
    """Collects shapes; the same `seed` and the same calls give the same shapes."""

    def __init__(self, seed: str) -> None:
        self.random = Random(seed)
        self.shapes: list[Shape] = []
        self.subject: set[str] = set()

    def scene(self) -> Scene:
        """What has been drawn so far."""
        return Scene(tuple(self.shapes), frozenset(self.subject))

    def near(self, reach: float) -> float:
        """A small amount, up or down."""
        return self.random.uniform(-reach, reach)

    def fill(self, fill: str = PAPER) -> None:
        """The whole sheet in one tone."""
        self.area([(0, 0), (WIDTH, 0), (WIDTH, HEIGHT), (0, HEIGHT)], fill)

    def area(self, points: Iterable[Point], fill: str) -> None:
        """A tone without an outline."""
        drawn = tuple(points)
        if sees(drawn):
            self.shapes.append(Area(drawn, fill))

    def line(self, *points: Point, ink: str = INK, width: float = OBJECT, waver: float = 1.0) -> None:
        """A stroke by hand: long stretches are broken and each break strays a little."""
        if not sees(points):
            return
        drawn = [points[0]]
        for start, end in pairwise(points):
            steps = max(1, int(math.dist(start, end) / _STEP))
            for step in range(1, steps + 1):
                share = step / steps
                stray = waver if step < steps else waver * 0.6
                x = start[0] + (end[0] - start[0]) * share + self.near(stray)
                y = start[1] + (end[1] - start[1]) * share + self.near(stray)
                drawn.append((x, y))
        self.shapes.append(Line(tuple(drawn), ink, width))

    def curve(self, points: Sequence[Point], ink: str = INK, width: float = OBJECT) -> None:
        """A smooth stroke through `points` (Catmull-Rom, as in any text on curves)."""
        if not sees(points):
            return
        padded = [points[0], *points, points[-1]]
        drawn: list[Point] = []
        for before, start, end, after in zip(padded, padded[1:], padded[2:], padded[3:], strict=False):
            drawn += [_between(before, start, end, after, step / 8) for step in range(8)]
        self.shapes.append(Line((*drawn, points[-1]), ink, width))

    def outline(self, points: Sequence[Point], ink: str = INK, width: float = OBJECT) -> None:
        """Each edge as its own stroke, running a little past the corner as a draughtsman's does."""
        for start, end in zip(points, [*points[1:], points[0]], strict=True):
            length = math.dist(start, end) or 1.0
            past = min(4.0, length * 0.05) / length
            ahead = (end[0] + (end[0] - start[0]) * past, end[1] + (end[1] - start[1]) * past)
            self.line(start, ahead, ink=ink, width=width)

    def panel(self, points: Sequence[Point], fill: str, ink: str = INK, width: float = OBJECT) -> None:
        """A tone with its outline."""
        if not sees(points):
            return
        self.area(points, fill)
        self.outline(points, ink, width)

    def disc(self, centre: Point, radius: float, fill: str, ink: str = INK, width: float = OBJECT) -> None:
        """A circle with its outline."""
        self.shapes.append(Disc(centre, radius + width / 2, ink))
        self.shapes.append(Disc(centre, max(0.0, radius - width / 2), fill))

    def dot(self, centre: Point, radius: float, fill: str = INK) -> None:
        """A circle without outline."""
        self.shapes.append(Disc(centre, radius, fill))

    def arc(
        self, centre: Point, radius: float, turn: tuple[float, float], ink: str = INK, width: float = OBJECT
    ) -> None:
        """Part of a circle, from and to in degrees, clockwise from the right."""
        steps = 12 + int(radius / 8)
        angles = [math.radians(turn[0] + (turn[1] - turn[0]) * step / steps) for step in range(steps + 1)]
        points = [(centre[0] + radius * math.cos(a), centre[1] + radius * math.sin(a)) for a in angles]
        self.shapes.append(Line(tuple(points), ink, width))

    def hatch(
        self, points: Sequence[Point], gap: float, lean: float = 1.0, ink: str = FAINT, width: float = THIN
    ) -> None:
        """Slanted strokes inside a convex outline; `lean` is the run of a stroke for each unit of rise."""
        if not sees(points):
            return
        keys = [x + y * lean for x, y in points]
        sheet = (0.0, WIDTH, HEIGHT * lean, WIDTH + HEIGHT * lean)
        key = max(min(keys), min(sheet)) + gap * 0.6
        while key < min(max(keys), max(sheet)):
            crossed = []
            for index, start in enumerate(points):
                end = points[(index + 1) % len(points)]
                first, last = keys[index] - key, keys[(index + 1) % len(points)] - key
                if (first < 0) != (last < 0):
                    share = first / (first - last)
                    crossed.append((start[0] + (end[0] - start[0]) * share, start[1] + (end[1] - start[1]) * share))
            if len(crossed) == 2:
                self.line(crossed[0], crossed[1], ink=ink, width=width, waver=1.5)
            key += gap * self.random.uniform(0.8, 1.2)

    def letters(self, text: str, at: Point, size: float, ink: str = INK, width: float | None = None) -> None:
        """Single-stroke capitals centred on `at`; `size` is the height of a capital."""
        for stroke in strokes(text, at, size):
            self.shapes.append(Line(stroke, ink, width or max(THIN, size / 7)))

    def scribble(self, at: Point, length: float, size: float, ink: str = INK) -> None:
        """A line of handwriting that nobody can read."""
        x, end = at[0], at[0] + length
        while x < end - size:
            word_end = min(end, x + size * self.random.uniform(1.5, 5.5))
            points = [(x, at[1])]
            while x < word_end:
                x += size * self.random.uniform(0.16, 0.34)
                points.append((x, at[1] + self.near(size * 0.34)))
            self.curve(points, ink, max(THIN, size / 9))
            x += size * 0.7


def sees(points: Iterable[Point]) -> bool:
    """Whether a shape through `points` can be on the sheet at all."""
    places = list(points)
    left, right = min(x for x, _ in places), max(x for x, _ in places)
    top, bottom = min(y for _, y in places), max(y for _, y in places)
    return right > -_MARGIN and left < WIDTH + _MARGIN and bottom > -_MARGIN and top < HEIGHT + _MARGIN


def _between(before: Point, start: Point, end: Point, after: Point, share: float) -> Point:
    return (
        _spline(before[0], start[0], end[0], after[0], share),
        _spline(before[1], start[1], end[1], after[1], share),
    )


def _spline(a: float, b: float, c: float, d: float, t: float) -> float:
    return 0.5 * (2 * b + (c - a) * t + (2 * a - 5 * b + 4 * c - d) * t**2 + (3 * b - a - 3 * c + d) * t**3)
