"""A surface on paper at a stated round scale: the largest of a fixed list at which it fits, upright or lying.

A drawing unit is a 128th of an inch, so that lettering of 16 units is an eighth of an inch high.
"""

from dataclasses import dataclass, replace
from fractions import Fraction

from webapp.surfaces.rules.bands import Band
from webapp.surfaces.rules.drawing import Drawing, Scale
from webapp.surfaces.rules.elevation import Facts, draw_on, sheet_top
from webapp.surfaces.rules.framing import UPRIGHT
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.sketch import scale_bar
from webapp.surfaces.rules.spotted import hatched
from webapp.values.length import NM_PER_INCH, NM_PER_MM, show_length

UNITS_PER_INCH = 128
SIDE = 118
"""units kept free at each side for measures of heights"""
BELOW = 150
"""and at least below it for those of lengths and for the scale bar"""
HATCH_STEP = 9
MOST_DEPTHS, DEEPEST = 10, 170
"""depths of a trench are drawn larger by a whole factor, up to about so many units"""


@dataclass(frozen=True, slots=True)
class Paper:
    """A sheet upright, and what is kept free at its edges, in nanometres; paper.css has the same margins."""

    name: str
    title: str
    width_nm: int
    height_nm: int
    margin_nm: int


PAPERS = {
    "a4": Paper("a4", "A4", 210 * NM_PER_MM, 297 * NM_PER_MM, 10 * NM_PER_MM),
    "letter": Paper("letter", "Letter", 17 * NM_PER_INCH // 2, 11 * NM_PER_INCH, 2 * NM_PER_INCH // 5),
}
"""A4 is 210 x 297 mm (ISO 216), letter 8 1/2 x 11 in (ANSI/ASME Y14.1, size A); both from memory"""


def usual_paper(unit: str) -> str:
    """The paper that goes with a unit, where none is asked for."""
    return "letter" if unit in {"ft-in", "in"} else "a4"


TITLE_NM = 30 * NM_PER_MM
"""height of the title block and of the note about the scale, which stand on the sheet with the drawing"""
FEET = {"1½": 8, "1": 12, "¾": 16, "½": 24, "⅜": 32, "¼": 48, "³⁄₁₆": 64, "⅛": 96, "¹⁄₁₆": 192, "¹⁄₃₂": 384}
"""inches of paper for a foot, and the ratio that is (common drafting practice, from memory; the ratio is arithmetic)"""
METRIC = (10, 20, 25, 50, 100, 200, 500, 1000)
"""usual ratios (ISO 5455 has most of them; 1:25 is common practice; from memory)"""


@dataclass(frozen=True, slots=True)
class Stated:
    """A scale: `ratio` of the surface to its drawing, and the words on the sheet."""

    ratio: int
    words: str


def scales(unit: str) -> tuple[Stated, ...]:
    """All that are used, the largest drawing first."""
    if unit not in {"ft-in", "in"}:
        return tuple(Stated(ratio, f"1:{ratio}") for ratio in METRIC)
    return tuple(Stated(ratio, f"{inches}″ = 1′ 0″ (1:{ratio})") for inches, ratio in FEET.items())


@dataclass(frozen=True, slots=True)
class Printed:
    """The drawing of a surface for one paper. `width` and `height` are lengths of CSS and measure true on paper.

    `bar_nm`: how long the scale bar is on paper; `stands_for`: what it says.
    """

    drawing: Drawing
    scale: Stated
    lying: bool
    width: str
    height: str
    bar_nm: int
    stands_for: str


def printed(facts: Facts, found: tuple[Band, ...], paper: Paper) -> Printed | None:
    """None where not even the smallest scale fits."""
    for scale in scales(facts.face.unit):
        for lying in (False, True):
            made = _fitted(facts, found, paper, scale, lying=lying)
            if made is not None:
                return made
    return None


def _fitted(facts: Facts, found: tuple[Band, ...], paper: Paper, scale: Stated, *, lying: bool) -> Printed | None:
    wide, tall = room(paper, lying=lying)
    face, along = facts.face, UNITS_PER_INCH / (NM_PER_INCH * scale.ratio)
    depths = 1
    if face.kind == SurfaceKind.TRENCH:
        depths = max(1, min(MOST_DEPTHS, int(DEEPEST / (face.height_nm * along))))
    top, long = sheet_top(facts), face.length_nm * along
    if long + 2 * SIDE > wide or top + face.height_nm * along * depths + BELOW > tall:
        return None
    down = face.kind not in UPRIGHT
    set_on = Scale((wide - long) / 2, top, face.length_nm, face.height_nm, along, along * depths, down)
    drawing = draw_on(facts, set_on, depths, wide)
    if drawing.height > tall:
        return None
    ground, *rest = drawing.layers
    drawing = replace(drawing, layers=(ground, hatched(found, set_on, HATCH_STEP), *rest))
    bar = scale_bar(0, 0, face.length_nm, face.length_nm, face.unit)
    metric = paper.name == "a4"
    size = (_css(wide, metric=metric), _css(drawing.height, metric=metric))
    return Printed(drawing, scale, lying, *size, bar.length // scale.ratio, bar.words)


def room(paper: Paper, *, lying: bool) -> tuple[int, int]:
    """Whole units inside the margins, the title block left out: as wide, and as high."""
    width, height = paper.width_nm - 2 * paper.margin_nm, paper.height_nm - 2 * paper.margin_nm
    if lying:
        width, height = height, width
    return _units(width), _units(height - TITLE_NM)


def _units(nm: int) -> int:
    return nm * UNITS_PER_INCH // NM_PER_INCH


def _css(units: int, *, metric: bool) -> str:
    """Exactly: a 128th of an inch has seven decimals, in millimetres eight."""
    inches = Fraction(units, UNITS_PER_INCH)
    value = inches * Fraction(254, 10) if metric else inches
    return f"{_decimal(value)}{'mm' if metric else 'in'}"


def _decimal(value: Fraction) -> str:
    """Of a number whose decimals end."""
    whole, rest = divmod(value * 10**8, 1)
    if rest:
        raise ValueError(f"{value} has no end in eight decimals")
    return f"{int(whole) // 10**8}.{int(whole) % 10**8:08}".rstrip("0").rstrip(".")


def bar_words(made: Printed, unit: str) -> str:
    """`3 in` or `40 mm`: what the bar must measure on paper."""
    return show_length(made.bar_nm, "in" if unit in {"ft-in", "in"} else "mm")
