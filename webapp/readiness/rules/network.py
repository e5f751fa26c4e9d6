"""The one graph of needs that every page asks: what can start, what stops a thing, what settling it frees.

A need is met when its node is settled and its wait, counted in calendar days from the day of settling, is over. A
hard need stops its waiter; a wish never does. Nothing here is stored: the answer is computed from the facts and today.
"""

from collections import deque
from collections.abc import Collection, Iterable, Iterator, Mapping
from dataclasses import replace
from datetime import date, timedelta
from typing import NamedTuple

from webapp.plan.rules.graph import Link, Reach, any_loop, shortest_way
from webapp.readiness.rules.levels import untangled
from webapp.readiness.rules.nodes import Frees, Neighbourhood, Node, Root, Unmet, WaitsFor
from webapp.readiness.rules.sorting import by_rank, soonest

__all__ = ["Frees", "Link", "Neighbourhood", "Network", "Node", "Root", "Unmet", "WaitsFor"]


class _Open(NamedTuple):
    """A need not met. If only its wait is left, `until` is the day it ends, None where nobody knows when it began."""

    link: Link
    until: date | None


class _Cause(NamedTuple):
    """A root cause. `covers` are the bits of whatever it stops, with its own unless it is settled."""

    root: Root
    covers: int


class _Causes(NamedTuple):
    """Every root cause, soonest first."""

    reach: Reach
    all: list[_Cause]


class Network:
    """All nodes and links as of `today`. Raises KeyError for a link to a missing node, ValueError for a double key.

    Hard needs that go round in a circle do not raise: `loop` names one, and each thing in a circle is a root that
    waits for an answer (which comes first?), so that nothing blocked ever looks free.
    """

    def __init__(self, nodes: Iterable[Node], links: Iterable[Link], today: date) -> None:
        self.nodes = tuple(nodes)
        self.links = tuple(links)
        self.today = today
        self._number = {node.key: number for number, node in enumerate(self.nodes)}
        if len(self._number) < len(self.nodes):
            twice = next(n.key for i, n in enumerate(self.nodes) if self._number[n.key] != i)
            raise ValueError(f"{twice!r} is in the graph twice; each thing may be there once.")
        self._open: list[dict[int, _Open]] = [{} for _ in self.nodes]
        self._needs: dict[str, list[Link]] = {}
        for link in self.links:
            waiter, needs = self._ends(link)
            self._needs.setdefault(link.waiter, []).append(link)
            node = self.nodes[needs]
            left = self._wait_left(node, link) if node.settled else _Open(link, None)
            if left is None:
                continue
            row = self._open[waiter]
            row[needs] = _stronger(row[needs], left) if needs in row else left
        # Settled waiters keep their open needs above, so that a result withdrawn after cover still shows, but they
        # hold nothing up and are left out here.
        self._held: list[list[int]] = [[] for _ in self.nodes]
        self._stops = [0] * len(self.nodes)
        for number, row in enumerate(self._open):
            if row and not self.nodes[number].settled:
                for need, open_ in row.items():
                    self._held[need].append(number)
                    self._stops[number] += open_.link.hard
        self._causes: dict[bool, _Causes] = {}

    def _ends(self, link: Link) -> tuple[int, int]:
        try:
            return self._number[link.waiter], self._number[link.needs]
        except KeyError as missing:
            says = f"{link.waiter!r} needs {link.needs!r}, but {missing} is not in the graph."
            raise KeyError(says) from None

    def _wait_left(self, settled: Node, link: Link) -> _Open | None:
        """What is left of the wait after a settled need; None if it is over today. One never dated is never over."""
        if settled.settled_on is None:
            return _Open(link, None) if link.lag_days else None
        until = settled.settled_on + timedelta(days=link.lag_days) if link.lag_days else settled.settled_on
        return _Open(link, until) if until > self.today else None

    def __contains__(self, key: object) -> bool:
        return key in self._number

    def node(self, key: str) -> Node:
        """Raise KeyError with a sentence if there is none."""
        return self.nodes[self._at(key)]

    def _at(self, key: str) -> int:
        if key not in self._number:
            raise KeyError(f"{key!r} is not in the graph.")
        return self._number[key]

    @property
    def loop(self) -> tuple[str, ...] | None:
        """One circle of hard needs among what is not settled, or None. Leave it to the builder to take a link away."""
        if not self._found(hard=True).reach.circular:
            return None
        return any_loop(
            open_.link
            for waiter, row in enumerate(self._open)
            for needs, open_ in row.items()
            if open_.link.hard and not (self.nodes[waiter].settled or self.nodes[needs].settled)
        )

    def links_of(self, key: str) -> tuple[Link, ...]:
        """Every need of `key` as it stands in the graph, met or not."""
        return tuple(self._needs.get(key, ()))

    def roots_of_all(self, keys: Iterable[str]) -> tuple[Root, ...]:
        """Every root cause of any of `keys`, each once, soonest first."""
        causes = self._found(hard=True)
        bits = 0
        for key in keys:
            number = self._at(key)
            if not self.nodes[number].settled:
                bits |= causes.reach.bit(number)
        return tuple(root for root, covers in causes.all if covers & bits)

    def unmet(self, key: str) -> tuple[Unmet, ...]:
        """Direct needs not met, hard ones first, then by rank; of a settled thing too: was something taken back?"""
        found = [
            Unmet(self.nodes[number], open_.link.hard, open_.link.reason, open_.until, self.nodes[number].settled)
            for number, open_ in self._open[self._at(key)].items()
        ]
        return tuple(sorted(found, key=lambda need: (not need.hard, need.node.rank)))

    def wishes(self, key: str) -> tuple[Unmet, ...]:
        """Direct wishes not met; what a hard need asks for as well is not among them."""
        return tuple(need for need in self.unmet(key) if not need.hard)

    def can_start(self, key: str) -> bool:
        """Say whether it is not settled and no hard need is open; for a cover this means it may be covered."""
        number = self._at(key)
        return not self.nodes[number].settled and not self._stops[number]

    def startable(self, kinds: Collection[str] = ("task",)) -> tuple[Node, ...]:
        """Everything of `kinds` that can start, in the builder's order."""
        free = (
            node
            for node, stops in zip(self.nodes, self._stops, strict=True)
            if not stops and not node.settled and node.kind in kinds
        )
        return tuple(sorted(free, key=lambda node: node.rank))

    def roots(self, key: str, *, hard: bool = True) -> tuple[Root, ...]:
        """Every root cause of `key`: to pay, then soonest first, mine before others' undated ones; none if settled.

        The thing itself is its only root when it can start. With `hard=False` wishes are followed as well.
        """
        number = self._at(key)
        if self.nodes[number].settled:
            return ()
        causes = self._found(hard=hard)
        bit = causes.reach.bit(number)
        return tuple(root for root, covers in causes.all if covers & bit)

    def every_root(self) -> tuple[Root, ...]:
        """Every root cause there is, soonest first: all that can be done or waited for now."""
        return tuple(root for root, _ in self._found(hard=True).all)

    def waiting(self) -> tuple[Root, ...]:
        """Every root that waits for somebody or something other than me, soonest first, undated ones last."""
        return tuple(root for root in self.every_root() if root.waits_for is not WaitsFor.ME)

    def frees(self, key: str) -> Frees:
        """What settling `key` today would do; nothing if it is settled."""
        number = self._at(key)
        if self.nodes[number].settled:
            return Frees((), (), 0)
        now: list[Node] = []
        later: list[Node] = []
        for waiter in self._held[number]:
            link = self._open[waiter][number].link
            if link.hard and link.lag_days > 0:
                later.append(self.nodes[waiter])
            elif link.hard and self._stops[waiter] == 1:
                now.append(self.nodes[waiter])
        reach = self._found(hard=True).reach
        return Frees(by_rank(now), by_rank(later), (reach.downstream(number) & ~reach.bit(number)).bit_count())

    def chain(self, key: str) -> tuple[str, ...]:
        """Keys of one shortest way from its first root down to `key`; only `key` if nothing stops it."""
        roots = self.roots(key)
        if not roots:
            return (key,)
        way = shortest_way(self._stopped_by, key, roots[0].node.key)
        return tuple(reversed(way or (key,)))

    def ways_down(self, keys: Iterable[str]) -> Mapping[str, str]:
        """From everything that stops any of `keys`, the next thing on a shortest way down to one of them."""
        todo = deque(dict.fromkeys(keys))
        following: dict[str, str] = {}
        seen = set(todo)
        while todo:
            key = todo.popleft()
            for needed in self._stopped_by(key):
                if needed not in seen:
                    seen.add(needed)
                    following[needed] = key
                    todo.append(needed)
        return following

    def _stopped_by(self, key: str) -> Iterator[str]:
        number = self._number[key]
        if not self.nodes[number].settled:
            for needs, open_ in self._open[number].items():
                if open_.link.hard:
                    yield self.nodes[needs].key

    def around(self, key: str, up: int = 2, down: int = 1) -> Neighbourhood:
        """What is open within `up` steps of needs and `down` steps of waiters, with all open links between them."""
        start = self._at(key)
        level = {start: 0}
        for step in range(1, up + 1):
            edge = [number for number, depth in level.items() if depth == 1 - step]
            for number in edge:
                if number == start or not self.nodes[number].settled:
                    level |= {needs: -step for needs in self._open[number] if needs not in level}
        for step in range(1, down + 1):
            edge = [number for number, depth in level.items() if depth == step - 1]
            for number in edge:
                level |= {waiter: step for waiter in self._held[number] if waiter not in level}
        links = tuple(
            open_.link
            for waiter in level
            if waiter == start or not self.nodes[waiter].settled
            for needs, open_ in self._open[waiter].items()
            if needs in level
        )
        levels = untangled({self.nodes[number].key: depth for number, depth in level.items()}, links)
        nodes = sorted((self.nodes[n] for n in level), key=lambda node: (levels[node.key], node.rank))
        return Neighbourhood(tuple(nodes), links, levels)

    def _found(self, *, hard: bool) -> _Causes:
        if hard not in self._causes:
            self._causes[hard] = self._find(hard=hard)
        return self._causes[hard]

    def _find(self, *, hard: bool) -> _Causes:
        """Work out every root cause at once; about as dear as building the network, so it is kept."""
        rows: list[list[int]] = [[] for _ in self.nodes]
        running: dict[tuple[int, date | None], list[int]] = {}
        for number, waiters in enumerate(self._held):
            settled = self.nodes[number].settled
            for waiter in waiters:
                link, until = self._open[waiter][number]
                if link.hard or not hard:
                    row = running.setdefault((number, until), []) if settled else rows[number]
                    row.append(waiter)
        reach = Reach(rows)
        found = [
            self._cause(number, WaitsFor.DRYING, until, waiters, reach.of(waiters))
            for (number, until), waiters in running.items()
        ]
        for number, node in enumerate(self.nodes):
            covers = reach.downstream(number) | reach.bit(number)
            if number in reach.circular:
                found.append(self._cause(number, WaitsFor.ANSWER, None, rows[number], covers))
            elif not (node.settled or (self._stops[number] if hard else self._open[number])):
                found.append(self._cause(number, node.waits_for, node.until, rows[number], covers))
        return _Causes(reach, sorted(found, key=lambda cause: soonest(cause.root)))

    def _cause(self, number: int, waits_for: WaitsFor, until: date | None, waiters: list[int], covers: int) -> _Cause:
        node = self.nodes[number]
        frees = tuple(
            self.nodes[waiter].key
            for waiter in waiters
            if self._stops[waiter] == 1 and self._open[waiter][number].link.hard
        )
        itself = not node.settled
        return _Cause(Root(node, waits_for, until, frees, covers.bit_count() - itself), covers)


def _stronger(one: _Open, other: _Open) -> _Open:
    """Two links between the same two things: hard beats wish, then the longer wait; both reasons are kept."""
    if one.link.hard != other.link.hard:
        return one if one.link.hard else other
    longer = max(one, other, key=lambda open_: open_.link.lag_days)
    reasons = dict.fromkeys(open_.link.reason for open_ in (one, other) if open_.link.reason)
    return longer._replace(link=replace(longer.link, reason="; ".join(reasons)))
