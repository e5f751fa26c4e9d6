"""What is still waited for from hired trades: a word alone finishes nothing, the card or the report does."""

from collections.abc import Iterator
from datetime import date

from webapp.hired.rules.kinds import PartKind
from webapp.hired.store import HiredFacts
from webapp.plan.rules.graph import Link
from webapp.plan.rules.kinds import NeedKind, Strength
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Node, WaitsFor
from webapp.readiness.store.record import Record
from webapp.values.dates import show_day


def hired_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    """A node for each thing that stops while it is not here."""
    for one in record.hired:
        for wait in one.waits:
            if wait.stops:
                asked = f"asked for {show_day(wait.asked_on, today)}" if wait.asked_on else "not asked for yet"
                yield Node(
                    key=keys.waited(wait.id),
                    kind="waited",
                    title=f"{wait.words}, from the {one.trade}",
                    settled=not wait.open,
                    settled_on=wait.came_on or wait.dropped_on,
                    waits_for=WaitsFor.HIRED,
                    detail=f"Waiting for the {wait.kind}, {asked}.",
                    href=f"{base}/hired/{one.code}/waits/{wait.id}",
                    surface_ids=_surfaces(record, one),
                    rank=wait.id,
                    ready_says="" if wait.asked_on else f"Ask the {one.trade}: {wait.words}",
                )


def hired_links(record: Record) -> Iterator[Link]:
    """What follows a part of a hired trade waits for its card, and so does the closing over it."""
    for one in record.hired:
        stopping = [keys.waited(wait.id) for wait in one.waits if wait.stops]
        reason = f"from the {one.trade}"
        for waiter in _waiters(record, one) if stopping else ():
            for needed in stopping:
                yield Link(waiter, needed, reason=reason)


def _waiters(record: Record, one: HiredFacts) -> set[str]:
    tasks = set(one.of(PartKind.TASK))
    after = {
        f"{need.what_kind}:{need.what_id}"
        for need in record.needs
        if need.needs_kind == NeedKind.TASK
        and need.needs_id in tasks
        and need.strength == Strength.HARD
        and (need.what_kind, need.what_id) not in one.parts
    }
    return after | {keys.cover(surface_id) for surface_id in _surfaces(record, one)}


def _surfaces(record: Record, one: HiredFacts) -> tuple[int, ...]:
    """The surfaces it works on: named, or by what is hidden in them. Those of its tasks wait through the tasks."""
    named = set(one.of(PartKind.SURFACE))
    items, lines = set(one.of(PartKind.ITEM)), set(one.of(PartKind.LINE))
    named |= {at for item_id, line_id, at in record.hidden if item_id in items or line_id in lines}
    return tuple(sorted(named & record.surface.keys()))
