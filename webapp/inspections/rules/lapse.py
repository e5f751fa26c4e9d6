"""When a permit lapses: the last day that counts, and so many calendar days on.

What counts is the day of issue and each current pass or part pass of an inspection that renews the permit it stands
under. A visit that failed, was withdrawn, where nothing was looked at, or whose pass was only passed on without a paper
renews nothing. Usual number in the model code: 180 days, R105.5; the number and the rule are typed from the permit, the
local authority decides.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.facts import InspectionFacts, PermitFacts, ResultFacts
from webapp.inspections.rules.kinds import ResultKind, ResultState
from webapp.inspections.rules.results import EFFECTS
from webapp.values.dates import lapse_day


@dataclass(frozen=True, slots=True)
class Clock:
    """How a permit's time runs. `counts` says what the last counting day was: "issued", or an inspection's name."""

    counting_day: date
    counts: str
    result_id: int | None
    last_day: date | None
    """the last day it still stands; None when no number of days was typed or the permit is closed"""


def renewing_results(
    permit: PermitFacts, inspections: Iterable[InspectionFacts], results: Iterable[ResultFacts]
) -> list[ResultFacts]:
    """The results that moved this permit's clock, oldest first."""
    renewing = {each.id for each in inspections if each.permit_id == permit.id and each.renews_permit}
    found = [
        result
        for result in results
        if result.inspection_id in renewing
        and result.state == ResultState.CURRENT
        and EFFECTS[ResultKind(result.kind)].renews
        and not result.on_word
    ]
    return sorted(found, key=lambda result: (result.day, result.id))


def clock_of(
    permit: PermitFacts, inspections: Iterable[InspectionFacts], results: Iterable[ResultFacts]
) -> Clock | None:
    """The permit's own clock; None while it was not issued."""
    if permit.issued_on is None:
        return None
    known = list(inspections)
    renewed = renewing_results(permit, known, results)
    day, counts, result_id = permit.issued_on, "issued", None
    if renewed and renewed[-1].day > day:
        last = renewed[-1]
        names = {each.id: each.name for each in known}
        day, counts, result_id = last.day, f"{names[last.inspection_id]}, {last.kind}", last.id
    runs = permit.lapse_days is not None and permit.closed_on is None
    return Clock(day, counts, result_id, lapse_day(day, permit.lapse_days or 0) if runs else None)
