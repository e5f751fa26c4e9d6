"""What no schedule of one builder can be below: the preemptive schedule with each node's own earliest begin and latest
end, its needs otherwise forgotten ("Jackson's preemptive schedule", Carlier, "The one-machine sequencing problem",
European Journal of Operational Research 11, 1982; from memory).
"""

from heapq import heappop, heappush

from webapp.forecast.rules.axes import Axes
from webapp.forecast.rules.network import Network
from webapp.forecast.rules.passes import heads, latest_ends


def least_end(network: Network, axes: Axes, known: int) -> int:
    """The smallest wall slot by which all could be over; `known` is one that was reached."""
    begins = heads(network, axes)
    low, high = 0, known
    while low < high:
        middle = (low + high) // 2
        if _fits(network, axes, begins, middle):
            high = middle
        else:
            low = middle + 1
    return low


def _fits(network: Network, axes: Axes, begins: tuple[int, ...], due: int) -> bool:
    ends = latest_ends(network, axes, due)
    jobs = []
    for begin, end, node in zip(begins, ends, network.nodes, strict=True):
        if node.wait or not node.length:
            if begin + node.length > end:
                return False
        else:
            jobs.append(
                (axes.before[min(begin, axes.horizon)], axes.before[max(0, min(end, axes.horizon))], node.length)
            )
    return _in_time(sorted(jobs))


def _in_time(jobs: list[tuple[int, int, int]]) -> bool:
    """Whether every (release, due, length), on the working axis, is over in time when the most pressing goes first."""
    ready: list[tuple[int, int]] = []
    now, number = 0, 0
    while ready or number < len(jobs):
        if not ready:
            now = max(now, jobs[number][0])
        while number < len(jobs) and jobs[number][0] <= now:
            heappush(ready, jobs[number][1:])
            number += 1
        due, left = heappop(ready)
        until = min(now + left, jobs[number][0]) if number < len(jobs) else now + left
        if now + left > due:
            return False
        if until < now + left:
            heappush(ready, (due, now + left - until))
        now = until
    return True
