"""The order in which roots and freed things are told."""

from collections.abc import Iterable, Sequence
from datetime import date

from webapp.readiness.rules.nodes import Node, Root, WaitsFor


def soonest(root: Root) -> tuple[date, int, int]:
    """Money first of all: what is due can be paid today, and what nobody may be asked for until then lies behind it."""
    if root.waits_for is WaitsFor.MONEY:
        return date.min, -1, root.node.rank
    undated = date.min if root.waits_for is WaitsFor.ME else date.max
    return root.until or undated, 0, root.node.rank


def surface_by_surface(roots: Iterable[Root], surface_ids: Sequence[int]) -> tuple[Root, ...]:
    """Fees first, then what has a day, soonest first; then mine and then others' undated ones, with all that belongs
    to one surface together, in the order of `surface_ids`; what belongs to none of them comes last."""
    place = {surface_id: at for at, surface_id in enumerate(surface_ids)}

    def told(root: Root) -> tuple[int, date, bool, int, int]:
        at = min((place[one] for one in root.node.surface_ids if one in place), default=len(place))
        if root.waits_for is WaitsFor.MONEY:
            return 0, root.until or date.max, False, at, root.node.rank
        if root.until is not None:
            return 1, root.until, False, at, root.node.rank
        return 2, date.max, root.waits_for is not WaitsFor.ME, at, root.node.rank

    return tuple(sorted(roots, key=told))


def by_rank(nodes: Iterable[Node]) -> tuple[Node, ...]:
    return tuple(sorted(nodes, key=lambda node: node.rank))
