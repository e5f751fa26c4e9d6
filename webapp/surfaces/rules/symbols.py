"""Symbols of hidden things by kind, drawn about a centre at a fixed size on the sheet; the manner is drafting practice.

Receptacle, switch, network drop and duct follow ANSI Y32.9-1972 in simple form (from memory); the letter or colour of
the service is never the only mark.
"""

from collections.abc import Callable
from dataclasses import dataclass

from webapp.surfaces.rules.drawing import Path, Text, circle, line, rect, show


@dataclass(frozen=True, slots=True)
class Symbol:
    """Strokes and lettering; `reach` is how far it extends to each side, in drawing units."""

    paths: tuple[Path, ...]
    reach: tuple[float, float]
    texts: tuple[Text, ...] = ()


Maker = Callable[[float, float, str, float], Symbol]
"""x, y, pen, and the drawn width of the thing (0 when it has none)"""


def symbol(kind: str, x: float, y: float, pen: str, width: float = 0) -> Symbol:
    """The symbol of a kind of thing; what has none of its own is a small ring."""
    return MAKERS.get(kind, _ring)(x, y, pen, width)


def has_symbol(kind: str) -> bool:
    return kind in MAKERS


def _lettered(letter: str, radius: float = 9.5) -> Maker:
    def make(x: float, y: float, pen: str, _width: float) -> Symbol:
        text = Text(show(x), show(y + 5.5), letter, f"mid {pen}")
        return Symbol((Path(circle(x, y, radius), f"{pen} sym f-paper"),), (radius, radius), (text,))

    return make


def _boxed(letter: str) -> Maker:
    def make(x: float, y: float, pen: str, _width: float) -> Symbol:
        text = Text(show(x), show(y + 5.5), letter, f"mid {pen}")
        return Symbol((Path(rect(x - 9, y - 9, 18, 18), f"{pen} sym f-paper"),), (9, 9), (text,))

    return make


def _ring(x: float, y: float, pen: str, _width: float) -> Symbol:
    return Symbol((Path(circle(x, y, 5), f"{pen} sym f-paper"),), (5, 5))


def _receptacle(x: float, y: float, pen: str, _width: float) -> Symbol:
    bars = line(x - 3, y - 13, x - 3, y + 13) + line(x + 3, y - 13, x + 3, y + 13)
    return Symbol((Path(circle(x, y, 9), f"{pen} sym f-paper"), Path(bars, f"{pen} sym")), (9, 13))


def _triangle(x: float, y: float, pen: str, _width: float) -> Symbol:
    d = f"M{show(x)} {show(y - 10)}l10 18h-20z"
    return Symbol((Path(d, f"{pen} sym f-paper"),), (10, 10))


def _light(x: float, y: float, pen: str, _width: float) -> Symbol:
    rays = "".join(
        line(x + 8 * across, y + 8 * down, x + 13 * across, y + 13 * down)
        for across, down in ((0, -1), (1, 0), (0, 1), (-1, 0))
    )
    return Symbol((Path(circle(x, y, 8), f"{pen} sym f-paper"), Path(rays, f"{pen} sym")), (13, 13))


def _duct(x: float, y: float, pen: str, width: float) -> Symbol:
    radius = max(9.0, width / 2)
    cut = radius * 0.707
    cross = line(x - cut, y - cut, x + cut, y + cut) + line(x - cut, y + cut, x + cut, y - cut)
    centre = line(x - radius - 7, y, x + radius + 7, y) + line(x, y - radius - 7, x, y + radius + 7)
    drawn = (
        Path(circle(x, y, radius), f"{pen} sym f-paper"),
        Path(cross, f"{pen} sym"),
        Path(centre, "l1 ctr"),
    )
    return Symbol(drawn, (radius + 4, radius + 4))


def _sleeve(x: float, y: float, pen: str, width: float) -> Symbol:
    radius = max(8.0, width / 2)
    centre = line(x - radius - 6, y, x + radius + 6, y) + line(x, y - radius - 6, x, y + radius + 6)
    return Symbol((Path(circle(x, y, radius), f"{pen} sym f-paper"), Path(centre, "l1")), (radius + 2, radius + 2))


def _panel(x: float, y: float, pen: str, width: float) -> Symbol:
    """A box with two rows of breakers; only its width is on record, its height is drawn half as much again."""
    wide = max(17.0, width)
    tall = wide * 1.4
    inset, left, top = wide / 5, x - wide / 2, y - tall / 2
    rungs = max(3, int((tall - 2 * inset) // 7))
    step = (tall - 2 * inset) / rungs
    rows = "".join(
        line(left + inset, top + inset + at * step, x + wide / 2 - inset, top + inset + at * step)
        for at in range(rungs + 1)
    )
    paths = (
        Path(rect(left, top, wide, tall), f"{pen} sym f-paper"),
        Path(rows, "l1"),
        Path(line(x, top + inset, x, y + tall / 2 - inset), f"{pen} sym"),
    )
    return Symbol(paths, (wide / 2, tall / 2))


def _stub(x: float, y: float, pen: str, _width: float) -> Symbol:
    dot = circle(x, y, 1.2)
    return Symbol((Path(circle(x, y, 7), f"{pen} sym f-paper"), Path(dot, f"{pen} sym")), (7, 7))


def _conduit(x: float, y: float, pen: str, _width: float) -> Symbol:
    return Symbol((Path(circle(x, y, 7) + circle(x, y, 3), f"{pen} sym f-paper"),), (7, 7))


def _valve(x: float, y: float, pen: str, _width: float) -> Symbol:
    bow = f"M{show(x - 10)} {show(y - 7)}v14l20 -14v14z"
    return Symbol((Path(bow, f"{pen} sym f-paper"),), (10, 7))


def _crossed_box(x: float, y: float, _pen: str, width: float) -> Symbol:
    """Sawn framing cut through."""
    wide = max(14.0, width)
    box = rect(x - wide / 2, y - 6, wide, 12)
    cross = line(x - wide / 2, y - 6, x + wide / 2, y + 6) + line(x - wide / 2, y + 6, x + wide / 2, y - 6)
    return Symbol((Path(box, "l2 f-paper"), Path(cross, "l1")), (wide / 2, 6))


def _strap(x: float, y: float, _pen: str, width: float) -> Symbol:
    """A strip of metal with its nails."""
    wide = max(22.0, width)
    nails = "".join(circle(x + at * (wide / 2 - 5), y, 0.8) for at in (-1, -0.5, 0.5, 1))
    return Symbol((Path(rect(x - wide / 2, y - 4, wide, 8), "l2 f-paper"), Path(nails, "l1")), (wide / 2, 4))


def _plate(x: float, y: float, _pen: str, width: float) -> Symbol:
    """A nail plate: a black bar across the line. A width below zero lays it flat."""
    wide, tall = (14.0, 7.0) if width < 0 else (7.0, 14.0)
    return Symbol((Path(rect(x - wide / 2, y - tall / 2, wide, tall), "f-ink"),), (wide / 2, tall / 2))


def _earth(x: float, y: float, pen: str, _width: float) -> Symbol:
    """The sign for earth: three bars, shorter and shorter."""
    bars = line(x - 9, y, x + 9, y) + line(x - 6, y + 4.5, x + 6, y + 4.5) + line(x - 3, y + 9, x + 3, y + 9)
    return Symbol((Path(line(x, y - 8, x, y) + bars, f"{pen} sym"),), (9, 9))


def _dashes(x: float, y: float, _pen: str, width: float) -> Symbol:
    """Something laid along the surface: a strip of dashes."""
    wide = max(30.0, width)
    return Symbol((Path(line(x - wide / 2, y, x + wide / 2, y), "l3 hid"),), (wide / 2, 3))


def _rods(x: float, y: float, _pen: str, width: float) -> Symbol:
    """Short bars across a cut."""
    wide = max(30.0, width)
    count = max(2, int(wide // 16))
    bars = "".join(
        line(x - wide / 2 + at * wide / count, y - 6, x - wide / 2 + at * wide / count, y + 6)
        for at in range(count + 1)
    )
    return Symbol((Path(bars, "l2"),), (wide / 2, 6))


def _outline(x: float, y: float, _pen: str, width: float) -> Symbol:
    wide = max(16.0, width)
    return Symbol((Path(rect(x - wide / 2, y - wide / 2, wide, wide), "l2 hid"),), (wide / 2, wide / 2))


def _crossing(x: float, y: float, pen: str, _width: float) -> Symbol:
    cross = line(x - 5, y - 5, x + 5, y + 5) + line(x - 5, y + 5, x + 5, y - 5)
    return Symbol((Path(circle(x, y, 8), f"{pen} sym f-paper"), Path(cross, f"{pen} sym")), (8, 8))


MAKERS: dict[str, Maker] = {
    "receptacle": _receptacle,
    "switch": _lettered("S"),
    "data box": _triangle,
    "light box": _light,
    "junction box": _lettered("J"),
    "alarm box": _lettered("SD", 12),
    "fan box": _lettered("F"),
    "disconnect": _boxed("D"),
    "sub-panel": _panel,
    "duct": _duct,
    "duct boot": _duct,
    "sleeve": _sleeve,
    "stub-out": _stub,
    "pipe end": _stub,
    "drain": _stub,
    "vent": _stub,
    "cleanout": _boxed("C"),
    "valve": _valve,
    "conduit": _conduit,
    "conduit entry": _conduit,
    "nail plate": _plate,
    "shield plate": _plate,
    "strap": _strap,
    "hanger": _strap,
    "fireblock": _crossed_box,
    "ground rod": _earth,
    "ground wire": _earth,
    "warning tape": _dashes,
    "tracer wire": _dashes,
    "barrier": _dashes,
    "dowel": _rods,
    "crossing": _crossing,
    "cap": _outline,
    "flashing": _outline,
}
"""kinds with a symbol of their own; blocking is drawn with the framing"""
PLATES = {"nail plate", "shield plate"}
LYING = {"strap", "hanger", "fireblock", "warning tape", "tracer wire", "barrier", "dowel"}
"""kinds that are much longer than high"""
