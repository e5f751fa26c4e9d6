"""A narrow plan of a trench or slab with its tied points: each at its place along it, its two ties spread below.

Along the strip it is to scale; where the fixed points are is not on record, so the ties only say how long they are.
"""

from collections.abc import Sequence

from webapp.surfaces.rules.dimensions import measured, spread
from webapp.surfaces.rules.drawing import LETTER, Drawing, Pens, Scale, circle, line, rect, show
from webapp.surfaces.rules.face import Face
from webapp.surfaces.rules.ties import Tie, letter_of, lettered

WIDE, SIDE = 880, 118
NARROW, NARROW_SIDE = 350, 24
TOP, THICK = 40, 22
"""of the strip: where it begins, and how thick it is drawn"""
FAN, DROP = 40, 46
"""how far the ends of two ties lie apart from the middle and below the strip"""


FAN_GAP, GAP = 2 * FAN + 9 * LETTER, 4 * LETTER
"""between neighbours, with their ties and with their numbers only"""


def strip(face: Face, ties: Sequence[Tie], wide: bool) -> Drawing:
    """The strip of tied points; the narrow one has their numbers only, the wide one their ties as long as there is
    room for them."""
    width, side = (WIDE, SIDE) if wide else (NARROW, NARROW_SIDE)
    along = (width - 2 * side) / face.length_nm
    scale = Scale(side, TOP, face.length_nm, face.height_nm, along, THICK / face.height_nm, down=True)
    pens, letters = Pens(), lettered(ties)
    _ground(pens, face, scale)
    fans = wide and len(ties) * FAN_GAP <= scale.right - scale.left + 2 * FAN
    placed = spread([scale.x(tie.x_nm) for tie in ties], FAN_GAP if fans else GAP, scale.left, scale.right)
    for number, (tie, place) in enumerate(zip(ties, placed, strict=True), 1):
        _point(pens, scale, number, tie, place)
        if fans:
            _fan(pens, tie, place, face.unit, letters)
    height = TOP + THICK + (DROP + 78 if fans else 46)
    return Drawing(width, height, (pens.layer(),), (), scale)


def _ground(pens: Pens, face: Face, scale: Scale) -> None:
    """The trench from above: its two edges, open at the ends, with the names of both."""
    left, right, top, low = scale.left, scale.right, scale.top, scale.base
    pens.draw(line(left - 10, top, right + 10, top) + line(left - 10, low, right + 10, low), "l2")
    pens.draw(line(left, top, left, low) + line(right, top, right, low), "l1 hid")
    middle = (top + low) / 2
    pens.draw(line(left - 10, middle, right + 10, middle), "l1 ctr")
    pens.write(left, top - 12, face.origin_corner, "b")
    pens.write(right, top - 12, face.far_corner, "b end")


def _point(pens: Pens, scale: Scale, number: int, tie: Tie, place: float) -> None:
    """A point on the centre line, and its number in a box below."""
    x, middle = scale.x(tie.x_nm), (scale.top + scale.base) / 2
    words = f"P{number}"
    half = LETTER * len(words) / 2 + 3
    pens.draw(line(x, middle, x, scale.base + 6) + line(x, scale.base + 6, place, scale.base + 16), "l1")
    pens.draw(circle(x, middle, 4), "l2 f-paper")
    pens.draw(rect(place - half, scale.base + 16, 2 * half, 22), "l2 f-paper")
    pens.write(place, scale.base + 32, words, "mid b")


def _fan(pens: Pens, tie: Tie, place: float, unit: str, letters: dict[str, str]) -> None:
    """The two ties of a point, spread apart, each ending at the letter of its fixed point with its length below."""
    top = TOP + THICK + 38
    for way, fixed, distance in ((-1, tie.from_a, tie.a_nm), (1, tie.from_b, tie.b_nm)):
        x = place + way * FAN
        pens.draw(f"M{show(place)} {show(top)}L{show(x)} {show(top + DROP - 20)}", "l1")
        pens.draw(rect(x - 3, top + DROP - 20, 6, 6), "l1 f-ink")
        pens.write(x, top + DROP + 4, letter_of(letters, fixed), "mid b")
        pens.write(x, top + DROP + 24, measured(distance, unit), "mid")
