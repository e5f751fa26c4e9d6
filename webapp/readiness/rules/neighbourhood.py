"""What a thing needs and what it frees, laid out as boxes and lines: needs above, what it frees below.

Drawn 350 wide, so that lettering of 16 px stands 1:1 on a phone. A row holds three boxes at most; more are counted.
"""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from textwrap import wrap

from webapp.readiness.rules.network import Link, Neighbourhood, Network, Node, WaitsFor
from webapp.values.words import join_words

WIDTH, EDGE, GAP = 350, 12, 10
LINE, PAD, BETWEEN = 19, 12, 44
ROW = 3
MOST_LINES = 3
LETTER = 8.9
"""width of a letter, with room for the larger lettering in the sun"""
MOST_ROWS_UP = 4


@dataclass(frozen=True, slots=True)
class Text:
    y: int
    words: str
    quiet: bool


@dataclass(frozen=True, slots=True)
class Box:
    """One thing. `pen` is the class of its outline: l4 what was asked, l3 can start now, l2 else."""

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

    path: str
    head: str
    dashed: bool


@dataclass(frozen=True, slots=True)
class Drawing:
    height: int
    boxes: tuple[Box, ...]
    arrows: tuple[Arrow, ...]
    says: str
    """the drawing in words"""


@dataclass(frozen=True, slots=True)
class _Cell:
    """What stands in one place of a row; `key` is empty for the box that counts the rest."""

    key: str
    title: str
    note: str
    pen: str
    dashed: bool = False


def drawn(network: Network, key: str, hold_point: bool) -> Drawing:
    """The neighbourhood of `key`, two steps up and one down. `hold_point`: the thing closes a surface."""
    around = network.around(key)
    rows = [
        _cells(network, [node for node in around.nodes if around.level[node.key] == level], key, hold_point, level)
        for level in _shown_levels(around)
    ]
    boxes: dict[str, Box] = {}
    y = 8
    listed: list[Box] = []
    for row in rows:
        made = _row_of_boxes(row, y)
        boxes |= {cell.key: box for cell, box in zip(row, made, strict=True) if cell.key}
        listed += made
        y = max(box.bottom for box in made) + BETWEEN
    row_of = {cell.key: at for at, row in enumerate(rows) for cell in row if cell.key}
    arrows = [
        _arrow(boxes[link.needs], boxes[link.waiter], row_of[link.waiter] - row_of[link.needs], link, around)
        for link in _plain(around, row_of, key)
    ]
    return Drawing(y - BETWEEN + 8, tuple(listed), tuple(arrows), in_words(network, around, key))


def _plain(around: Neighbourhood, row_of: Mapping[str, int], asked: str) -> list[Link]:
    """The links to draw: downwards only, what is freed only from the asked thing, and none that others imply."""
    links = [
        link
        for link in around.links
        if row_of.get(link.needs, 0) < row_of.get(link.waiter, 0)
        and {link.needs, link.waiter} <= row_of.keys()
        and (around.level[link.waiter] <= 0 or link.needs == asked)
    ]
    waiters: dict[str, set[str]] = {}
    for link in links:
        waiters.setdefault(link.needs, set()).add(link.waiter)
    below: dict[str, set[str]] = {}
    for key in sorted(row_of, key=lambda key: -row_of[key]):
        below[key] = waiters.get(key, set()).union(*(below[waiter] for waiter in waiters.get(key, ())))
    return [link for link in links if not any(link.waiter in below[other] for other in waiters[link.needs])]


def _shown_levels(around: Neighbourhood) -> Sequence[int]:
    levels = sorted(set(around.level.values()))
    above = [level for level in levels if level < 0][-MOST_ROWS_UP:]
    return [*above, 0, *(level for level in levels if level > 0)][: len(above) + 2]


def _cells(network: Network, nodes: Sequence[Node], asked: str, hold_point: bool, level: int) -> list[_Cell]:
    shown = nodes if len(nodes) <= ROW else nodes[: ROW - 1]
    cells = [_cell(network, node, node.key == asked, hold_point, level) for node in shown]
    if len(nodes) > len(shown):
        cells.append(_Cell("", f"{len(nodes) - len(shown)} more", "", "l1", dashed=level > 0))
    return cells


def _cell(network: Network, node: Node, asked: bool, hold_point: bool, level: int) -> _Cell:
    title = node.ready_says or node.title
    if asked:
        return _Cell(node.key, node.title, "hold point" if hold_point else "", "l4")
    if level > 0:
        return _Cell(node.key, f"Cover {node.title}" if node.kind == "cover" else node.title, "", "l2", dashed=True)
    if node.settled:
        return _Cell(node.key, node.title, "drying", "l2")
    if not network.can_start(node.key):
        return _Cell(node.key, node.title, "", "l2")
    return _Cell(node.key, title, "start now" if node.waits_for is WaitsFor.ME else f"waits: {node.waits_for}", "l3")


def _row_of_boxes(cells: Sequence[_Cell], y: int) -> list[Box]:
    widths = {1: 226, 2: 158}
    width = widths.get(len(cells), (WIDTH - 2 * EDGE - 2 * GAP) // 3)
    left = (WIDTH - width * len(cells) - GAP * (len(cells) - 1)) // 2
    lettered = [_lettered(cell, width) for cell in cells]
    height = max(len(lines) for lines in lettered) * LINE + 2 * PAD
    return [
        Box(
            x=left + at * (width + GAP),
            y=y,
            width=width,
            height=height,
            pen=cell.pen,
            dashed=cell.dashed,
            bold=cell.pen in {"l3", "l4"},
            texts=_placed(lines, y, height, bool(cell.note)),
        )
        for at, (cell, lines) in enumerate(zip(cells, lettered, strict=True))
    ]


def _lettered(cell: _Cell, width: int) -> list[str]:
    fits = int((width - 4) / LETTER)
    lines = wrap(cell.title, fits, max_lines=MOST_LINES, placeholder="…") or [""]
    return [*lines, cell.note] if cell.note else lines


def _placed(lines: Sequence[str], y: int, height: int, noted: bool) -> tuple[Text, ...]:
    top = y + (height - len(lines) * LINE) // 2 + 15
    last = len(lines) - 1
    return tuple(Text(top + at * LINE, words, noted and at == last) for at, words in enumerate(lines))


def _arrow(need: Box, waiter: Box, rows: int, link: Link, around: Neighbourhood) -> Arrow:
    """Down from a need into the channel above its waiter; over more than one row it runs down the nearer margin."""
    dashed = not link.hard or around.level[link.waiter] > 0
    end = waiter.y
    bend = end - 24
    if rows == 1:
        path = f"M{need.middle} {need.bottom}V{bend}H{waiter.middle}V{end - 9}"
    else:
        side = EDGE // 2 if need.middle < WIDTH // 2 else WIDTH - EDGE // 2
        path = f"M{need.middle} {need.bottom}V{need.bottom + 12}H{side}V{bend}H{waiter.middle}V{end - 9}"
    return Arrow(path, f"M{waiter.middle} {end - 1}l-4.5 -11h9z", dashed)


def in_words(network: Network, around: Neighbourhood, key: str) -> str:
    """The same for who does not see the drawing: what each thing needs, then what the asked thing frees."""
    titles: Mapping[str, str] = {node.key: node.title for node in around.nodes}
    needs: dict[str, list[str]] = {}
    for link in around.links:
        needs.setdefault(link.waiter, []).append(titles[link.needs])
    order = sorted(needs, key=lambda waiter: -around.level[waiter])
    sentences = [
        f"{titles[waiter]} needs {join_words(needs[waiter])}." for waiter in order if around.level[waiter] <= 0
    ]
    freed = [node.title for node in around.nodes if around.level[node.key] > 0]
    if freed:
        sentences.append(f"{network.node(key).title} frees {join_words(freed)}.")
    return " ".join(sentences) or "Nothing stops it."
