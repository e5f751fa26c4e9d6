"""Which phase is held up next, and by what: the same for the page of what stops it and for what viewers are told."""

from collections.abc import Collection, Iterable

from webapp.readiness.rules import keys
from webapp.readiness.rules.nodes import Root, WaitsFor
from webapp.readiness.rules.sorting import surface_by_surface
from webapp.readiness.store.site import Site, nearest_first


def first_held_phase(found: Site) -> int | None:
    """The phase whose held task closes the surface nearest to closing; else the first phase in order with a task that
    cannot start; else the first with anything left; else None."""
    network = found.network
    for surface in nearest_first(found):
        closers = (network.node(keys.task(task)) for task in found.record.closers.get(surface.id, ()))
        held_phase = next((one.phase_id for one in closers if not (one.settled or network.can_start(one.key))), None)
        if held_phase is not None:
            return held_phase
    left = [node for node in network.nodes if node.kind == "task" and not node.settled]
    held = {node.phase_id for node in left if not network.can_start(node.key)}
    rest = {node.phase_id for node in left}
    for wanted in (held, rest):
        for phase in found.record.phases:
            if phase.id in wanted:
                return phase.id
    return None


def left_of_phase(found: Site, phase_id: int) -> tuple[str, ...]:
    """Keys of the phase's tasks that are not done."""
    return tuple(
        node.key
        for node in found.network.nodes
        if node.kind == "task" and node.phase_id == phase_id and not node.settled
    )


def roots_from_outside(found: Site, blocked: Iterable[str], own: Collection[str]) -> tuple[Root, ...]:
    """What stops the blocked things, surface by surface; work among `own` that can start is no stop of it."""
    roots = found.network.roots_of_all(blocked)
    outside = [root for root in roots if not (root.node.key in own and root.waits_for is not WaitsFor.ANSWER)]
    return surface_by_surface(outside, [surface.id for surface in nearest_first(found)])
