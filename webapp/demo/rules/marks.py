"""The picture of pencil marks that was read off: a tape in it gives the scale, one mark is a thing on record."""

from dataclasses import dataclass

PICTURE, SURFACE = "P054", "N"


@dataclass(frozen=True)
class Mark:
    """A spot in pixels of the painted picture; `x_in` and `y_in` where it is known; `item` by the scenario's name."""

    right: int
    down: int
    what: str
    x_in: int | None = None
    y_in: int | None = None
    item: str = ""


WIDE, HIGH = 960, 720
MARKS = (
    Mark(355, 223, "Tape at 96", 51, 96),
    Mark(355, 543, "Tape at 68", 51, 68),
    Mark(463, 292, "84 on the stud: the cleat line", item="N11"),
    Mark(410, 415, "Staple of the bench cable"),
)
"""the last one is not measured yet"""
