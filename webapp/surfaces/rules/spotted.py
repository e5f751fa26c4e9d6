"""A surface with its no-screw bands and the spot that is asked about, to be tapped; and the way back from a tap."""

from collections.abc import Iterable, Sequence
from dataclasses import dataclass, replace
from math import ceil, floor

from webapp.surfaces.rules.bands import Band
from webapp.surfaces.rules.drawing import Drawing, Layer, Pens, Scale, circle, line, show
from webapp.surfaces.rules.elevation import GLANCE, Facts, glance, glance_scale
from webapp.surfaces.rules.extent import Box
from webapp.surfaces.rules.face import Face, Point
from webapp.values.length import NM_PER_CM, NM_PER_INCH

STEP = 7
"""between the lines of the hatch, in drawing units"""


def spotted(facts: Facts, found: Sequence[Band], spot: Point | None, hand_nm: int) -> Drawing:
    """The whole surface on a narrow screen; its ring is as wide as the drawing, so it may be small."""
    scale, _depths = glance_scale(facts.face)
    drawing = glance(facts)
    ground, *rest = drawing.layers
    layers = [ground, hatched(found, scale), *rest]
    if spot is not None:
        layers.append(ring(spot, hand_nm, scale))
    return replace(drawing, layers=tuple(layers))


def hatched(found: Iterable[Band], scale: Scale, step: int = STEP) -> Layer:
    """Slanted lines over all bands together, as one field: where bands overlap nothing is drawn twice."""
    boxes = [on_sheet(band.box, scale) for band in found]
    pens = Pens()
    if boxes:
        first, last = floor(min(b[0] + b[1] for b in boxes) / step), ceil(max(b[2] + b[3] for b in boxes) / step)
        pens.draw("".join(_diagonal(boxes, at * step) for at in range(first, last + 1)), "l1 bar")
    return pens.layer()


Edges = tuple[float, float, float, float]


def on_sheet(box: Box, scale: Scale) -> Edges:
    """Left, top, right and bottom in drawing units."""
    (x1, y1), (x2, y2) = scale.at((box.left, box.low)), scale.at((box.right, box.high))
    return x1, min(y1, y2), x2, max(y1, y2)


def _diagonal(boxes: Sequence[Edges], total: float) -> str:
    """Path of the pieces of one slanted line (x + y is `total`) that lie in any of the boxes."""
    spans = sorted(
        (max(left, total - bottom), min(right, total - top))
        for left, top, right, bottom in boxes
        if max(left, total - bottom) < min(right, total - top)
    )
    joined: list[tuple[float, float]] = []
    for start, end in spans:
        if joined and start <= joined[-1][1]:
            joined[-1] = (joined[-1][0], max(end, joined[-1][1]))
        else:
            joined.append((start, end))
    return "".join(line(start, total - start, end, total - end) for start, end in joined)


def ring(spot: Point, hand_nm: int, scale: Scale) -> Layer:
    """A hand's breadth around the spot, with a cross that leaves the spot itself to be seen."""
    x, y = scale.at(spot)
    wide, tall = hand_nm * scale.along, hand_nm * scale.across
    pens = Pens()
    around = f"M{show(x - wide)} {show(y)}a{show(wide)} {show(tall)} 0 1 0 {show(2 * wide)} 0"
    pens.draw(f"{around}a{show(wide)} {show(tall)} 0 1 0 {show(-2 * wide)} 0z", "l3")
    cross = line(x - wide * 1.5, y, x - wide * 0.5, y) + line(x + wide * 0.5, y, x + wide * 1.5, y)
    cross += line(x, y - tall * 1.5, x, y - tall * 0.5) + line(x, y + tall * 0.5, x, y + tall * 1.5)
    pens.draw(cross, "l2")
    pens.draw(circle(x, y, 2.2), "f-ink")
    return pens.layer()


@dataclass(frozen=True, slots=True)
class Tapped:
    """Where a picture of `width` units was tapped, counted from its left upper corner."""

    x: float
    y: float
    width: int


def tapped_spot(scale: Scale, face: Face, at: Tapped, drawn: int = GLANCE) -> Point:
    """The place on the surface, rounded to what a finger can mean; a tap beside the surface is taken as its edge."""
    larger = drawn / at.width
    x, y = at.x * larger, at.y * larger
    across = (y - scale.top) if scale.down else (scale.base - y)
    step = NM_PER_INCH if face.unit in {"ft-in", "in"} else 2 * NM_PER_CM
    return (
        _rounded((x - scale.left) / scale.along, face.length_nm, step),
        _rounded(across / scale.across, face.height_nm, step),
    )


def _rounded(nm: float, most: int, step: int) -> int:
    return max(0, min(most, round(nm / step) * step))
