"""Corrections on the drawing of their surface: a triangle with the number of each, where the inspector pointed."""

from collections.abc import Iterable
from dataclasses import dataclass

from webapp.inspections.rules.facts import CorrectionFacts
from webapp.surfaces.rules.drawing import Scale, circle, show

HALF, ABOVE, BELOW = 17.0, 17.0, 13.0
REACH = 22.0
"""of a finger around the mark, in drawing units"""


@dataclass(frozen=True, slots=True)
class CorrectionMark:
    """One correction in drawing units. `cleared`: it is drawn thin."""

    id: int
    number: int
    words: str
    x: float
    y: float
    cleared: bool = False

    @property
    def svg(self) -> str:
        """A triangle around the place, as on the lists. Nothing in it is typed by anybody."""
        top, foot = self.y - ABOVE, self.y + BELOW
        body = f"M{show(self.x)} {show(top)}L{show(self.x + HALF)} {show(foot)}H{show(self.x - HALF)}z"
        hit = circle(self.x, self.y, REACH)
        number = f'<text class="mid b" x="{show(self.x)}" y="{show(foot - 4)}">{self.number}</text>'
        pen = "l1 f-paper" if self.cleared else "l3 f-paper"
        return f'<path pointer-events="all" d="{hit}"/><path class="{pen}" d="{body}"/>{number}'


def marks(corrections: Iterable[CorrectionFacts], cleared: Iterable[int], scale: Scale) -> tuple[CorrectionMark, ...]:
    """Those that have a place, as they lie on a drawing of that scale. `cleared`: ids of those that are."""
    thin = set(cleared)
    placed = []
    for one in corrections:
        if one.x_nm is not None and one.y_nm is not None:
            x, y = scale.at((one.x_nm, one.y_nm))
            placed.append(CorrectionMark(one.id, one.number, one.words, x, y, one.id in thin))
    return tuple(placed)
