"""What a thing needs and what it frees, laid out as boxes and lines: needs above, what it frees below.

Only what is joined is drawn: the nearest needs first, then what they need, so that a line leads from every box down to
the asked thing. A row holds three boxes at most; more are counted in a box that is joined as well, and so is what lies
above the topmost row.
"""

from collections.abc import Iterable, Mapping, Sequence
from dataclasses import dataclass

from webapp.readiness.rules.boxes import BETWEEN, WIDTH, Arrow, Box, Cell, arrow, long_arrow, row_of_boxes
from webapp.readiness.rules.network import Link, Neighbourhood, Network, Node, WaitsFor
from webapp.values.words import join_words

ROW = 3
MOST_ROWS_UP = 4


@dataclass(frozen=True, slots=True)
class Drawing:
    height: int
    boxes: tuple[Box, ...]
    arrows: tuple[Arrow, ...]
    says: str
    """the drawing in words"""


@dataclass(frozen=True, slots=True)
class _Row:
    """Boxes of one row, and the links of what it only counts."""

    cells: list[Cell]
    counted: list[Link]


def drawn(network: Network, key: str, hold_point: bool) -> Drawing:
    """The neighbourhood of `key`, two steps up and one down. `hold_point`: the thing closes a surface."""
    around = network.around(key)
    links = _plain(around, key)
    asked = _Row([_asked_cell(network.node(key), hold_point)], [])
    rows = [*_rows_above(network, around, links, key), asked, *_row_below(network, links, key)]
    placed: list[list[Box]] = []
    y = 8
    for row in rows:
        placed.append(row_of_boxes(row.cells, y))
        y = placed[-1][0].bottom + BETWEEN
    counted = [link for row in rows for link in row.counted]
    arrows = _arrows(placed, [*links, *counted], around)
    boxes = tuple(box for row in placed for box in row)
    return Drawing(y - BETWEEN + 8, boxes, tuple(arrows), in_words(network, around, key))


def _plain(around: Neighbourhood, asked: str) -> list[Link]:
    """The links to draw: downwards only, what is freed only from the asked thing, and none that others imply."""
    level = around.level
    links = [
        link
        for link in around.links
        if level[link.needs] < level[link.waiter] and (level[link.waiter] <= 0 or link.needs == asked)
    ]
    waiters: dict[str, set[str]] = {}
    for link in links:
        waiters.setdefault(link.needs, set()).add(link.waiter)
    below: dict[str, set[str]] = {}
    for key in sorted(level, key=lambda key: -level[key]):
        below[key] = waiters.get(key, set()).union(*(below[waiter] for waiter in waiters.get(key, ())))
    return [link for link in links if not any(link.waiter in below[other] for other in waiters[link.needs])]


def _rows_above(network: Network, around: Neighbourhood, links: Sequence[Link], asked: str) -> list[_Row]:
    """From the asked thing upwards: each row holds what the row beneath it needs. Returned as drawn, topmost first."""
    rows: list[_Row] = []
    beneath, drawn_keys, counted = [asked], {asked}, set[str]()
    for step in range(1, MOST_ROWS_UP + 2):
        into = [link for link in links if link.waiter in beneath and link.needs not in counted]
        named, rest = _chosen(network, around, into, -step)
        if step > MOST_ROWS_UP:
            named, rest = [], [*named, *rest]
        # What waits for a thing two rows down only may still be drawn higher up, where its own row stands.
        rest = [key for key in rest if not _stands_higher(key, -step, around, links, drawn_keys | set(named))]
        if not named and not rest:
            break
        row = [_cell(network, network.node(key)) for key in _ordered(named, into, beneath)]
        count = f"count:{-step}"
        if rest:
            row.append(Cell(count, f"{len(rest)} more", "", "l1"))
        rows.append(_Row(row, _counted(count, rest, into)))
        beneath = [cell.key for cell in row if not cell.counts]
        drawn_keys |= set(named)
        counted |= set(rest)
    return rows[::-1]


def _stands_higher(
    key: str, level: int, around: Neighbourhood, links: Iterable[Link], drawn_keys: Iterable[str]
) -> bool:
    return around.level[key] < level and any(
        link.needs == key and link.waiter in drawn_keys and around.level[link.waiter] == level for link in links
    )


def _chosen(network: Network, around: Neighbourhood, into: Sequence[Link], level: int) -> tuple[list[str], list[str]]:
    """Which needs to name in the row of `level`, and which only to count: hard ones, then those with needs of their
    own, then in the builder's order."""
    hard = {link.needs for link in into if link.hard}
    needs = sorted(
        dict.fromkeys(link.needs for link in into),
        key=lambda key: (key not in hard, network.can_start(key), network.node(key).rank),
    )
    here = [key for key in needs if around.level[key] == level]
    most = ROW if len(needs) <= ROW else ROW - 1
    named = here[:most]
    return named, [key for key in needs if key not in named]


def _ordered(named: Iterable[str], into: Sequence[Link], beneath: Sequence[str]) -> list[str]:
    """From left to right as what they lead to, so that few lines cross."""
    place = {key: at for at, key in enumerate(beneath)}

    def where(key: str) -> float:
        places = [place[link.waiter] for link in into if link.needs == key]
        return sum(places) / len(places)

    return sorted(named, key=where)


def _counted(count: str, rest: Iterable[str], into: Sequence[Link]) -> list[Link]:
    """One line from the count to each box that needs something of it; dashed where those are wishes only."""
    hard: dict[str, bool] = {}
    wanted = set(rest)
    for link in into:
        if link.needs in wanted:
            hard[link.waiter] = hard.get(link.waiter, False) or link.hard
    return [Link(waiter, count, is_hard) for waiter, is_hard in hard.items()]


def _row_below(network: Network, links: Sequence[Link], asked: str) -> list[_Row]:
    freed = [link.waiter for link in links if link.needs == asked]
    if not freed:
        return []
    freed.sort(key=lambda key: network.node(key).rank)
    shown = freed if len(freed) <= ROW else freed[: ROW - 1]
    cells = [_freed_cell(network.node(key)) for key in shown]
    count = "count:1"
    if len(freed) == len(shown):
        return [_Row(cells, [])]
    cells.append(Cell(count, f"{len(freed) - len(shown)} more", "", "l1", dashed=True))
    return [_Row(cells, [Link(count, asked)])]


def _asked_cell(node: Node, hold_point: bool) -> Cell:
    return Cell(node.key, node.title, "hold point" if hold_point else "", "l4")


def _freed_cell(node: Node) -> Cell:
    return Cell(node.key, f"Cover {node.title}" if node.kind == "cover" else node.title, "", "l2", dashed=True)


def _cell(network: Network, node: Node) -> Cell:
    if node.settled:
        return Cell(node.key, node.title, "drying", "l2")
    if not network.can_start(node.key):
        return Cell(node.key, node.title, "", "l2")
    note = "start now" if node.waits_for is WaitsFor.ME else f"waits: {node.waits_for}"
    return Cell(node.key, node.ready_says or node.title, note, "l3")


def _arrows(placed: Sequence[Sequence[Box]], links: Iterable[Link], around: Neighbourhood) -> list[Arrow]:
    """A line for each link between drawn boxes. Of those that pass a row, each margin carries the lines to one box
    only, so that no line can be read as leading elsewhere; their boxes are joined by way of the rows between anyway."""
    at = {box.key: (row, box) for row, boxes in enumerate(placed) for box in boxes}
    arrows: list[Arrow] = []
    lanes: dict[bool, str] = {}
    for link in links:
        if link.needs not in at or link.waiter not in at:
            continue
        (above, need), (below, waiter) = at[link.needs], at[link.waiter]
        dashed = not link.hard or around.level.get(link.waiter, 1) > 0
        if below - above == 1:
            arrows.append(arrow(need, waiter, dashed=dashed))
            continue
        right = need.middle >= WIDTH // 2
        side = next((side for side in (right, not right) if lanes.setdefault(side, waiter.key) == waiter.key), None)
        if side is not None:
            arrows.append(long_arrow(need, waiter, right=side, dashed=dashed))
    return arrows


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
