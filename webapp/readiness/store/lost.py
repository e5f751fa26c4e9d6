"""Typed needs whose other end is gone: a surface that left its inspection, pictures that nobody lists any more."""

from collections.abc import Collection, Iterator

from webapp.plan.rules.ends import NAMELESS
from webapp.plan.rules.kinds import NeedKind
from webapp.plan.store import NeedFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Node, WaitsFor
from webapp.readiness.store.links import named
from webapp.readiness.store.record import Record


def lost_nodes(record: Record, base: str, known: Collection[str]) -> Iterator[Node]:
    """A question for each, open until the builder takes the need out or names another; `known` are all other keys."""
    for need in record.needs:
        if need.needs_kind == NeedKind.TASK:  # tasks are never taken out
            continue
        if not any(key in known for key in named(need.needs_kind, need.needs_id, need.needs_surface_id, record)):
            yield Node(
                key=keys.need(need.id),
                kind="question",
                title=f"This need points nowhere any more: {_asked_for(need, record)}",
                waits_for=WaitsFor.ANSWER,
                detail="Take it out, or say what it waits for instead.",
                href=f"{base}{waits_path(need, record)}",
                surface_ids=(need.needs_surface_id,) if need.needs_surface_id in record.surface else (),
            )


def _asked_for(need: NeedFacts, record: Record) -> str:
    name = NAMELESS[need.needs_kind]
    if need.needs_kind == NeedKind.INSPECTION:
        name = next((one.name for one in record.inspections if one.id == need.needs_id), name)
    place = need.needs_id if need.needs_kind == NeedKind.PICTURES else need.needs_surface_id
    return f"{name}, {record.surface[place].code}" if place in record.surface else name


def waits_path(need: NeedFacts, record: Record) -> str:
    """The page below the build where what this waiter waits for is taken out."""
    if need.what_kind == NeedKind.TASK:
        return f"/tasks/{need.what_id}/waits"
    code = next((one.code for one in record.inspections if one.id == need.what_id), "")
    return f"/inspections/{code}/waits" if need.what_kind == NeedKind.INSPECTION and code else "/what-stops"
