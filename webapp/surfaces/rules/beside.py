"""What frames a spot, in words: the studs or joists to either side as the layout has them, and openings."""

from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.extent import Box
from webapp.surfaces.rules.face import STUD_NM, Point
from webapp.surfaces.rules.fitting import in_opening
from webapp.surfaces.rules.framing import UPRIGHT
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.near import direction, gap
from webapp.surfaces.rules.studs import layout, members
from webapp.values.length import NM_PER_INCH, show_length
from webapp.values.words import join_words

BESIDE_NM = 6 * NM_PER_INCH
"""how far from an opening its own studs may stand (two or three of 1 1/2 in to a side; common practice, no source)"""


def framing_words(facts: Facts, spot: Point) -> str:
    """Empty for a trench; a sentence that nothing is known where no spacing is on record."""
    face, unit = facts.face, facts.face.unit
    if face.kind == SurfaceKind.TRENCH:
        return ""
    name = "stud" if face.kind in UPRIGHT else "joist"
    if not layout(face):
        return f"How far apart its {name}s stand is not on record."
    found = [x for x in members(face) if in_opening(x, spot[1], facts.openings) is None]
    on = next((x for x in found if abs(x - spot[0]) <= STUD_NM // 2), None)
    if on is not None:
        said = f"On the {name} whose middle is at {show_length(on, unit)}"
    else:
        sides = [
            max((x for x in found if x < spot[0]), default=None),
            min((x for x in found if x > spot[0]), default=None),
        ]
        ways = [
            f"at {show_length(x, unit)} ({show_length(abs(x - spot[0]), unit)} {'left' if x < spot[0] else 'right'})"
            for x in sides
            if x is not None
        ]
        said = f"The nearest {name}s have their middle {join_words(ways)}"
    return f"{said}: computed from the first {name} and the spacing, not measured."


def opening_words(facts: Facts, spot: Point) -> str:
    """Whether the spot lies in an opening, or how far one is that stands near."""
    inside = in_opening(*spot, facts.openings)
    if inside is not None:
        return f"This spot lies in the opening “{inside.name}”."
    near = []
    for one in facts.openings:
        edges = Box(one.x_nm, one.y_nm, one.x_nm + one.width_nm, one.y_nm + one.height_nm)
        found = gap(spot, edges)
        if found.within(BESIDE_NM):
            away = "begins here" if not found.distance_nm else f"is {show_length(found.distance_nm, facts.face.unit)}"
            way = "" if not found.distance_nm else f" {direction(facts.face.kind, found)}"
            near.append(f"“{one.name}” {away}{way}; more framing stands around it.")
    return " ".join(near)
