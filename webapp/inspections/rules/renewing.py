"""What would still renew a permit: which visit, on which day at the latest, asked for by when; or that none can.

The moment to ask is a day and an hour; on the day itself it is still said to be open, since what is left of it is the
builder's to see.
"""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.booking import Offices, Terms
from webapp.inspections.rules.facts import InspectionFacts, PermitFacts, VisitFacts
from webapp.inspections.rules.kinds import ClockKind, Outcome
from webapp.inspections.rules.lapse import Clock
from webapp.values.dates import show_day, show_long_day
from webapp.values.own_words import own

AHEAD = frozenset({Outcome.PLANNED, Outcome.ASKED})
EXTENSION = "What is left is an extension in writing."


@dataclass(frozen=True, slots=True)
class Chance:
    """One visit that would renew the permit. `last`: the last useful day; `ask_by` the last day to ask for it.

    `booked` is a visit to come that falls within the time. `open`: it can still be had.
    """

    inspection: InspectionFacts
    terms: Terms
    last: date | None
    ask_by: date | None
    booked: VisitFacts | None
    open: bool

    @property
    def is_asked(self) -> bool:
        return self.booked is not None and self.booked.outcome == Outcome.ASKED


@dataclass(frozen=True, slots=True)
class Way:
    """How the permit's time can still be made longer: by a visit, by beginning work, or only by an extension."""

    kind: ClockKind
    lapses: date
    chance: Chance | None

    @property
    def only_extension(self) -> bool:
        if self.kind == ClockKind.START:
            return False
        return self.kind == ClockKind.FIXED or self.chance is None or not self.chance.open


def way_of(
    permit: PermitFacts,
    clock: Clock | None,
    owed: Iterable[InspectionFacts],
    visits: Iterable[VisitFacts],
    offices: Offices,
    today: date,
) -> Way | None:
    """`owed`: inspections that have not passed everywhere they look, in the builder's order.

    None while no clock runs out, or when it did already.
    """
    if clock is None or clock.deciding is None or clock.last_day is None or clock.last_day < today:
        return None
    kind = ClockKind(clock.deciding.rule.kind)
    if kind != ClockKind.IDLE:
        return Way(kind, clock.last_day, None)
    known = list(visits)
    chances = [
        _chance(each, clock.last_day, known, offices, today)
        for each in owed
        if each.permit_id == permit.id and each.renews_permit
    ]
    best = min(chances, key=_first, default=None)
    return Way(kind, clock.last_day, best)


def _first(chance: Chance) -> tuple[bool, bool, bool]:
    """What can be had comes first, of that what is asked for, then what is planned, then the builder's order."""
    return not chance.open, not chance.is_asked, chance.booked is None


def _chance(
    inspection: InspectionFacts, lapses: date, visits: list[VisitFacts], offices: Offices, today: date
) -> Chance:
    terms = offices.terms(inspection.office_id, inspection.notice_days, inspection.ask_by)
    last = terms.last_useful_visit(lapses)
    by = terms.ask_by(last) if last else None
    booked = _booked(inspection, lapses, visits, terms, today)
    still = last is not None and by is not None and last >= today and by >= today
    return Chance(inspection, terms, last, by, booked, open=booked is not None or still)


def _booked(
    inspection: InspectionFacts, lapses: date, visits: list[VisitFacts], terms: Terms, today: date
) -> VisitFacts | None:
    """The first visit to come that can be had in time; one that is only planned has to be asked for yet."""
    for visit in visits:
        if visit.inspection_id != inspection.id or visit.outcome not in AHEAD or visit.day is None:
            continue
        if today <= visit.day <= lapses and (visit.outcome == Outcome.ASKED or terms.ask_by(visit.day) >= today):
            return visit
    return None


def way_words(way: Way, today: date) -> str:
    """What would renew it, in whole sentences; the last useful day and its hour stand in `last_words`."""
    if way.kind == ClockKind.START:
        return "Work under it has to begin by then. Write down the day it does; a passed visit says so too."
    if way.kind == ClockKind.FIXED:
        return f"Its whole life ends then, and no visit moves that day. {EXTENSION}"
    chance = way.chance
    if chance is None:
        return f"No {own('inspection')} on your list that is still owed would renew it. {EXTENSION}"
    name = chance.inspection.name
    if chance.last is None:
        return f"{name} would renew it, but its office comes on no day before then. {EXTENSION}"
    if not chance.open:
        too_late = f"{name} had to be asked for by {ask_words(chance)}"
        return f"No visit can be had any more before it lapses: {too_late}. {EXTENSION}"
    if chance.booked is None or chance.booked.day is None:
        now = " That is today." if chance.ask_by == today else ""
        return f"{name} would renew it, if it passes.{now}"
    day = show_long_day(chance.booked.day)
    if chance.is_asked:
        return f"{name} would renew it, if it passes. Asked for: {day}."
    by = f"{show_long_day(chance.terms.ask_by(chance.booked.day))} {chance.terms.ask_hour}"
    return f"{name} would renew it, if it passes. Planned for {day}: ask by {by}."


def ask_words(chance: Chance) -> str:
    """`Wednesday 8 July 2026 15:30`, the last moment to ask for the last useful day."""
    return f"{show_long_day(chance.ask_by)} {chance.terms.ask_hour}" if chance.ask_by else ""


def last_words(way: Way, today: date) -> tuple[str, str]:
    """`Fri 10 Jul`, `Wed 8 Jul 15:30`: the last useful day, and until when it can be asked for; empty when none is."""
    chance = way.chance
    if chance is None or chance.last is None or chance.ask_by is None or not chance.open:
        return "", ""
    return show_day(chance.last, today), f"{show_day(chance.ask_by, today)} {chance.terms.ask_hour}"
