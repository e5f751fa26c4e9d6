"""What of the scenario's needs and shots goes into the record as it is."""

from collections.abc import Iterator

from webapp.demo.rules.content import Content
from webapp.demo.rules.plan_rows import Need
from webapp.demo.rules.record_rows import Shot
from webapp.plan.rules.graph import Link, upstream


def needs_kept(content: Content) -> Iterator[Need]:
    """Every need that can be typed.

    Goods are not on record yet. Pictures before insulation are asked for by every insulation task without being typed;
    typed, they would ask for the pictures after it as well.
    """
    for need in content.needs:
        if need.needs_kind == "goods" or (need.needs_kind == "pictures" and need.needs.endswith("-before")):
            continue
        yield need


def goes_before(shot: Shot, content: Content) -> str:
    """The task a shot has to be filmed before: the one that was said to need it, else its own; or empty.

    An owed shot that must be filmed *while* its task is done cannot be filmed before it, so it stands by itself.
    """
    waiting = [need for need in content.needs if need.needs_kind == "shot" and need.needs == shot.id]
    for need in waiting:
        if need.what_kind == "task":
            return need.what
    during = shot.state == "owed" and shot.strength == "must" and not waiting
    return "" if during else shot.task


def shot_surfaces(content: Content) -> dict[str, tuple[str, ...]]:
    """The surfaces a shot is owed of: not those that are closed before its work begins, such as the first light."""
    links = [Link(f"{need.what_kind}:{need.what}", f"{need.needs_kind}:{need.needs}") for need in content.needs]
    closers = {surface.id: f"task:{surface.closed_by_task}" for surface in content.surfaces}
    found = {}
    for shot in content.footage:
        earlier = upstream(f"task:{shot.task}", links)
        found[shot.id] = tuple(surface for surface in shot.surface if closers[surface] not in earlier)
    return found
