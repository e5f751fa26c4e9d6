"""Everything that takes time is a node: work of the builder's own, and waits (curing, drying, notice, lead time, work
of others). Numbered so that each comes after what it needs.
"""

from collections.abc import Iterable, Mapping
from dataclasses import dataclass, field

from webapp.plan.rules.graph import Link, Loop, any_loop


@dataclass(frozen=True, slots=True)
class Node:
    """`length` is in working units for work and in wall slots for a wait; neither begins before `not_before`."""

    key: str
    length: int
    wait: bool = False
    not_before: int = 0


@dataclass(frozen=True, slots=True)
class Network:
    """Nodes in an order in which each comes after what it needs; needs and followers by their places in it."""

    nodes: tuple[Node, ...]
    needs: tuple[tuple[int, ...], ...]
    followers: tuple[tuple[int, ...], ...]
    place: Mapping[str, int] = field(compare=False)


def network_of(nodes: Iterable[Node], links: Iterable[Link]) -> Network:
    """Only hard links count. Nodes keep the order they came in as far as their needs allow.

    Raises Loop when things need each other in a circle, KeyError for a link to what is not there.
    """
    given = {node.key: node for node in nodes}
    hard = [link for link in dict.fromkeys(links) if link.hard]
    if circle := any_loop(hard):
        raise Loop(circle)
    needs_of: dict[str, list[str]] = {key: [] for key in given}
    for link in hard:
        needs_of[link.waiter].append(given[link.needs].key)
    order = _ordered(needs_of)
    place = {key: number for number, key in enumerate(order)}
    needs = tuple(tuple(sorted({place[need] for need in needs_of[key]})) for key in order)
    followers: list[list[int]] = [[] for _ in order]
    for number, own in enumerate(needs):
        for need in own:
            followers[need].append(number)
    return Network(tuple(given[key] for key in order), needs, tuple(map(tuple, followers)), place)


def _ordered(needs_of: Mapping[str, list[str]]) -> list[str]:
    """Depth first without recursion: a long chain must not hit the interpreter's limit."""
    order: dict[str, None] = {}
    for first in needs_of:
        stack = [first]
        while stack:
            key = stack[-1]
            left = [need for need in needs_of[key] if need not in order]
            if key in order or not left:
                order.setdefault(key)
                stack.pop()
            else:
                stack.extend(reversed(left))
    return list(order)
