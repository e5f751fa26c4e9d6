"""A surface drawn to scale: a wall as an elevation, a ceiling or slab as a plan, a trench as a section.

The same facts always make the same drawing. Two sizes: the measured sheet, and a glance for a narrow screen with tags
only.
"""

from dataclasses import dataclass, replace
from functools import lru_cache

from webapp.surfaces.rules.corners import across_corners
from webapp.surfaces.rules.dimensions import draw_bar, letter_low_corners, measure_across, measure_along, measure_chain
from webapp.surfaces.rules.drawing import LETTER, Drawing, Layer, Pens, Scale, polyline, rect, show
from webapp.surfaces.rules.face import Face, Opening, Run, Thing
from webapp.surfaces.rules.framing import (
    HATCH,
    UPRIGHT,
    draw_floor,
    opening_words,
    structure,
)
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.lines import colour_of, draw_runs, led, write_letters, write_names
from webapp.surfaces.rules.marking import blocking, drawn_width, mark_at
from webapp.surfaces.rules.room import Sheet
from webapp.surfaces.rules.studs import (
    mirrored_face,
    mirrored_openings,
    mirrored_runs,
    mirrored_things,
)
from webapp.surfaces.rules.symbols import LYING, symbol
from webapp.surfaces.rules.tags import Placing, Wanted
from webapp.values.length import show_length

WIDTH, SIDE, TALLEST = 880, 118, 520
GLANCE, GLANCE_SIDE, GLANCE_TALLEST = 350, 18, 300
DEEPEST = 170
"""depths of a trench are drawn larger by a whole factor, up to about this height"""
MOST_DEPTHS = 10
THROUGH = "through"


@dataclass(frozen=True, slots=True)
class Facts:
    """All a drawing of one surface is made from."""

    face: Face
    openings: tuple[Opening, ...] = ()
    things: tuple[Thing, ...] = ()
    runs: tuple[Run, ...] = ()
    through: tuple[Thing, ...] = ()
    """what is in the other face of the same wall, and the runs in it, by the offsets of this face: drawn faint"""
    through_runs: tuple[Run, ...] = ()


def mirrored(facts: Facts) -> Facts:
    """The same surface seen from its other side, offsets taken from the corner that is left then."""
    return Facts(
        mirrored_face(facts.face),
        mirrored_openings(facts.face, facts.openings),
        mirrored_things(facts.face, facts.things),
        mirrored_runs(facts.face, facts.runs),
        mirrored_things(facts.face, facts.through),
        mirrored_runs(facts.face, facts.through_runs),
    )


def standing(facts: Facts) -> Facts:
    """Without what was moved or replaced since."""
    return replace(
        facts,
        things=tuple(thing for thing in facts.things if not thing.replaced),
        runs=tuple(run for run in facts.runs if not run.replaced),
    )


def draw(facts: Facts) -> Drawing:
    """The measured sheet."""
    scale, depths = _scale(facts.face, WIDTH, SIDE, sheet_top(facts), TALLEST)
    return draw_on(facts, scale, depths, WIDTH)


def sheet_top(facts: Facts) -> int:
    """Room above the drawing for its chains of measures."""
    if facts.face.kind == SurfaceKind.TRENCH:
        return 104
    return 124 if facts.openings else 84


def draw_on(facts: Facts, scale: Scale, depths: int, width: int) -> Drawing:
    """The measured sheet at a scale that was chosen before; its first layer is the ground, what is in it follows."""
    face = facts.face
    ground, lower = Pens(), Pens()
    ground.add(structure(face, facts.openings, scale))
    below = scale.base
    if face.kind in UPRIGHT:
        below += HATCH
    elif face.kind == SurfaceKind.TRENCH:
        below += HATCH + 4
    low = _measure(lower, facts, scale, below + 6)
    draw_bar(lower, scale, low + 26, face.unit)
    sheet = Sheet.of(width, low + 80)
    layers, wanted = fill(ground, facts, scale, sheet, glance=False)
    placing = Placing(sheet, (scale.left + 2, scale.top + 2, scale.right - 2, scale.base - 2), low + 48, LETTER)
    reached = placing.place(wanted)
    height = round(max(low + 46, reached + 8))
    return Drawing(width, height, (*layers, lower.layer()), tuple(placing.placed), scale, depths)


def glance_scale(face: Face) -> tuple[Scale, int]:
    """How a surface is set on a narrow screen, and how much larger its depths are drawn."""
    return _scale(face, GLANCE, GLANCE_SIDE, 32, GLANCE_TALLEST)


def glance(facts: Facts) -> Drawing:
    """The whole surface on a narrow screen: tags and no measures but its size."""
    face = facts.face
    scale, depths = glance_scale(face)
    ground, lower = Pens(), Pens()
    ground.add(structure(face, facts.openings, scale))
    if face.kind in UPRIGHT:
        draw_floor(lower, scale, 12, 6)
    ends = (face.origin_corner, face.far_corner) if len(face.origin_corner + face.far_corner) < 32 else ("", "")
    lower.write(scale.left, 22, ends[0])
    lower.write(scale.right, 22, ends[1], "end")
    low = scale.base + 30
    lower.write(
        GLANCE / 2, low, " × ".join(show_length(nm, face.unit) for nm in (face.length_nm, face.height_nm)), "mid"
    )
    sheet = Sheet.of(GLANCE, low + 12)
    layers, wanted = fill(ground, facts, scale, sheet, glance=True)
    placing = Placing(sheet, (4, scale.top + 2, GLANCE - 4, scale.base - 2), low + 12, LETTER)
    height = round(placing.place(wanted) + 10)
    return Drawing(GLANCE, height, (*layers, lower.layer()), tuple(placing.placed), scale, depths)


def _scale(face: Face, width: int, side: int, top: float, tallest: int) -> tuple[Scale, int]:
    """As large as the sheet allows, in the middle of it; a trench's depths larger by a whole factor."""
    room = width - 2 * side
    along = min(room / face.length_nm, tallest / face.height_nm)
    depths = 1
    if face.kind == SurfaceKind.TRENCH:
        depths = max(1, min(MOST_DEPTHS, int(DEEPEST / (face.height_nm * along))))
    left = side + (room - face.length_nm * along) / 2
    down = face.kind not in UPRIGHT
    return Scale(left, top, face.length_nm, face.height_nm, along, along * depths, down), depths


def fill(
    ground: Pens, facts: Facts, scale: Scale, sheet: Sheet, glance: bool
) -> tuple[tuple[Layer, ...], list[Wanted]]:
    """What is hidden, upon what is there: blocking, runs, symbols, lettering; and the tags to be placed."""
    lines, marks = Pens(), Pens()
    _draw_through(ground, facts, scale)
    for thing in facts.things:
        if thing.kind == "blocking":
            ground.add(blocking(facts.face, facts.openings, thing, scale))
    runs = led(facts.runs, scale, sheet.grid)
    draw_runs(lines, runs, sheet)
    wanted = [
        _mark(ground if thing.kind in LYING else marks, facts, thing, scale, sheet, glance) for thing in facts.things
    ]
    if not glance:
        write_letters(lines, runs, sheet)
    for one in facts.openings:
        _name_opening(ground, one, scale, sheet, facts.face.unit, glance)
    if not glance:
        write_names(marks, runs, sheet)
    return (ground.layer(), lines.layer(), marks.layer()), wanted


def _draw_through(pens: Pens, facts: Facts, scale: Scale) -> None:
    """What is in the other face: the same strokes in one faint pen, and no lettering."""
    for run in facts.through_runs:
        pens.draw(polyline(scale.at(point) for point in run.points), THROUGH)
    for thing in facts.through:
        x, y = scale.at((thing.x_nm, thing.y_nm))
        for path in symbol(thing.kind, x, y, THROUGH, drawn_width(facts.runs, thing, scale)).paths:
            pens.draw(path.d, THROUGH)


def _mark(pens: Pens, facts: Facts, thing: Thing, scale: Scale, sheet: Sheet, glance: bool) -> Wanted:
    """Draws the symbol of a thing and answers the tag it wants."""
    x, y = scale.at((thing.x_nm, thing.y_nm))
    small = glance and thing.kind not in LYING
    width = 0 if small else drawn_width(facts.runs, thing, scale)
    mark = mark_at(thing.kind, x, y, colour_of(thing.service), width, small, thing.replaced, sheet.grid)
    pens.add(mark.drawn)
    sheet.put(mark.cells)
    return Wanted(thing.id, thing.tag, thing.label, x, y, mark.reach)


def _name_opening(pens: Pens, one: Opening, scale: Scale, sheet: Sheet, unit: str, glance: bool) -> None:
    """Its name and rough size in the middle, as much as there is room for."""
    x, y = scale.at((one.x_nm + one.width_nm // 2, one.y_nm + one.height_nm // 2))
    room = one.width_nm * scale.along
    words = [word for word in (opening_words(one, unit) if not glance else (one.kind,)) if LETTER * len(word) < room]
    if not glance and len(words) < 2 and LETTER * len(one.kind) < room:
        words = [one.kind, *(word for word in words if word != one.name)]
    if one.height_nm * scale.across < 22 * len(words):
        words = words[:1]
    for at, word in enumerate(words):
        half = LETTER * len(word) / 2
        baseline = y + 5.5 + (at - (len(words) - 1) / 2) * 20
        sheet.take(x - half, baseline - 14, 2 * half, 18)
        pens.draw(rect(x - half, baseline - 15, 2 * half, 20), "f-paper")
        pens.write(x, baseline, word, "mid b" if at == 0 else "mid")


@lru_cache(maxsize=32)
def _frame(face: Face, openings: tuple[Opening, ...], scale: Scale) -> Layer:
    """The floor, the corners, the whole length and the chain of openings: what stays while things come and go."""
    pens, unit = Pens(), face.unit
    if face.kind in UPRIGHT:
        draw_floor(pens, scale, 70)
    for x, corner, pen in ((scale.left, face.origin_corner, "b"), (scale.right, face.far_corner, "b end")):
        pens.write(x, 20, f"{corner} corner" if 0 < len(corner) <= 2 else corner, pen)
    if face.kind not in UPRIGHT and face.kind != SurfaceKind.TRENCH:
        letter_low_corners(pens, across_corners(face.origin_corner, face.far_corner), scale)
    first = 52 if face.kind != SurfaceKind.TRENCH else 62
    measure_chain(pens, (0, face.length_nm), scale, first, unit)
    if openings:
        edges = [edge for one in openings for edge in (one.x_nm, one.x_nm + one.width_nm)]
        measure_chain(pens, (0, *edges, face.length_nm), scale, first + 48, unit)
    return pens.layer()


def _measure(pens: Pens, facts: Facts, scale: Scale, below: float) -> float:
    """The frame and running measures. Answers how far down they reach."""
    face, unit = facts.face, facts.face.unit
    pens.add(_frame(face, facts.openings, scale))
    heights = [(thing.y_nm, 2 * thing.x_nm > face.length_nm) for thing in facts.things]
    heights = [pair for pair in heights if pair[0] > 0]
    measure_across(pens, [*heights, (face.height_nm, False)], scale, unit, 44 if face.kind in UPRIGHT else 0)
    _zero(pens, face, scale)
    return measure_along(pens, [*(thing.x_nm for thing in facts.things), face.length_nm], scale, below, unit)


def _zero(pens: Pens, face: Face, scale: Scale) -> None:
    """Where heights begin: an open triangle on the finished floor or on grade; a plan begins at its corner."""
    name = {SurfaceKind.TRENCH: "grade"}.get(face.kind, "FF" if face.kind in UPRIGHT else "")
    if name:
        y = scale.y(0)
        pens.draw(f"M{show(scale.left - 56)} {show(y - 1.5)}l-6.5 -11h13z", "l1 f-paper")
        pens.write(scale.left - 56, y - 18, name, "mid b")
