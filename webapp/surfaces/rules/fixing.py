"""Where something may be fixed: blocking behind the board, from where to where, how high, and for what."""

from dataclasses import dataclass

from webapp.surfaces.rules.bands import box_words
from webapp.surfaces.rules.elevation import Facts, standing
from webapp.surfaces.rules.extent import Box, thing_shapes
from webapp.surfaces.rules.face import STUD_NM, Thing


@dataclass(frozen=True, slots=True)
class FixAt:
    """A stretch of wood to fix to: boards between studs, and the studs between them. `where` says it in words."""

    thing: Thing
    box: Box
    where: str


def fixings(facts: Facts) -> tuple[FixAt, ...]:
    """All blocking that is there, left to right; one row cut by an opening is two stretches."""
    found = [
        FixAt(thing, box, box_words(facts.face, box, exact=True))
        for thing in standing(facts).things
        if thing.kind == "blocking"
        for box in _stretches([shape for shape in thing_shapes(facts, thing) if isinstance(shape, Box)])
    ]
    return tuple(sorted(found, key=lambda one: (one.box.left, one.box.low, one.thing.id)))


def _stretches(boards: list[Box]) -> list[Box]:
    """Boards with no more than a stud between them are one."""
    joined: list[Box] = []
    for board in sorted(boards, key=lambda box: box.left):
        last = joined[-1] if joined else None
        if last and (last.low, last.high) == (board.low, board.high) and board.left - last.right <= STUD_NM:
            joined[-1] = Box(last.left, last.low, board.right, last.high)
        else:
            joined.append(board)
    return joined
