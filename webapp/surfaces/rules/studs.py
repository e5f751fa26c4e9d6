"""Where studs and joists stand, and the same surface seen from its other side. Lengths in nanometres."""

from collections.abc import Sequence
from dataclasses import replace

from webapp.surfaces.rules.face import STUD_NM, Face, Opening, Run, Thing

MOST = 400
"""members drawn at most: a spacing typed too small must not fill the sheet"""


def layout(face: Face) -> tuple[int, ...]:
    """Centres of the members on the layout, both ends left out: the first one and every spacing after it.

    One that would stand in an end member is left out. Empty when no spacing is known or it is none.
    """
    spacing = face.spacing_nm
    if not spacing or spacing < STUD_NM:
        return ()
    least, most = STUD_NM * 3 // 2, face.length_nm - STUD_NM * 3 // 2
    first = face.first_stud_nm if face.first_stud_nm is not None else spacing
    return tuple(x for x in range(first, most + 1, spacing)[:MOST] if x >= least)


def members(face: Face) -> tuple[int, ...]:
    """Centres of all members, with one at each end."""
    if not face.spacing_nm or face.length_nm < 2 * STUD_NM:
        return ()
    return (STUD_NM // 2, *layout(face), face.length_nm - STUD_NM // 2)


def mirrored_face(face: Face) -> Face:
    """The surface from its other side, measured from the corner that is left then."""
    first = face.first_stud_nm
    if face.spacing_nm and face.spacing_nm >= STUD_NM:
        at = first if first is not None else face.spacing_nm
        steps = max(0, -((at - face.length_nm) // face.spacing_nm) - 1)
        first = face.length_nm - at - steps * face.spacing_nm
    elif first is not None:
        first = face.length_nm - first
    return replace(face, origin_corner=face.far_corner, far_corner=face.origin_corner, first_stud_nm=first)


def mirrored_openings(face: Face, openings: Sequence[Opening]) -> tuple[Opening, ...]:
    return tuple(replace(one, x_nm=face.length_nm - one.x_nm - one.width_nm) for one in openings)


def mirrored_things(face: Face, things: Sequence[Thing]) -> tuple[Thing, ...]:
    return tuple(replace(one, x_nm=face.length_nm - one.x_nm) for one in things)


def mirrored_runs(face: Face, runs: Sequence[Run]) -> tuple[Run, ...]:
    return tuple(replace(one, points=tuple((face.length_nm - x, y) for x, y in one.points)) for one in runs)
