"""Whether the builder's own order hides something before it is seen.

A hold point is an inspection of one surface that has not passed. Work that closes the surface, or insulates it, hides
it. The order breaks the hold point when such work stands before something the inspection itself waits for: at the turn
of that work nobody can have come yet. Everything is read from the hard needs of the one graph, so that what was typed
and what follows from the record count alike.
"""

from collections.abc import Collection, Iterable, Mapping, Sequence
from dataclasses import dataclass, replace

from webapp.plan.rules.graph import Link, downstream_of_each


@dataclass(frozen=True, slots=True)
class Hold:
    """One hold point: its key in the graph, its inspection, and its surface; None where the whole building is meant."""

    key: str
    inspection_id: int
    surface_id: int | None


@dataclass(frozen=True, slots=True)
class Broken:
    """`what` (task or inspection) stands before what the inspection waits for. `because` is the key of that.

    A surface of 0: nothing would be hidden, one inspection only stands before another that it needs.
    """

    what: str
    inspection_id: int
    surface_id: int
    because: str = ""

    @property
    def same(self) -> "Broken":
        """As it is told from others: whatever it is because of."""
        return replace(self, because="")


def broken_by_tasks(
    order: Sequence[str], links: Iterable[Link], holds: Iterable[Hold], hides: Mapping[str, Collection[int]]
) -> tuple[Broken, ...]:
    """Work that would hide a hold point too early. `order`: open tasks as the builder has them; `hides`: surfaces."""
    links = [link for link in links if link.hard]
    holds = tuple(holds)
    place = {key: at for at, key in enumerate(order)}
    after = downstream_of_each((hold.key for hold in holds), links)
    before = downstream_of_each((hold.key for hold in holds), _turned(links))
    found = []
    for hold in holds:
        needed = {key for key in before[hold.key] if key in place}
        for task in sorted((key for key in after[hold.key] if key in place and key in hides), key=place.__getitem__):
            late = [key for key in needed if place[key] > place[task]]
            hidden = [one for one in hides[task] if hold.surface_id in {one, None}]
            if late and task not in needed:
                because = max(late, key=place.__getitem__)
                found += [Broken(task, hold.inspection_id, surface, because) for surface in sorted(hidden)]
    return tuple(found)


def broken_by_visits(
    order: Sequence[int], links: Iterable[Link], holds: Iterable[Hold], hides: Mapping[str, Collection[int]]
) -> tuple[Broken, ...]:
    """Inspections that stand before one they come after. `order`: ids of the inspections as the builder has them;
    `holds`: every inspection not passed, also those that hold no closing.
    """
    links = [link for link in links if link.hard]
    holds = tuple(holds)
    place = {number: at for at, number in enumerate(order)}
    after = downstream_of_each((hold.key for hold in holds), links)
    before = downstream_of_each((hold.key for hold in holds), _turned(links))
    found: dict[Broken, Broken] = {}
    for first in holds:
        for then in holds:
            if then.key not in after[first.key] or place[first.inspection_id] <= place[then.inspection_id]:
                continue
            between = [key for key in hides if key in after[first.key] and key in before[then.key]]
            for one in _between(first, then, between, hides):
                found.setdefault(one.same, one)
    return tuple(found.values())


def _between(first: Hold, then: Hold, tasks: Iterable[str], hides: Mapping[str, Collection[int]]) -> list[Broken]:
    """The work that hides the one before the other can come; without any, only that one needs the other."""
    what = f"inspection:{then.inspection_id}"
    hidden = [
        Broken(what, first.inspection_id, surface, task)
        for task in tasks
        for surface in sorted(hides[task])
        if first.surface_id in {surface, None}
    ]
    return hidden or [Broken(what, first.inspection_id, 0)]


def _turned(links: Iterable[Link]) -> list[Link]:
    """Every link the other way round, so that going downstream finds what is needed."""
    return [Link(link.needs, link.waiter) for link in links]


def newly(after: Iterable[Broken], before: Iterable[Broken]) -> tuple[Broken, ...]:
    """What an order breaks that the one before it did not."""
    known = {one.same for one in before}
    return tuple(one for one in after if one.same not in known)
