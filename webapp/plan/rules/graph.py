"""The graph of needs by keys alone: order, loops, and everything up or down the line from one key.

A key is any string that names a thing once ("task:12", "inspection:3@7", "cover:7"). Nothing here recurses,
because a long chain of needs must not hit the interpreter's limit. Each is linear in keys and links,
apart from the heap that keeps an order stable.
"""

from collections import deque
from collections.abc import Callable, Iterable, Mapping, Sequence
from dataclasses import dataclass
from heapq import heappop, heappush


@dataclass(frozen=True, slots=True)
class Link:
    """`waiter` needs `needs`; not hard means a wish. `lag_days` are calendar days after `needs` settles."""

    waiter: str
    needs: str
    hard: bool = True
    lag_days: int = 0
    reason: str = ""


class Loop(Exception):
    """Things that need each other in a circle: each key needs the next one, and the last needs the first."""

    def __init__(self, keys: tuple[str, ...]) -> None:
        super().__init__(f"These need each other in a circle: {' needs '.join((*keys, keys[0]))}.")
        self.keys = keys


def loop_with(links: Iterable[Link], extra: Link) -> tuple[str, ...] | None:
    """Give the shortest circle that `extra` would close, its waiter first, or None. Wishes count too."""
    if extra.waiter == extra.needs:
        return (extra.waiter,)
    way = shortest_way(_needs_of(links).get, extra.needs, extra.waiter)
    return None if way is None else (extra.waiter, *way[:-1])


def any_loop(links: Iterable[Link]) -> tuple[str, ...] | None:
    """Give one circle among `links`, as short as any through its first key, or None if there is none."""
    links = tuple(links)
    number = _numbered(links)
    ordered = _from_the_top(_rows(links, number))
    if len(ordered) == len(number):
        return None
    names = tuple(number)
    loose = {names[place] for place in ordered}
    stuck = _needs_of(link for link in links if link.waiter not in loose and link.needs not in loose)
    # Whatever could not be ordered needs another such thing, so following needs must come round in the end.
    seen: set[str] = set()
    key = next(iter(stuck))
    while key not in seen:
        seen.add(key)
        key = stuck[key][0]
    ways = [shortest_way(stuck.get, need, key) for need in stuck[key]]
    return (key, *min((way for way in ways if way is not None), key=len)[:-1])


def in_order(keys: Iterable[str], links: Iterable[Link], rank: Mapping[str, int] | None = None) -> tuple[str, ...]:
    """Order `keys` so that each comes after all it needs; free choices go by rank (absent: 0), then as given.

    Keys that only the links mention are walked through and left out of the answer, so that a need through
    a third thing still holds. Raises Loop if no order exists.
    """
    links = tuple(links)
    ranks = rank or {}
    wanted = sorted(dict.fromkeys(keys), key=lambda key: ranks.get(key, 0))
    asked = set(wanted)
    line = [*(key for key in _numbered(links) if key not in asked), *wanted]
    rows = _rows(links, {key: place for place, key in enumerate(line)})
    left = _counts(rows)
    ready = [place for place, count in enumerate(left) if not count]
    ordered: list[str] = []
    while ready:
        place = heappop(ready)
        ordered.append(line[place])
        for waiter in rows[place]:
            left[waiter] -= 1
            if not left[waiter]:
                heappush(ready, waiter)
    if len(ordered) < len(line):
        raise Loop(any_loop(links) or ())
    return tuple(key for key in ordered if key in asked)


def upstream(key: str, links: Iterable[Link]) -> frozenset[str]:
    """Everything `key` needs, however far away; never `key` itself."""
    return _reached(key, _needs_of(links))


def downstream(key: str, links: Iterable[Link]) -> frozenset[str]:
    """Everything that needs `key`, however far away; never `key` itself."""
    return _reached(key, _waiters_of(links))


def downstream_of_each(keys: Iterable[str], links: Iterable[Link]) -> dict[str, frozenset[str]]:
    """Of each of `keys` what `downstream` gives, with the links sorted only once."""
    table = _waiters_of(links)
    return {key: _reached(key, table) for key in keys}


def shortest_way(following: Callable[[str], Iterable[str] | None], start: str, goal: str) -> tuple[str, ...] | None:
    """Walk breadth first from `start` to `goal`, both included; None if no way leads there."""
    came_from = {start: start}
    todo = deque([start])
    while todo:
        key = todo.popleft()
        if key == goal:
            break
        for other in following(key) or ():
            if other not in came_from:
                came_from[other] = key
                todo.append(other)
    else:
        return None
    way = [goal]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))


class Reach:
    """Everything downstream of every thing at once: one big integer per thing, with one bit per thing.

    Things go by number here: `waiters[n]` are the numbers of those that directly need thing `n`. For thousands of
    things this is far cheaper than a walk from each. `circular` are those that reach themselves.
    """

    __slots__ = ("_bit", "_closed", "_down", "circular")

    def __init__(self, waiters: Sequence[Sequence[int]]) -> None:
        order = _from_the_top(waiters)
        placed = set(order)
        tangled = [number for number in range(len(waiters)) if number not in placed]
        # What nothing waits for gets the low bits, so that most of the integers stay short.
        self._bit = [0] * len(waiters)
        for place, number in enumerate((*tangled, *reversed(order))):
            self._bit[number] = 1 << place
        self._down = [0] * len(waiters)
        self._closed = self._bit.copy()
        while self._fill(tangled, waiters):
            pass
        self._fill(reversed(order), waiters)
        self.circular = frozenset(number for number in tangled if self._down[number] & self._bit[number])

    def _fill(self, numbers: Iterable[int], waiters: Sequence[Sequence[int]]) -> bool:
        changed = False
        for number in numbers:
            bits = 0
            for waiter in waiters[number]:
                bits |= self._closed[waiter]
            if bits != self._down[number]:
                self._down[number] = bits
                self._closed[number] |= bits
                changed = True
        return changed

    def of(self, numbers: Iterable[int]) -> int:
        """Bits of `numbers` and of everything downstream of them."""
        bits = 0
        for number in numbers:
            bits |= self._closed[number]
        return bits

    def bit(self, number: int) -> int:
        """The one bit that stands for `number`."""
        return self._bit[number]

    def downstream(self, number: int) -> int:
        """Bits of everything downstream of `number`."""
        return self._down[number]


def _from_the_top(waiters: Sequence[Sequence[int]]) -> list[int]:
    """Numbers in an order where all that a thing needs comes earlier; whatever hangs on a circle is left out."""
    left = _counts(waiters)
    ordered = [number for number, count in enumerate(left) if not count]
    for number in ordered:
        for waiter in waiters[number]:
            left[waiter] -= 1
            if not left[waiter]:
                ordered.append(waiter)
    return ordered


def _numbered(links: Iterable[Link]) -> dict[str, int]:
    """Every key the links mention, with a number of its own."""
    keys = dict.fromkeys(key for link in links for key in (link.needs, link.waiter))
    return {key: place for place, key in enumerate(keys)}


def _rows(links: Iterable[Link], number: Mapping[str, int]) -> list[list[int]]:
    """By number of the need, the numbers of its waiters."""
    rows: list[list[int]] = [[] for _ in number]
    for link in links:
        rows[number[link.needs]].append(number[link.waiter])
    return rows


def _counts(rows: Sequence[Sequence[int]]) -> list[int]:
    """By number, how many needs it has."""
    counts = [0] * len(rows)
    for row in rows:
        for waiter in row:
            counts[waiter] += 1
    return counts


def _needs_of(links: Iterable[Link]) -> dict[str, list[str]]:
    """Direct needs of every key the links mention."""
    table: dict[str, list[str]] = {}
    for link in links:
        table.setdefault(link.needs, [])
        table.setdefault(link.waiter, []).append(link.needs)
    return table


def _waiters_of(links: Iterable[Link]) -> dict[str, list[str]]:
    """Direct waiters of every key the links mention."""
    table: dict[str, list[str]] = {}
    for link in links:
        table.setdefault(link.waiter, [])
        table.setdefault(link.needs, []).append(link.waiter)
    return table


def _reached(key: str, table: Mapping[str, list[str]]) -> frozenset[str]:
    seen: set[str] = set()
    todo = [key]
    while todo:
        for other in table.get(todo.pop(), ()):
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return frozenset(seen - {key})
