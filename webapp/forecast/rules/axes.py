"""Two axes: wall slots, and the builder's working units. Work advances on the second, waits on the first."""

from bisect import bisect_left
from collections.abc import Iterable
from dataclasses import dataclass
from itertools import accumulate


@dataclass(frozen=True, slots=True)
class Axes:
    """`before[t]`: working units before wall slot t, up to the horizon; `slot[u]`: the wall slot of working unit u."""

    before: tuple[int, ...]
    slot: tuple[int, ...]

    @property
    def horizon(self) -> int:
        return len(self.before) - 1

    def end_of(self, unit: int) -> int:
        """The wall slot at which working unit `unit` is over: the end of its session, not the start of the next."""
        return self.slot[unit] + 1

    def latest_start(self, due: int, units: int) -> int:
        """The last wall slot from which so much work can still be over at `due`; before 0 where there is no room."""
        if units == 0:
            return due
        if due < 0:
            return due - units
        unit = self.before[min(due, self.horizon)] - units
        return self.slot[unit] if unit >= 0 else unit


def axes_of(sessions: Iterable[tuple[int, int]], horizon: int) -> Axes:
    """From the builder's sessions, half open (first slot, slot after the last), in order and apart from each other.

    Raises ValueError for sessions that overlap or run backwards.
    """
    free = bytearray(horizon)
    last = 0
    for first, end in sessions:
        if first < last or end < first:
            raise ValueError(f"session {first} to {end} overlaps the one before or runs backwards")
        free[first : min(end, horizon)] = b"\x01" * max(0, min(end, horizon) - first)
        last = end
    before = (0, *accumulate(free))
    return Axes(before, tuple(slot for slot, one in enumerate(free) if one))


def first_free(axes: Axes, slot: int) -> int:
    """The first working slot at or after `slot`; the horizon when there is none."""
    found = bisect_left(axes.slot, slot)
    return axes.slot[found] if found < len(axes.slot) else axes.horizon
