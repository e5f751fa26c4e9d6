"""The first permit to lapse: on which day, what would renew it, and by when that has to be asked for."""

from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.kinds import ClockKind
from webapp.inspections.rules.lapse import clock_of
from webapp.inspections.rules.renewing import last_words, way_of, way_words
from webapp.inspections.rules.results import still_owed
from webapp.readiness.store import Site
from webapp.values.dates import in_days, show_date
from webapp.values.own_words import own

NEAR = 60
"""days before a permit lapses from which the way to renew it is said as well"""


@dataclass(frozen=True, slots=True)
class Lapse:
    """The first permit to lapse, in words."""

    sentence: str
    near: str
    href: str
    day: date


def first_lapse(found: Site) -> Lapse | None:
    """By each permit's own rule as typed; None while no permit has a clock that runs."""
    record = found.record
    clocks = [(clock_of(one, record.inspections, record.results), one) for one in record.permits]
    running = [(clock.last_day, clock, permit) for clock, permit in clocks if clock and clock.last_day]
    if not running:
        return None
    last, clock, permit = min(running, key=lambda each: each[0])
    href = f"{found.build.base}/permits/{permit.code}"
    if last < found.today:
        sentence = f"By the rule you typed, {permit.name} stood until {show_date(last)}. Ask your authority what holds."
        return Lapse(sentence, "", href, last)
    first = f"The first {own('permit')} to lapse is {permit.name}"
    sentence = f"{first}: {show_date(last)}, unless a visit is approved before then."
    owed = [one for one in record.inspections if still_owed(one, record.standings[one.id])]
    way = way_of(permit, clock, owed, record.visits, record.offices, found.today)
    if way is not None and way.kind != ClockKind.IDLE:
        sentence = f"{first}: {show_date(last)}."
    parts = [f"That is {in_days(last, found.today)}.", way_words(way, found.today) if way else ""]
    visit, ask = last_words(way, found.today) if way else ("", "")
    if visit:
        parts.append(f"The last useful day is {visit}, asked for by {ask}.")
    near = " ".join(part for part in parts if part)
    return Lapse(sentence, near if (last - found.today).days <= NEAR else "", href, last)
