"""The graph of needs by keys alone: order, loops, and everything up or down the line from one key.

A key is any string that names a thing once ("task:12", "inspection:3@7", "cover:7"). Nothing here recurses,
because a long chain of needs must not hit the interpreter's limit. Each is linear in keys and links,
apart from the heap that keeps an order stable.
"""

from collections import deque
from collections.abc import Iterable, Mapping
from dataclasses import dataclass
from heapq import heapify, heappop, heappush


@dataclass(frozen=True, slots=True)
class Link:
    """`waiter` needs `needs`; not hard means a wish. `lag_days` are calendar days after `needs` settles."""

    waiter: str
    needs: str
    hard: bool = True
    lag_days: int = 0
    reason: str = ""


class Loop(Exception):  # noqa: N818 - the builder's word: things that wait for each other in a circle.
    """Things that need each other in a circle: each key needs the next one, and the last needs the first."""

    def __init__(self, keys: tuple[str, ...]) -> None:
        super().__init__(f"These need each other in a circle: {' needs '.join((*keys, keys[0]))}.")
        self.keys = keys


def loop_with(links: Iterable[Link], extra: Link) -> tuple[str, ...] | None:
    """Give the shortest circle that `extra` would close, its waiter first, or None. Wishes count too."""
    if extra.waiter == extra.needs:
        return (extra.waiter,)
    way = _shortest_way(_needs_of(links), extra.needs, extra.waiter)
    return None if way is None else (extra.waiter, *way[:-1])


def any_loop(links: Iterable[Link]) -> tuple[str, ...] | None:
    """Give one circle among `links`, as short as any through its first key, or None if there is none."""
    links = tuple(links)
    kept = _needs_of(links)
    ordered = set(_from_the_top(kept, _waiters_of(links)))
    stuck = {
        key: [need for need in needs if need not in ordered]
        for key, needs in kept.items()
        if key not in ordered
    }
    if not stuck:
        return None
    # Whatever could not be ordered needs another such thing, so following needs must come round in the end.
    seen: set[str] = set()
    key = next(iter(stuck))
    while key not in seen:
        seen.add(key)
        key = stuck[key][0]
    ways = [_shortest_way(stuck, need, key) for need in stuck[key]]
    return (key, *min((way for way in ways if way is not None), key=len)[:-1])


def in_order(
    keys: Iterable[str], links: Iterable[Link], rank: Mapping[str, int] | None = None
) -> tuple[str, ...]:
    """Order `keys` so that each comes after all it needs; free choices go by rank (absent: 0), then as given.

    Keys that only the links mention are walked through and left out of the answer, so that a need through
    a third thing still holds. Raises Loop if no order exists.
    """
    links = tuple(links)
    ranks = rank or {}
    wanted = sorted(dict.fromkeys(keys), key=lambda key: ranks.get(key, 0))
    needs, waiters = _needs_of(links), _waiters_of(links)
    asked = set(wanted)
    line = [key for key in needs if key not in asked] + wanted
    place = {key: number for number, key in enumerate(line)}
    left = [len(needs.get(key, ())) for key in line]
    ready = [number for number, count in enumerate(left) if not count]
    heapify(ready)
    ordered = []
    while ready:
        key = line[heappop(ready)]
        ordered.append(key)
        for waiter in waiters.get(key, ()):
            number = place[waiter]
            left[number] -= 1
            if not left[number]:
                heappush(ready, number)
    if len(ordered) < len(line):
        raise Loop(any_loop(links) or ())
    return tuple(key for key in ordered if key in asked)


def upstream(key: str, links: Iterable[Link]) -> frozenset[str]:
    """Everything `key` needs, however far away; never `key` itself."""
    return _reached(key, _needs_of(links))


def downstream(key: str, links: Iterable[Link]) -> frozenset[str]:
    """Everything that needs `key`, however far away; never `key` itself."""
    return _reached(key, _waiters_of(links))


class Reach:
    """Everything downstream of every key at once: one big integer per key, with one bit per key.

    For thousands of keys this is far cheaper than a walk from each. A key in a circle reaches itself.
    """

    __slots__ = ("_bit", "_bits")

    def __init__(self, keys: Iterable[str], links: Iterable[Link]) -> None:
        links = tuple(links)
        waiters: dict[str, list[str]] = {key: [] for key in keys} | _waiters_of(links)
        order = _from_the_top(waiters, _needs_of(links))
        # What nothing waits for gets the low bits, so that most of the integers stay short.
        placed = set(order)
        circular = [key for key in waiters if key not in placed]
        self._bit = {key: 1 << place for place, key in enumerate((*order, *circular))}
        self._bits: dict[str, int] = dict.fromkeys(self._bit, 0)
        self._fill(order, waiters)
        while self._fill(circular, waiters):
            pass

    def _fill(self, keys: Iterable[str], waiters: Mapping[str, list[str]]) -> bool:
        changed = False
        for key in keys:
            bits = self.of(waiters[key])
            if bits != self._bits[key]:
                self._bits[key] = bits
                changed = True
        return changed

    def of(self, waiters: Iterable[str]) -> int:
        """Bits of `waiters` and of everything downstream of them."""
        bits = 0
        for waiter in waiters:
            bits |= self._bits[waiter] | self._bit[waiter]
        return bits

    def bit(self, key: str) -> int:
        """The one bit that stands for `key`."""
        return self._bit[key]

    def downstream(self, key: str) -> int:
        """Bits of everything downstream of `key`."""
        return self._bits[key]

    def goes_round(self, key: str) -> bool:
        """Say whether `key` needs itself through others."""
        return bool(self._bits[key] & self._bit[key])


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


def _from_the_top(before: Mapping[str, list[str]], after: Mapping[str, list[str]]) -> list[str]:
    """Keys in an order where all of `before[key]` come earlier; whatever hangs on a circle is left out."""
    left = {key: len(firsts) for key, firsts in before.items()}
    ordered = [key for key, count in left.items() if not count]
    for key in ordered:
        for follower in after.get(key, ()):
            left[follower] -= 1
            if not left[follower]:
                ordered.append(follower)
    return ordered


def _reached(key: str, table: Mapping[str, list[str]]) -> frozenset[str]:
    seen: set[str] = set()
    todo = [key]
    while todo:
        for other in table.get(todo.pop(), ()):
            if other not in seen:
                seen.add(other)
                todo.append(other)
    return frozenset(seen - {key})


def _shortest_way(table: Mapping[str, list[str]], start: str, goal: str) -> tuple[str, ...] | None:
    """Breadth first from `start` to `goal`, both included, or None."""
    came_from = {start: start}
    todo = deque([start])
    while todo:
        key = todo.popleft()
        if key == goal:
            break
        for other in table.get(key, ()):
            if other not in came_from:
                came_from[other] = key
                todo.append(other)
    else:
        return None
    way = [goal]
    while way[-1] != start:
        way.append(came_from[way[-1]])
    return tuple(reversed(way))
