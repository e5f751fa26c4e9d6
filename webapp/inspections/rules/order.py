"""The order in which results were said: by visit day, then by when they were recorded.

A result put in the place of a mistyped one keeps the other's place in that order, so that putting an old mistake right
cannot overtake what was said later the same day.
"""

from collections.abc import Iterable
from datetime import date, datetime

from webapp.inspections.rules.facts import ResultFacts

Order = tuple[date, datetime, int]


def place_in_order(results: Iterable[ResultFacts]) -> dict[int, Order]:
    """Key of each result in time. A replacement stands where the first of its chain was recorded.

    Results that replace one another in a ring, which only a damaged record holds, are each followed once round.
    """
    known = {result.id: result for result in results}
    before = {result.replaced_by_id: result.id for result in known.values() if result.replaced_by_id in known}
    placed = {}
    for result in known.values():
        first, passed = result.id, {result.id}
        while (earlier := before.get(first)) is not None and earlier not in passed:
            first = earlier
            passed.add(first)
        placed[result.id] = (result.day, known[first].recorded_at, first)
    return placed
