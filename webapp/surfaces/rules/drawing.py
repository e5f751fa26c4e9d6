"""What a drawing is put together from: paths with a pen, lettering, tags, and the scale that sets facts on the sheet.

Drawing units are pixels on a phone; a pen is one or more classes of `static/css/drawing.css`.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field
from functools import lru_cache
from html import escape
from typing import NamedTuple

from webapp.surfaces.rules.face import Point

LETTER = 9.2
"""width allowed for one letter of the 16 px lettering"""


class Path(NamedTuple):
    """One or more strokes of the same pen, as SVG path data."""

    d: str
    pen: str


class Text(NamedTuple):
    """Lettering by its baseline; `turned` reads upwards from (x, y)."""

    x: str
    y: str
    words: str
    pen: str = ""
    turned: bool = False

    @property
    def svg(self) -> str:
        pen = f' class="{self.pen}"' if self.pen else ""
        if self.turned:
            return f'<text{pen} transform="translate({self.x} {self.y}) rotate(-90)">{escaped(self.words)}</text>'
        return f'<text{pen} x="{self.x}" y="{self.y}">{escaped(self.words)}</text>'


class Tag(NamedTuple):
    """The short name of the thing `id` in its box, in drawing units; `leader` joins it to the thing."""

    id: int
    words: str
    label: str
    x: float
    y: float
    width: float
    height: float
    leader: str

    @property
    def box(self) -> str:
        return rect(self.x, self.y, self.width, self.height)

    @property
    def svg(self) -> str:
        return _boxed(self.words, self.x, self.y, self.width, self.height)


@lru_cache(maxsize=1024)
def _boxed(words: str, x: float, y: float, width: float, height: float) -> str:
    text = Text(show(x + width / 2), show(y + height / 2 + 5.5), words, "mid")
    return f'<path class="l2 f-paper" d="{rect(x, y, width, height)}"/>{text.svg}'


class Layer(NamedTuple):
    """What is drawn after the layers before it: first its paths, then its lettering."""

    paths: tuple[Path, ...]
    texts: tuple[Text, ...]

    @property
    def svg(self) -> str:
        """As markup: hundreds of strokes at once cost a template too much. Words are escaped here; nothing else is
        typed by anybody."""
        found = [f'<path class="{path.pen}" d="{path.d}"/>' for path in self.paths]
        found += [text.svg for text in self.texts]
        return "".join(found)


@dataclass(frozen=True, slots=True)
class Drawing:
    """A whole drawing. `scale` sets the surface on it; `depths` says how much larger depths are drawn."""

    width: int
    height: int
    layers: tuple[Layer, ...]
    tags: tuple[Tag, ...]
    scale: "Scale"
    depths: int = 1

    @property
    def units_per_nm(self) -> float:
        return self.scale.along

    @property
    def svg(self) -> str:
        """All layers as markup."""
        return "".join(layer.svg for layer in self.layers)

    def linked(self, href: str, spots: Mapping[int, str], marked: int = 0) -> str:
        """All tags as markup, each leading to its thing below `href`; `spots`: where each thing lies, for the scripts;
        `marked` is the thing that is new. The leaders of all are one path."""
        leaders, to = "".join(tag.leader for tag in self.tags), f'<a href="{escaped(href)}/'
        found = [f'<path class="l1" d="{leaders}"/>'] if leaders else []
        for tag in self.tags:
            new = ' class="new"' if tag.id == marked else ""
            spot = f' data-at="{escaped(spots[tag.id])}"' if tag.id in spots else ""
            words = f"{escaped(tag.words)}, {escaped(tag.label)}"
            found.append(f'{to}{tag.id}" aria-label="{words}"{new}{spot}>{tag.svg}</a>')
        return "".join(found)


@dataclass(frozen=True, slots=True)
class Scale:
    """Sets nanometres of the surface on the sheet: x to the right of `left`, y up from `base` or down from `top`."""

    left: float
    top: float
    length_nm: int
    height_nm: int
    along: float
    across: float
    down: bool

    @property
    def spot(self) -> str:
        """Where offset 0 lies, how many units a nanometre takes along and across, and which way the second one runs:
        what turns a place on the drawing back into offsets."""
        zero, way = (self.top, 1) if self.down else (self.base, -1)
        return f"{show(self.left)} {show(zero)} {self.along!r} {self.across!r} {way}"

    @property
    def right(self) -> float:
        return self.left + self.length_nm * self.along

    @property
    def base(self) -> float:
        return self.top + self.height_nm * self.across

    def x(self, nm: int) -> float:
        return self.left + nm * self.along

    def y(self, nm: int) -> float:
        return self.top + nm * self.across if self.down else self.base - nm * self.across

    def at(self, point: Point) -> tuple[float, float]:
        return self.x(point[0]), self.y(point[1])

    def box(self, x_nm: int, y_nm: int, width_nm: int, height_nm: int) -> str:
        """Path of a rectangle by its lower left corner (in a plan or trench its upper left one)."""
        top = self.y(y_nm) if self.down else self.y(y_nm + height_nm)
        return rect(self.x(x_nm), top, width_nm * self.along, height_nm * self.across)


@dataclass(slots=True)
class Pens:
    """A layer in the making. Strokes of one pen that follow each other become one path."""

    strokes: list[tuple[str, list[str]]] = field(default_factory=list)
    texts: list[Text] = field(default_factory=list)

    def draw(self, d: str, pen: str) -> None:
        if not d:
            return
        if self.strokes and self.strokes[-1][0] == pen:
            self.strokes[-1][1].append(d)
        else:
            self.strokes.append((pen, [d]))

    def draw_all(self, paths: Iterable[Path]) -> None:
        for path in paths:
            self.draw(path.d, path.pen)

    def add(self, layer: Layer) -> None:
        """What was drawn before, after what is there."""
        self.draw_all(layer.paths)
        self.texts.extend(layer.texts)

    def write(self, x: float, y: float, words: str, pen: str = "", *, turned: bool = False) -> None:
        self.texts.append(lettered(x, y, words, pen, turned=turned))

    def layer(self) -> Layer:
        return Layer(tuple(Path("".join(parts), pen) for pen, parts in self.strokes), tuple(self.texts))


@lru_cache(maxsize=1024)
def escaped(words: str) -> str:
    """As markup: what a drawing letters is lettered again and again."""
    return escape(words)


def show(value: float) -> str:
    """A number of a drawing: two decimals at most."""
    text = f"{value:.2f}".rstrip("0").rstrip(".")
    return "0" if text == "-0" else text


def lettered(x: float, y: float, words: str, pen: str = "", *, turned: bool = False) -> Text:
    return Text(show(x), show(y), words, pen, turned)


def rect(x: float, y: float, width: float, height: float) -> str:
    return f"M{show(x)} {show(y)}h{show(width)}v{show(height)}h{show(-width)}z"


def line(x1: float, y1: float, x2: float, y2: float) -> str:
    return f"M{show(x1)} {show(y1)}L{show(x2)} {show(y2)}"


def circle(x: float, y: float, radius: float) -> str:
    size, over = show(radius), show(2 * radius)
    return f"M{show(x - radius)} {show(y)}a{size} {size} 0 1 0 {over} 0a{size} {size} 0 1 0 -{over} 0z"


def polyline(points: Iterable[tuple[float, float]]) -> str:
    return "M" + "L".join(f"{show(x)} {show(y)}" for x, y in points)
