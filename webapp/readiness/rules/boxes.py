"""Boxes and lines of a drawing 350 wide, so that lettering of 16 px stands 1:1 on a phone."""

from collections.abc import Sequence
from dataclasses import dataclass
from textwrap import wrap

WIDTH, EDGE, GAP = 350, 12, 10
LINE, PAD, BETWEEN = 19, 12, 54
COUNT = 56
"""width of a box that only counts the rest"""
MOST_LINES = 3
LETTER = 9.2
"""width of a letter, with room for the larger lettering in the sun"""
INSET = 4
LANE = 5
ASIDE = 8
"""how far beside its middle a line leaves a box, so that it never runs into the line that enters the box beneath"""


@dataclass(frozen=True, slots=True)
class Cell:
    """What stands in one place of a row. `pen` is the class of its outline: l4 what was asked, l3 can start now,
    l2 else, l1 for a box that only counts the rest."""

    key: str
    title: str
    note: str
    pen: str
    dashed: bool = False

    @property
    def counts(self) -> bool:
        return self.pen == "l1"


@dataclass(frozen=True, slots=True)
class Text:
    y: int
    words: str
    quiet: bool


@dataclass(frozen=True, slots=True)
class Box:
    """One thing, or the count of the rest. `place` is its place in the row, from the left."""

    key: str
    place: int
    x: int
    y: int
    width: int
    height: int
    pen: str
    dashed: bool
    bold: bool
    texts: tuple[Text, ...]

    @property
    def middle(self) -> int:
        return self.x + self.width // 2

    @property
    def bottom(self) -> int:
        return self.y + self.height


@dataclass(frozen=True, slots=True)
class Arrow:
    """A path from a need down to its waiter, and where its head points; dashed for what is freed, and for a wish."""

    needs: str
    waiter: str
    path: str
    head: str
    pen: str
    dashed: bool


def letters(width: int) -> int:
    """How many letters fit on one line of a box."""
    return int((width - INSET) / LETTER)


def row_of_boxes(cells: Sequence[Cell], y: int) -> list[Box]:
    """The boxes of one row, in its middle, all of one height; a count of the rest is narrow."""
    widths = _widths(cells)
    lettered = [_lettered(cell, letters(width)) for cell, width in zip(cells, widths, strict=True)]
    height = max(len(lines) + len(notes) for lines, notes in lettered) * LINE + 2 * PAD
    x = (WIDTH - sum(widths) - GAP * (len(cells) - 1)) // 2
    boxes = []
    for place, (cell, width, (lines, notes)) in enumerate(zip(cells, widths, lettered, strict=True)):
        texts = _placed(lines, notes, y, height)
        bold = cell.pen in {"l3", "l4"}
        boxes.append(Box(cell.key, place, x, y, width, height, cell.pen, cell.dashed, bold, texts))
        x += width + GAP
    return boxes


def _widths(cells: Sequence[Cell]) -> list[int]:
    named = sum(not cell.counts for cell in cells)
    room = WIDTH - 2 * EDGE - GAP * (len(cells) - 1) - COUNT * (len(cells) - named)
    each = min(226, room // max(1, named))
    return [COUNT if cell.counts else each for cell in cells]


def _lettered(cell: Cell, fits: int) -> tuple[list[str], list[str]]:
    """Title and note in lines that fit; a word too long for a line is parted with a hyphen."""
    lines = wrap(_parted(cell.title, fits), fits, max_lines=MOST_LINES, placeholder="…") or [""]
    return lines, wrap(_parted(cell.note, fits), fits)


def _parted(words: str, fits: int) -> str:
    return " ".join(_pieces(word, fits) for word in words.split())


def _pieces(word: str, fits: int) -> str:
    longest = max(word.split("-"), key=len)
    if len(longest) <= fits:
        return word
    step = fits - 1
    return "- ".join(word[at : at + step] for at in range(0, len(word), step))


def _placed(lines: Sequence[str], notes: Sequence[str], y: int, height: int) -> tuple[Text, ...]:
    top = y + (height - (len(lines) + len(notes)) * LINE) // 2 + 15
    return tuple(Text(top + at * LINE, words, at >= len(lines)) for at, words in enumerate([*lines, *notes]) if words)


def arrow(need: Box, waiter: Box, *, dashed: bool) -> Arrow:
    """Down from a need into the channel above its waiter, where each waiter of a row has a height of its own."""
    end, bend = waiter.y, _bend(waiter)
    if need.middle == waiter.middle:
        path = f"M{need.middle} {need.bottom}V{end - 9}"
    else:
        out = need.middle + (ASIDE if waiter.middle > need.middle else -ASIDE)
        path = f"M{out} {need.bottom}V{bend}H{waiter.middle}V{end - 9}"
    return _headed(need, waiter, path, dashed)


def long_arrow(need: Box, waiter: Box, *, right: bool, dashed: bool) -> Arrow:
    """Past one row or more: out to the margin, down it, and in above the waiter."""
    side = WIDTH - LANE if right else LANE
    out = need.middle + (ASIDE if right else -ASIDE) * 2
    path = f"M{out} {need.bottom}v9H{side}V{_bend(waiter)}H{waiter.middle}V{waiter.y - 9}"
    return _headed(need, waiter, path, dashed)


def _bend(waiter: Box) -> int:
    return waiter.y - 19 - 8 * waiter.place


def _headed(need: Box, waiter: Box, path: str, dashed: bool) -> Arrow:
    head = f"M{waiter.middle} {waiter.y - 1}l-4.5 -11h9z"
    pen = "l1" if "l1" in {need.pen, waiter.pen} else "l2"
    return Arrow(need.key, waiter.key, path, head, pen, dashed)
