"""What a surface itself is drawn with: plates, studs and openings of a wall, joists of a ceiling, a slab, a trench."""

import re
from collections.abc import Sequence
from functools import lru_cache

from webapp.surfaces.rules.drawing import Layer, Pens, Scale, line, show
from webapp.surfaces.rules.face import STUD_NM, Face, Opening
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.studs import layout, members
from webapp.values.length import NM_PER_INCH, show_length

HEADER_NM = 11 * NM_PER_INCH // 2
"""drawn depth of a header whose lumber is not on record: 5 1/2 in, the dressed width of a 2x6 (PS 20, from memory)"""
UPRIGHT = {SurfaceKind.WALL, SurfaceKind.OUTSIDE}
ROUND = {"sleeve", "hole"}
HATCH = 14
"""height of the band of concrete below a wall"""


@lru_cache(maxsize=32)
def structure(face: Face, openings: tuple[Opening, ...], scale: Scale) -> Layer:
    """What is there before anything is hidden in it; sleeves and holes come last."""
    pens = Pens()
    _draw_structure(pens, face, openings, scale)
    _draw_rounds(pens, openings, scale)
    return pens.layer()


def _draw_structure(pens: Pens, face: Face, openings: Sequence[Opening], scale: Scale) -> None:
    if face.kind == SurfaceKind.TRENCH:
        _trench(pens, scale)
    elif face.kind in UPRIGHT:
        _wall(pens, face, openings, scale)
    elif layout(face):
        _joists(pens, face, openings, scale)
    else:
        pens.draw(scale.box(0, 0, face.length_nm, face.height_nm), "l3 f-paper")
        _concrete_edge(pens, scale)


def _wall(pens: Pens, face: Face, openings: Sequence[Opening], scale: Scale) -> None:
    framed = [one for one in openings if one.kind not in ROUND]
    low, high = _plates(face)
    hidden = " hid" if face.kind == SurfaceKind.OUTSIDE else ""
    for x in members(face):
        spans = _left_over(x, low, high, framed)
        for start, end in spans:
            pens.draw(scale.box(x - STUD_NM // 2, start, STUD_NM, end - start), f"l1{hidden or ' f-tint'}")
    pens.draw("".join(scale.box(start, 0, end - start, low) for start, end in _plate_runs(face, framed)), "l2 f-paper")
    if high < face.height_nm:
        half = (face.height_nm - high) // 2
        pens.draw(
            scale.box(0, high, face.length_nm, half) + scale.box(0, high + half, face.length_nm, half), "l2 f-paper"
        )
    for one in framed:
        _framed_opening(pens, face, one, scale)
    if hidden:
        pens.draw(scale.box(0, 0, face.length_nm, face.height_nm), "l2")


def _plates(face: Face) -> tuple[int, int]:
    """Top of the bottom plate, bottom of the double top plate; none where the wall is too low for them."""
    if face.height_nm < 4 * STUD_NM:
        return 0, face.height_nm
    return STUD_NM, face.height_nm - 2 * STUD_NM


def _plate_runs(face: Face, openings: Sequence[Opening]) -> list[tuple[int, int]]:
    """Where the bottom plate lies: not in a door."""
    found, at = [], 0
    for one in sorted((one for one in openings if one.y_nm == 0), key=lambda door: door.x_nm):
        if one.x_nm > at:
            found.append((at, one.x_nm))
        at = max(at, one.x_nm + one.width_nm)
    return [*found, (at, face.length_nm)] if at < face.length_nm else found


def _left_over(x: int, low: int, high: int, openings: Sequence[Opening]) -> list[tuple[int, int]]:
    """What is left of a stud at `x`: cripples below and above the openings it would stand in."""
    spans = [(low, high)]
    for one in openings:
        if (
            not one.x_nm - 2 * STUD_NM < x + STUD_NM // 2
            or not x - STUD_NM // 2 < one.x_nm + one.width_nm + 2 * STUD_NM
        ):
            continue
        within = one.x_nm <= x <= one.x_nm + one.width_nm
        sill, top = one.y_nm - STUD_NM, min(high, one.y_nm + one.height_nm + HEADER_NM)
        spans = [
            piece
            for start, end in spans
            for piece in ((start, min(end, sill)), (max(start, top), end))
            if within and piece[1] > piece[0]
        ]
    return spans


def _framed_opening(pens: Pens, face: Face, one: Opening, scale: Scale) -> None:
    """King and jack on each side, header, sill, and the opening itself with a cross of dashes."""
    low, high = _plates(face)
    left, right, head = one.x_nm, one.x_nm + one.width_nm, one.y_nm + one.height_nm
    header = max(0, min(HEADER_NM, high - head))
    posts = [(left - 2 * STUD_NM, high), (right + STUD_NM, high), (left - STUD_NM, head), (right, head)]
    boxes = "".join(
        scale.box(x, low, STUD_NM, top - low)
        for x, top in posts
        if x >= 0 and x + STUD_NM <= face.length_nm and top > low
    )
    if header:
        start, end = max(0, left - STUD_NM), min(face.length_nm, right + STUD_NM)
        boxes += scale.box(start, head, end - start, header)
    if one.y_nm >= low + STUD_NM:
        boxes += scale.box(left, one.y_nm - STUD_NM, one.width_nm, STUD_NM)
    pens.draw(boxes, "l2 f-paper")
    if header:
        middle = scale.y(head + header // 2)
        pens.draw(line(scale.x(left), middle, scale.x(right), middle), "l1")
    _crossed(pens, one, scale)


def _crossed(pens: Pens, one: Opening, scale: Scale) -> None:
    x1, y1 = scale.at((one.x_nm, one.y_nm))
    x2, y2 = scale.at((one.x_nm + one.width_nm, one.y_nm + one.height_nm))
    pens.draw(scale.box(one.x_nm, one.y_nm, one.width_nm, one.height_nm), "l3 f-paper")
    pens.draw(line(x1, y1, x2, y2) + line(x1, y2, x2, y1), "l1 hid")


def _draw_rounds(pens: Pens, openings: Sequence[Opening], scale: Scale) -> None:
    """Sleeves and holes to scale, with their centre lines."""
    for one in openings:
        if one.kind in ROUND:
            x, y = scale.at((one.x_nm + one.width_nm // 2, one.y_nm + one.height_nm // 2))
            across, down = one.width_nm * scale.along / 2, one.height_nm * scale.across / 2
            a, b = f"{across:.2f}", f"{down:.2f}"
            pens.draw(
                f"M{x - across:.2f} {y:.2f}a{a} {b} 0 1 0 {2 * across:.2f} 0a{a} {b} 0 1 0 -{2 * across:.2f} 0z", "l3"
            )
            pens.draw(line(x - across - 8, y, x + across + 8, y) + line(x, y - down - 8, x, y + down + 8), "l1 ctr")


def _joists(pens: Pens, face: Face, openings: Sequence[Opening], scale: Scale) -> None:
    """A ceiling or floor as a plan: joists run across from edge to edge."""
    pens.draw(scale.box(0, 0, face.length_nm, face.height_nm), "l3 f-paper")
    joists = "".join(scale.box(x - STUD_NM // 2, 0, STUD_NM, face.height_nm) for x in members(face))
    pens.draw(joists, "l1 f-tint")
    for one in openings:
        left, right, low, high = one.x_nm, one.x_nm + one.width_nm, one.y_nm, one.y_nm + one.height_nm
        sides = [x for x in (left - 2 * STUD_NM, left - STUD_NM, right, right + STUD_NM) if x >= 0]
        boxes = "".join(scale.box(x, 0, STUD_NM, face.height_nm) for x in sides if x + STUD_NM <= face.length_nm)
        for y in (low - 2 * STUD_NM, low - STUD_NM, high, high + STUD_NM):
            if y >= 0 and y + STUD_NM <= face.height_nm:
                boxes += scale.box(left, y, one.width_nm, STUD_NM)
        pens.draw(boxes, "l2 f-paper")
        _crossed(pens, one, scale)


def _trench(pens: Pens, scale: Scale) -> None:
    """A section along the trench: grade, the ground around it, its bottom."""
    left, right, top, base = scale.left, scale.right, scale.top, scale.base
    pens.draw(f"M{left:.2f} {top:.2f}V{base:.2f}H{right:.2f}V{top:.2f}", "l2")
    reach = min(60, left - 4)
    pens.draw(line(left - reach, top, right + reach, top), "l3")
    earth = (f"M{x + 6 * at} {show(base + 14)}l9 -11" for x in range(int(left), int(right) - 14, 40) for at in range(3))
    pens.draw("".join(earth), "l1")


def draw_floor(pens: Pens, scale: Scale, reach: float, height: float = HATCH) -> None:
    """The finished floor and a band of concrete below it."""
    left, right, base = scale.left - reach, scale.right + reach, scale.base
    pens.draw(line(left, base, right, base), "l3")
    pens.draw(line(left, base + height, right, base + height), "l1")
    pens.draw(_stones(left + 6, base + 2, right - left - 16, height - 4), "l1")


def _concrete_edge(pens: Pens, scale: Scale) -> None:
    """Concrete is marked along the edges of a slab and left out in the middle, where things are drawn."""
    left, top, width, height = scale.left, scale.top, scale.right - scale.left, scale.base - scale.top
    if height > 3 * HATCH:
        for y in (top + 2, scale.base - 14):
            pens.draw(_stones(left + 4, y, width - 12, 12), "l1")


def _stones(x: float, y: float, width: float, height: float) -> str:
    """Triangles and dots, strewn but always the same: steps of two numbers without a common factor."""
    parts, count = [], int(width // 9)
    for at in range(count):
        across, down = x + at * width / count, y + (at * 7 % 5) / 5 * (height - 5)
        stone = "l5 0l-2.5 -4.5z" if at % 3 == 0 else "h1.2"
        parts.append(f"M{across:.0f} {down + 5:.1f}{stone}")
    return "".join(parts)


def opening_words(one: Opening, unit: str) -> tuple[str, str]:
    """What an opening is called and its rough size."""
    return one.name or one.kind, f"{show_length(one.width_nm, unit)} × {show_length(one.height_nm, unit)}"


DRESSED = {"4": 14, "6": 22, "8": 29, "10": 37, "12": 45}
"""dressed widths of 2x lumber in quarters of an inch: 3 1/2, 5 1/2, 7 1/4, 9 1/4, 11 1/4 (PS 20, from memory)"""


def lumber_nm(label: str) -> int:
    """Dressed width of the lumber a label names (2x6 is 5 1/2 in; PS 20, from memory); 3 1/2 in when it names none."""
    found = re.search(r"\b2 ?[x×] ?(4|6|8|10|12)\b", label)
    return DRESSED[found[1] if found else "4"] * NM_PER_INCH // 4


def blocks(
    face: Face, openings: Sequence[Opening], x_nm: int, y_nm: int, width_nm: int, height_nm: int
) -> list[tuple[int, int, int, int]]:
    """A row of blocking about its centre, cut by the studs and openings between which it stands: (x, y, width, height)
    each."""
    start, end = max(0, x_nm - width_nm // 2), min(face.length_nm, x_nm + width_nm // 2)
    low, high = max(0, y_nm - height_nm // 2), min(face.height_nm, y_nm + height_nm // 2)
    cuts = [(stud - STUD_NM // 2, stud + STUD_NM // 2) for stud in members(face)]
    cuts += [
        (one.x_nm - 2 * STUD_NM, one.x_nm + one.width_nm + 2 * STUD_NM)
        for one in openings
        if one.y_nm < high and low < one.y_nm + one.height_nm
    ]
    found, at = [], start
    for left, right in sorted(cuts):
        if left > at:
            found.append((at, min(left, end)))
        at = max(at, right)
    found.append((at, end))
    return [(left, low, right - left, high - low) for left, right in found if right - left > STUD_NM]
