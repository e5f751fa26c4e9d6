"""The way of a line through the building: from its first box along its runs to the last, with branches and rings.

Stretches on several surfaces that go on from one another are one piece of cable, pipe or duct. A piece joins the thing
it begins at with the thing it ends at; where an end is not known, it ends at nothing on record. Lengths in nanometres.
"""

from collections.abc import Collection, Iterable, Iterator, Mapping, Sequence
from dataclasses import dataclass
from itertools import pairwise
from math import isqrt
from typing import Protocol

from webapp.surfaces.rules.face import Point

EDGE_NM = 152_400_000
"""6 in: a bend nearer to the edge than this meets it; measured below the plates, a cable stops short of the corner
(common practice, no source)"""
NEAR_NM = 406_400_000
"""16 in: how far from the centre of a box its run may begin; one stud bay (common practice, no source)"""


class Stretch(Protocol):
    """What is drawn of a run on one surface."""

    @property
    def id(self) -> int: ...
    @property
    def surface_id(self) -> int: ...
    @property
    def points(self) -> Sequence[Point]: ...
    @property
    def from_item_id(self) -> int | None: ...
    @property
    def to_item_id(self) -> int | None: ...
    @property
    def continues_id(self) -> int | None: ...


@dataclass(frozen=True, slots=True)
class Piece:
    """Stretches that go on from one another, by id; the things at both ends, None where it is not known."""

    stretches: tuple[int, ...]
    begins: int | None
    ends: int | None


@dataclass(frozen=True, slots=True)
class Step:
    """By these stretches from `start` to `item`. `again`: it was reached before, so a ring closes there."""

    start: int | None
    stretches: tuple[int, ...]
    item: int | None
    again: bool


@dataclass(frozen=True, slots=True)
class Part:
    """What hangs together: the thing it begins at, None for a piece that begins at nothing on record."""

    first: int | None
    steps: tuple[Step, ...]


def drawn_length(points: Sequence[Point]) -> int:
    """The sum of the straight parts; a slanted one to the nearest nanometre."""
    return sum(_straight(start, end) for start, end in pairwise(points))


def _straight(start: Point, end: Point) -> int:
    square = (end[0] - start[0]) ** 2 + (end[1] - start[1]) ** 2
    return (isqrt(4 * square) + 1) // 2


def pieces(stretches: Iterable[Stretch]) -> tuple[Piece, ...]:
    """Each way from a stretch that goes on from none of these to one that none goes on from. A branch gives several."""
    known = {one.id: one for one in stretches}
    after: dict[int, list[int]] = {}
    heads = []
    for one in known.values():
        if one.continues_id in known and one.continues_id is not None:
            after.setdefault(one.continues_id, []).append(one.id)
        else:
            heads.append(one.id)
    chains = [chain for head in heads for chain in _chains(head, after)]
    reached = {number for chain in chains for number in chain}
    # Stretches that go on from one another in a circle have no first one: each then stands for itself.
    chains += [(number,) for number in known if number not in reached]
    return tuple(_piece([known[number] for number in chain]) for chain in chains)


def _chains(head: int, after: Mapping[int, Sequence[int]]) -> Iterator[tuple[int, ...]]:
    todo: list[tuple[int, ...]] = [(head,)]
    while todo:
        chain = todo.pop()
        following = after.get(chain[-1], ())
        if not following:
            yield chain
        todo += [(*chain, number) for number in reversed(following)]


def _piece(chain: Sequence[Stretch]) -> Piece:
    begins = next((one.from_item_id for one in chain if one.from_item_id is not None), None)
    ends = next((one.to_item_id for one in reversed(chain) if one.to_item_id is not None), None)
    return Piece(tuple(one.id for one in chain), begins, ends)


Node = tuple[str, int]
"""("item", its id), or an end that is not known: ("from", number of the piece) or ("to", number of the piece)"""


@dataclass(frozen=True, slots=True)
class _Net:
    """The pieces by the nodes they join, and which nodes one arrives at."""

    ends: Mapping[int, tuple[Node, Node]]
    at: Mapping[Node, tuple[int, ...]]
    arrived: Collection[Node]


def _net(found: Sequence[Piece]) -> _Net:
    ends: dict[int, tuple[Node, Node]] = {}
    at: dict[Node, list[int]] = {}
    for number, piece in enumerate(found):
        begins: Node = ("item", piece.begins) if piece.begins is not None else ("from", number)
        goes_to: Node = ("item", piece.ends) if piece.ends is not None else ("to", number)
        ends[number] = (begins, goes_to)
        for node in dict.fromkeys((begins, goes_to)):
            at.setdefault(node, []).append(number)
    return _Net(ends, {node: tuple(numbers) for node, numbers in at.items()}, {to for _, to in ends.values()})


def way(found: Sequence[Piece], first: Collection[int], order: Sequence[int]) -> tuple[Part, ...]:
    """The parts that hang together, each from its beginning; every piece once, a branch after what goes before it.

    `first`: things that a part begins at if it has one (the panel); else it begins where nothing arrives. Among equals,
    and among the parts, the one that stands first in `order` (ids of things) comes first.
    """
    net = _net(found)
    places = {item: place for place, item in enumerate(order)}

    def rank(node: Node) -> tuple[bool, bool, bool, int, int]:
        kind, number = node
        known = kind == "item"
        place = places.get(number, len(places)) if known else len(places)
        return not known, not (known and number in first), node in net.arrived, place, number

    parts: list[Part] = []
    used: set[int] = set()
    for start in sorted(net.at, key=rank):
        if not used.issuperset(net.at[start]):
            whole = _together(net, start)
            best = min(whole, key=rank)
            parts.append(Part(_item(best), tuple(_steps(net, found, best, used))))
    return tuple(parts)


def _item(node: Node) -> int | None:
    return node[1] if node[0] == "item" else None


def _together(net: _Net, start: Node) -> set[Node]:
    seen, todo = {start}, [start]
    while todo:
        for number in net.at[todo.pop()]:
            fresh = set(net.ends[number]) - seen
            seen |= fresh
            todo += fresh
    return seen


def _steps(net: _Net, found: Sequence[Piece], start: Node, used: set[int]) -> Iterator[Step]:
    """Depth first, so that what hangs on a box is followed to its end before the next branch is taken."""
    seen = {start}
    todo = [(start, iter(net.at[start]))]
    while todo:
        here, numbers = todo[-1]
        number = next((one for one in numbers if one not in used), None)
        if number is None:
            todo.pop()
            continue
        used.add(number)
        begins, ends = net.ends[number]
        there, back = (ends, False) if here == begins else (begins, True)
        stretches = found[number].stretches
        yield Step(_item(here), stretches[::-1] if back else stretches, _item(there), there in seen)
        if there not in seen:
            seen.add(there)
            todo.append((there, iter(net.at[there])))


def gaps(stretches: Iterable[Stretch], sizes: Mapping[int, tuple[int | None, int | None]]) -> tuple[int, ...]:
    """Stretches, by id, with an end that joins one on another surface and does not meet the edge of its own.

    `sizes`: length and other measure of each surface, by its id.
    """
    known = {one.id: one for one in stretches}
    found: dict[int, None] = {}
    for one in known.values():
        before = known.get(one.continues_id or 0)
        if before is None or before.surface_id == one.surface_id:
            continue
        for stretch, point in ((before, before.points[-1]), (one, one.points[0])):
            if not meets_edge(point, *sizes[stretch.surface_id]):
                found[stretch.id] = None
    return tuple(found)


def meets_edge(point: Point, length_nm: int | None, height_nm: int | None) -> bool:
    """Whether a point lies at an edge of its surface; of one that was not measured nobody knows."""
    if length_nm is None or height_nm is None:
        return True
    sides = ((point[0], length_nm), (point[1], height_nm))
    return any(at <= EDGE_NM or size - at <= EDGE_NM for at, size in sides)


def is_near(point: Point, x_nm: int | None, y_nm: int | None, width_nm: int | None) -> bool:
    """Whether a run may begin or end here at a thing with this centre; without offsets it may be anywhere."""
    if x_nm is None or y_nm is None:
        return True
    return _straight(point, (x_nm, y_nm)) <= NEAR_NM + (width_nm or 0)
