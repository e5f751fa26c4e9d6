"""When a permit lapses: the earliest day of its rules, unless an extension in writing stands for longer.

Three kinds of rule, each typed from the permit or its handout and each with its own day:
- not started: so long after issue, unless work under it has begun by then;
- no approved visit: so long after the last current pass or part pass of an inspection that renews the permit, or after
  issue while there is none;
- fixed life: so long after issue, whatever happens.
A visit that failed, was withdrawn, or where nothing was looked at renews nothing; nor does a pass that was only passed
on, a day logged or an episode told. Usual number of the model code: 180 days for the first two, R105.5; the local
authority decides.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.clocks import ExtensionFacts, RuleFacts
from webapp.inspections.rules.facts import InspectionFacts, PermitFacts, ResultFacts
from webapp.inspections.rules.kinds import ClockKind, ResultKind, ResultState
from webapp.inspections.rules.results import EFFECTS

ORDER = tuple(ClockKind)


@dataclass(frozen=True, slots=True)
class RuleDay:
    """One rule and where it stands: from which day it runs, what that day was, and its last day.

    `last_day` is None while the number is not known; `met` once it cannot run out any more: work has begun.
    """

    rule: RuleFacts
    from_day: date
    counts: str
    result_id: int | None
    last_day: date | None
    met: bool = False


@dataclass(frozen=True, slots=True)
class Clock:
    """How a permit's time runs. `counts` says what the last counting day was: "issued", or an inspection's name."""

    counting_day: date
    counts: str
    result_id: int | None
    rules: tuple[RuleDay, ...]
    deciding: RuleDay | None
    """the rule that runs out first; None while none has a day"""
    extension: ExtensionFacts | None
    """the one that gives a later day than the rules do"""
    last_day: date | None
    """the last day it still stands; None when no number is known or the permit is closed"""


def _approved(results: Iterable[ResultFacts], kinds: Iterable[int]) -> list[ResultFacts]:
    of_these = frozenset(kinds)
    found = [
        result
        for result in results
        if result.inspection_id in of_these
        and result.state == ResultState.CURRENT
        and EFFECTS[ResultKind(result.kind)].renews
        and not result.on_word
    ]
    return sorted(found, key=lambda result: (result.day, result.id))


def renewing_results(
    permit: PermitFacts, inspections: Iterable[InspectionFacts], results: Iterable[ResultFacts]
) -> list[ResultFacts]:
    """The results that moved this permit's clock, oldest first."""
    kinds = (each.id for each in inspections if each.permit_id == permit.id and each.renews_permit)
    return _approved(results, kinds)


def begun(
    permit: PermitFacts, inspections: Iterable[InspectionFacts], results: Iterable[ResultFacts], limit: date | None
) -> bool:
    """Whether work has begun for the rule that ends on `limit`.

    An approved visit under the permit says so whenever it was: the authority came and saw it. The builder's own word
    counts up to the limit, since what begins later finds the permit invalid.
    """
    if _approved(results, (each.id for each in inspections if each.permit_id == permit.id)):
        return True
    return permit.started_on is not None and (limit is None or permit.started_on <= limit)


def clock_of(
    permit: PermitFacts, inspections: Iterable[InspectionFacts], results: Iterable[ResultFacts]
) -> Clock | None:
    """The permit's own clock; None while it was not issued."""
    if permit.issued_on is None:
        return None
    known, said = list(inspections), list(results)
    day, counts, result_id = permit.issued_on, "issued", None
    renewed = renewing_results(permit, known, said)
    if renewed and renewed[-1].day > day:
        last = renewed[-1]
        names = {each.id: each.name for each in known}
        day, counts, result_id = last.day, f"{names[last.inspection_id]}, {last.kind}", last.id
    ruled = []
    for rule in sorted(permit.rules, key=lambda one: ORDER.index(ClockKind(one.kind))):
        if rule.kind == ClockKind.IDLE:
            ruled.append(RuleDay(rule, day, counts, result_id, rule.last_day(day)))
        else:
            limit = rule.last_day(permit.issued_on)
            met = rule.kind == ClockKind.START and begun(permit, known, said, limit)
            ruled.append(RuleDay(rule, permit.issued_on, "issued", None, limit, met))
    deciding, extension, last_day = _last_day(tuple(ruled), permit)
    if permit.closed_on is not None:
        last_day = None
    return Clock(day, counts, result_id, tuple(ruled), deciding, extension, last_day)


def _last_day(
    ruled: tuple[RuleDay, ...], permit: PermitFacts
) -> tuple[RuleDay | None, ExtensionFacts | None, date | None]:
    """The rule that ends first, the extension that outlasts it, and the day that holds."""
    running = [each for each in ruled if each.last_day is not None and not each.met]
    deciding = min(running, key=lambda each: each.last_day or date.max, default=None)
    day = deciding.last_day if deciding else None
    given = [each for each in permit.extensions if each.counts]
    longest = max(given, key=lambda each: each.until_day or date.min, default=None)
    if longest is None or day is None or longest.until_day is None or longest.until_day <= day:
        return deciding, None, day
    return deciding, longest, longest.until_day
