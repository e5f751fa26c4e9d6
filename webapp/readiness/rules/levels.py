"""Levels for drawing a neighbourhood of the graph: each need lies below what waits for it."""

from webapp.plan.rules.graph import Link, Loop, in_order


def untangled(level: dict[str, int], links: tuple[Link, ...]) -> dict[str, int]:
    """Push levels apart until each need lies below its waiter; a circle, which has no such levels, stays as it is."""
    try:
        order = in_order(level, links)
    except Loop:
        return level
    needs: dict[str, list[str]] = {}
    waiters: dict[str, list[str]] = {}
    for link in links:
        needs.setdefault(link.waiter, []).append(link.needs)
        waiters.setdefault(link.needs, []).append(link.waiter)
    apart = dict(level)
    for key in order:
        if level[key] > 0:
            apart[key] = max([apart[key], *(apart[need] + 1 for need in needs.get(key, ()))])
    for key in reversed(order):
        if level[key] < 0:
            apart[key] = min([apart[key], *(apart[waiter] - 1 for waiter in waiters.get(key, ()))])
    return apart
