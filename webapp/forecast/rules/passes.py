"""The two passes of the critical path method, without and with the builder's calendar (Kelley and Walker,
"Critical-Path Planning and Scheduling", 1959; from memory). Neither knows that one pair of hands does one thing at
a time.
"""

from dataclasses import dataclass

from webapp.forecast.rules.axes import Axes, first_free
from webapp.forecast.rules.network import Network


@dataclass(frozen=True, slots=True)
class Passes:
    """By place in the network: earliest start and finish, latest start and finish, in the unit of the lengths."""

    early: tuple[int, ...]
    early_end: tuple[int, ...]
    late: tuple[int, ...]
    late_end: tuple[int, ...]

    @property
    def length(self) -> int:
        return max(self.early_end, default=0)

    @property
    def slack(self) -> tuple[int, ...]:
        return tuple(late - early for late, early in zip(self.late, self.early, strict=True))


def plain_passes(network: Network) -> Passes:
    """As textbooks do it: lengths of work and waits in one unit, nobody's calendar."""
    early: list[int] = []
    ends: list[int] = []
    for number, node in enumerate(network.nodes):
        early.append(max([node.not_before, *(ends[need] for need in network.needs[number])]))
        ends.append(early[-1] + node.length)
    last = max(ends, default=0)
    late_end = [last] * len(ends)
    for number in reversed(range(len(ends))):
        starts = [late_end[one] - network.nodes[one].length for one in network.followers[number]]
        late_end[number] = min([last, *starts])
    late = [end - node.length for end, node in zip(late_end, network.nodes, strict=True)]
    return Passes(tuple(early), tuple(ends), tuple(late), tuple(late_end))


def heads(network: Network, axes: Axes) -> tuple[int, ...]:
    """By place, the first wall slot at which it could begin if the builder had hands for everything at once."""
    begins: list[int] = []
    ends: list[int] = []
    for number, node in enumerate(network.nodes):
        begin = max([node.not_before, *(ends[need] for need in network.needs[number])])
        if not node.wait and node.length:
            begin = first_free(axes, begin)
        begins.append(begin)
        ends.append(begin + node.length if node.wait or not node.length else _end_of_work(axes, begin, node.length))
    return tuple(begins)


def _end_of_work(axes: Axes, begin: int, units: int) -> int:
    unit = axes.before[min(begin, axes.horizon)] + units - 1
    return axes.end_of(unit) if unit < len(axes.slot) else axes.horizon


def latest_ends(network: Network, axes: Axes, due: int) -> tuple[int, ...]:
    """By place, the wall slot at which it must be over so that all is over at `due`. With waits in the tail; a calendar
    makes it depend on which sessions lie before `due`, so it is asked for the day that counts, not for a far one.
    """
    ends = [due] * len(network.nodes)
    for number in reversed(range(len(ends))):
        node, end = network.nodes[number], ends[number]
        start = end - node.length if node.wait else axes.latest_start(end, node.length)
        for need in network.needs[number]:
            ends[need] = min(ends[need], start)
    return tuple(ends)
