"""A need that would close a circle, drawn: what is written down already in full lines, the one not saved in dashes."""

from dataclasses import dataclass
from textwrap import wrap

from webapp.core.sheets import Sheet
from webapp.plan.actions import Circle
from webapp.plan.pages.place import Here
from webapp.values.verdict import Way

BOX_WIDTH, LINE_HEIGHT, GAP, TOP = 214, 20, 46, 8
LETTERS = 22
"""that fit on one line of a box"""
MOST_LINES = 3
MOST_BOXES = 8
"""A longer circle is told in words alone; as a drawing it would be longer than the phone twice over."""


@dataclass(frozen=True, slots=True)
class Box:
    """One task of the circle; the figures are in the drawing's own units."""

    lines: tuple[tuple[int, str], ...]
    """baseline and text"""
    top: int
    height: int

    @property
    def bottom(self) -> int:
        return self.top + self.height

    @property
    def middle(self) -> int:
        return self.top + self.height // 2


@dataclass(frozen=True, slots=True)
class CirclePage:
    sheet: Sheet
    heading: str
    sentence: str
    detail: str
    boxes: tuple[Box, ...]
    drawn_as: str
    """the drawing in words"""
    height: int
    ways_on: tuple[Way, ...]


def circle_page(here: Here, circle: Circle) -> CirclePage:
    boxes = _boxes(circle.titles)
    reason = circle.verdict.reasons[0]
    return CirclePage(
        sheet=here.sheet("P1", "Not saved", circle.heading),
        heading=circle.heading,
        sentence=reason.sentence,
        detail=reason.detail,
        boxes=boxes,
        drawn_as=f"A circle: {reason.sentence}",
        height=boxes[-1].bottom + TOP if boxes else 0,
        ways_on=circle.ways_on,
    )


def _boxes(titles: tuple[str, ...]) -> tuple[Box, ...]:
    """From what comes first at the top, by what is written down, to what was asked to come before it at the bottom."""
    boxes: list[Box] = []
    top = TOP
    if len(titles) > MOST_BOXES:
        return ()
    for title in (titles[0], *reversed(titles[1:])):
        lines = wrap(title, LETTERS, max_lines=MOST_LINES, placeholder=" …")
        height = LINE_HEIGHT * len(lines) + 22
        first = top + 11 + 15
        boxes.append(Box(tuple((first + LINE_HEIGHT * at, line) for at, line in enumerate(lines)), top, height))
        top += height + GAP
    return tuple(boxes)
