"""A drawing in words, for who does not see it."""

from collections import Counter

from webapp.surfaces.rules.elevation import Facts
from webapp.surfaces.rules.framing import UPRIGHT
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.rules.studs import layout
from webapp.values.length import show_length
from webapp.values.words import plural


def describe(facts: Facts) -> str:
    """How large it is, from where it is measured, how it is framed, and how much of what is in it."""
    face, unit = facts.face, facts.face.unit
    across = {SurfaceKind.TRENCH: "deep"}.get(face.kind, "high" if face.kind in UPRIGHT else "wide")
    corner = face.origin_corner or "the left corner"
    far = f", towards {face.far_corner}" if face.far_corner else ""
    zero = {SurfaceKind.TRENCH: " and grade"}.get(face.kind, " and the finished floor" if face.kind in UPRIGHT else "")
    size = f"{show_length(face.length_nm, unit)} long, {show_length(face.height_nm, unit)} {across}"
    parts = [f"{size}, measured from {corner}{zero}{far}."]
    if layout(face) and face.spacing_nm and face.kind != SurfaceKind.TRENCH:
        kind = "Studs" if face.kind in UPRIGHT else "Joists"
        parts.append(f"{kind} every {show_length(face.spacing_nm, unit)} on centre.")
    for counts in (
        Counter(one.kind for one in facts.openings),
        Counter(thing.kind for thing in facts.things),
        Counter(f"{run.service} run" for run in facts.runs),
    ):
        if counts:
            words = ", ".join(plural(count, kind) for kind, count in sorted(counts.items()))
            parts.append(f"{words[0].upper()}{words[1:]}.")
    return " ".join(parts)
