"""One pair of hands: always on the ready work that must be over first, counting the waits behind it; work may be laid
down and taken up again. Waits begin by themselves as soon as what they need is over.

The order by latest finish is exact for waits before the first or after the last own work of a chain (Baker, Lawler,
Lenstra, Rinnooy Kan, "Preemptive scheduling of a single machine to minimize maximum cost subject to release dates and
precedence constraints", Operations Research 31, 1983); waits between are NP-hard, so it is compared with a bound.
"""

from collections.abc import Sequence
from dataclasses import dataclass
from heapq import heappop, heappush

from webapp.forecast.rules.axes import Axes, first_free
from webapp.forecast.rules.bound import least_end
from webapp.forecast.rules.network import Network
from webapp.forecast.rules.passes import latest_ends

TRIES = 3


class NoEnd(Exception):
    """The builder's sessions end before the work does."""


@dataclass(frozen=True, slots=True)
class Piece:
    """Working units `first` to `end` (half open) spent on the node at `place`."""

    place: int
    first: int
    end: int


@dataclass(frozen=True, slots=True)
class Schedule:
    """By place, the wall slots of begin and end; the pieces of own work in order."""

    begins: tuple[int, ...]
    ends: tuple[int, ...]
    pieces: tuple[Piece, ...]

    @property
    def end(self) -> int:
        return max(self.ends, default=0)


class _Hands:
    """The running state of one dispatch."""

    def __init__(self, network: Network, axes: Axes, due: Sequence[int]) -> None:
        self.network, self.axes, self.due = network, axes, due
        count = len(network.nodes)
        self.left = [node.length for node in network.nodes]
        self.open = [len(needs) for needs in network.needs]
        self.begins: list[int | None] = [None] * count
        self.ends: list[int | None] = [None] * count
        self.events: list[tuple[int, int, bool]] = []
        """(wall slot, place, whether it is over then or only may begin)"""
        self.ready: list[tuple[int, int]] = []
        self.pieces: list[Piece] = []
        for place, needs in enumerate(network.needs):
            if not needs:
                heappush(self.events, (network.nodes[place].not_before, place, False))

    def over(self, place: int, at: int) -> None:
        self.ends[place] = at
        for follower in self.network.followers[place]:
            self.open[follower] -= 1
            if not self.open[follower]:
                heappush(self.events, (max(at, self.network.nodes[follower].not_before), follower, False))

    def happen(self, now: int) -> None:
        """Whatever comes free or is over by `now`."""
        while self.events and self.events[0][0] <= now:
            at, place, done = heappop(self.events)
            node = self.network.nodes[place]
            if done:
                self.over(place, at)
            elif node.wait or not node.length:
                self.begins[place] = at
                heappush(self.events, (at + (node.length if node.wait else 0), place, True))
            else:
                heappush(self.ready, (self.due[place], place))

    def work(self, now: int) -> int:
        """On the most pressing piece until it is over or something else comes free; gives the wall slot then."""
        _, place = self.ready[0]
        first = self.axes.before[now]
        end = first + self.left[place]
        if end > len(self.axes.slot):
            raise NoEnd
        over = self.axes.end_of(end - 1)
        until = min(over, self.events[0][0]) if self.events else over
        done = end if until == over else self.axes.before[until]
        if done > first:
            if self.begins[place] is None:
                self.begins[place] = self.axes.slot[first]
            self._note(Piece(place, first, done))
            self.left[place] -= done - first
        if until == over:
            heappop(self.ready)
            self.over(place, over)
        return until

    def _note(self, piece: Piece) -> None:
        last = self.pieces[-1] if self.pieces else None
        if last and last.place == piece.place and last.end == piece.first:
            self.pieces[-1] = Piece(piece.place, last.first, piece.end)
        else:
            self.pieces.append(piece)


def dispatch(network: Network, axes: Axes, due: Sequence[int]) -> Schedule:
    """All of it by `due` (by place, the earlier the sooner; ties by place). Raises NoEnd where time runs out."""
    hands, now = _Hands(network, axes, due), 0
    hands.happen(now)
    while hands.ready or hands.events:
        if hands.ready:
            begin = first_free(axes, now)
            now = min(begin, hands.events[0][0]) if hands.events else begin
            if now == begin:
                if now >= axes.horizon:
                    raise NoEnd
                now = hands.work(now)
        else:
            now = hands.events[0][0]
        hands.happen(now)
    begins = tuple(slot for slot in hands.begins if slot is not None)
    ends = tuple(slot for slot in hands.ends if slot is not None)
    return Schedule(begins, ends, tuple(hands.pieces))


def plan(network: Network, axes: Axes) -> tuple[Schedule, int]:
    """The best schedule of a few, and the bound no schedule can be below (wall slots).

    The order is asked for the end that was found, and for the bound: with a calendar it depends on that day.
    """
    best = dispatch(network, axes, latest_ends(network, axes, axes.horizon))
    bound = least_end(network, axes, best.end)
    for due in (best.end, bound)[:TRIES]:
        if best.end == bound:
            break
        found = dispatch(network, axes, latest_ends(network, axes, due))
        best = min(best, found, key=lambda one: one.end)
    return best, bound
