"""What stands for each hidden thing on the sheet. The same thing on the same sheet is drawn once and remembered."""

from collections.abc import Sequence
from dataclasses import dataclass
from functools import lru_cache
from itertools import pairwise

from webapp.surfaces.rules.drawing import Layer, Path, Pens, Scale, circle, show
from webapp.surfaces.rules.face import Face, Opening, Run, Thing
from webapp.surfaces.rules.framing import blocks, lumber_nm
from webapp.surfaces.rules.room import Cells, Grid
from webapp.surfaces.rules.symbols import LYING, PLATES, Symbol, symbol
from webapp.values.length import NM_PER_INCH


@dataclass(frozen=True, slots=True)
class Mark:
    """What stands for a thing on the sheet: its strokes, the cells they take, and how far the tag keeps off."""

    drawn: Layer
    cells: Cells
    reach: float


@lru_cache(maxsize=512)
def mark_at(kind: str, x: float, y: float, pen: str, width: float, small: bool, replaced: bool, grid: Grid) -> Mark:
    """Blocking is drawn with the framing; on a narrow screen most things are a dot."""
    drawn = Symbol((), (4.0, 4.0))
    if small and kind != "blocking":
        drawn = Symbol((Path(circle(x, y, 3), f"{pen} sym f-paper"),), drawn.reach)
    elif kind != "blocking":
        drawn = symbol(kind, x, y, pen, width)
    paths, reach = drawn.paths, drawn.reach
    if replaced and not small:
        paths = tuple(Path(path.d, f"{path.pen.replace(' sym', '')} hid") for path in paths)
    cells = grid.box(x - reach[0], y - reach[1], 2 * reach[0], 2 * reach[1])
    return Mark(Layer(paths, drawn.texts), cells, min(reach))


def drawn_width(runs: Sequence[Run], thing: Thing, scale: Scale) -> float:
    """Drawn width, which stays on the sheet; below zero for a nail plate that lies flat across a line up or down."""
    if thing.kind in PLATES:
        return -1 if _runs_upright(runs, thing) else 1
    x, y = scale.at((thing.x_nm, thing.y_nm))
    most = 2 * (min(x - scale.left, scale.right - x) + 14)
    if thing.kind not in LYING:
        most = min(most, 2 * (min(y - scale.top, scale.base - y) + 14))
    return max(0.0, min((thing.width_nm or 0) * scale.along, most))


def _runs_upright(runs: Sequence[Run], thing: Thing) -> bool:
    """Whether a run of the thing's service passes it up and down."""
    for run in runs:
        for (x1, y1), (x2, y2) in pairwise(run.points):
            if x1 == x2 == thing.x_nm and min(y1, y2) <= thing.y_nm <= max(y1, y2):
                return True
    return False


@lru_cache(maxsize=128)
def blocking(face: Face, openings: tuple[Opening, ...], thing: Thing, scale: Scale) -> Layer:
    """A row of blocking: each board with its diagonal."""
    pens, width = Pens(), thing.width_nm or 14 * NM_PER_INCH
    pieces = blocks(face, openings, thing.x_nm, thing.y_nm, width, lumber_nm(thing.label))
    hidden = " hid" if thing.replaced else ""
    for x, y, wide, tall in pieces:
        x1, y1 = scale.at((x, y))
        x2, y2 = scale.at((x + wide, y + tall))
        pens.draw(scale.box(x, y, wide, tall), f"l2 f-paper{hidden}")
        pens.draw(f"M{show(x1)} {show(max(y1, y2))}L{show(x2)} {show(min(y1, y2))}", "l1")
    return pens.layer()
