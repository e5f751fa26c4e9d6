"""The order in which roots and freed things are told."""

from collections.abc import Iterable
from datetime import date

from webapp.readiness.rules.nodes import Node, Root, WaitsFor


def soonest(root: Root) -> tuple[date, int, int]:
    """Money first of all: what is due can be paid today, and what nobody may be asked for until then lies behind it."""
    if root.waits_for is WaitsFor.MONEY:
        return date.min, -1, root.node.rank
    undated = date.min if root.waits_for is WaitsFor.ME else date.max
    return root.until or undated, 0, root.node.rank


def by_rank(nodes: Iterable[Node]) -> tuple[Node, ...]:
    return tuple(sorted(nodes, key=lambda node: node.rank))
