"""One permit in words: how its time runs, by which rule, and what would renew it."""

from dataclasses import dataclass
from datetime import date

from webapp.inspections.pages.book import Book
from webapp.inspections.rules.clocks import ExtensionFacts
from webapp.inspections.rules.facts import FeeFacts, PermitFacts
from webapp.inspections.rules.kinds import ClockKind
from webapp.inspections.rules.lapse import Clock, RuleDay, clock_of
from webapp.inspections.rules.renewing import Way, last_words, way_of, way_words
from webapp.inspections.rules.timeline import Timeline, timeline
from webapp.values.dates import in_days, show_date, show_long_day
from webapp.values.own_words import own

RULES = {
    ClockKind.START: "If work has not begun",
    ClockKind.IDLE: "After the last approved visit",
    ClockKind.FIXED: "Whole life",
}


@dataclass(frozen=True, slots=True)
class FeeLine:
    id: int
    amount_cents: int
    words: str
    href: str


@dataclass(frozen=True, slots=True)
class RuleLine:
    """One rule: what it is, its own last day, and where it is from. `decides`: it is the one that runs out first."""

    label: str
    day: str
    words: str
    source: str
    decides: bool = False


@dataclass(frozen=True, slots=True)
class ExtensionLine:
    id: int
    words: str
    detail: str
    href: str


@dataclass(frozen=True, slots=True)
class PermitLine:
    """One permit and how its time runs, in words. `lapse` is empty while no clock runs.

    `only_extension`: no visit can be had in time any more; `soon`: so near that the way to renew it comes first.
    """

    code: str
    name: str
    covers: str
    number: str
    made_by: str
    issued: str
    began: str
    counting: str
    counting_href: str
    lapse: str
    lapse_near: str
    decided: str
    line: Timeline | None
    way: str
    last_visit: str
    last_ask: str
    only_extension: bool
    soon: bool
    more_time: str
    facts: str
    rules: tuple[RuleLine, ...]
    extensions: tuple[ExtensionLine, ...]
    fees: tuple[FeeLine, ...]
    href: str


NEAR = 60
"""days before a permit lapses from which the way to renew it comes first"""


def fee_lines(base: str, fees: tuple[FeeFacts, ...]) -> tuple[FeeLine, ...]:
    return tuple(FeeLine(fee.id, fee.amount_cents, fee_words(fee), f"{base}/fees/{fee.id}") for fee in fees)


def fee_words(fee: FeeFacts) -> str:
    """Whether it is paid, what it was for, and what it stops."""
    why = f"{fee.why[:1].upper()}{fee.why[1:]}. " if fee.why else ""
    if fee.paid_on:
        return f"{why}Paid on {show_date(fee.paid_on)}."
    due = f" Due on {show_date(fee.due_on)}." if fee.due_on else ""
    stops = f" No visit under this {own('permit')} is taken until it is." if fee.stops_visits else ""
    return f"{why}Not paid yet.{due}{stops}"


def way_in(book: Book, permit: PermitFacts, clock: Clock | None) -> Way | None:
    """What would renew the permit, by the inspections still owed."""
    owed = [each for each in book.inspections if any(not found.passed for found in book.standings(each).values())]
    return way_of(permit, clock, owed, book.visits, book.offices, book.today)


def permit_line(book: Book, permit: PermitFacts) -> PermitLine:
    clock = clock_of(permit, book.inspections, book.results)
    way = way_in(book, permit, clock)
    last_visit, last_ask = last_words(way, book.today) if way else ("", "")
    last = clock.last_day if clock else None
    ask_by = way.chance.ask_by if way and way.chance else None
    from_day = (clock.deciding.from_day if clock.deciding else clock.counting_day) if clock else None
    return PermitLine(
        code=permit.code,
        name=permit.name,
        covers=permit.covers,
        number=permit.number,
        made_by=", ".join(part for part in (permit.code_family, permit.code_edition) if part),
        issued=_issued(permit),
        began=_began(permit),
        counting=f"{clock.counts[:1].upper()}{clock.counts[1:]}, {show_long_day(clock.counting_day)}" if clock else "",
        counting_href=f"{book.base}/results/{clock.result_id}" if clock and clock.result_id else "",
        lapse=_lapse(permit, clock),
        lapse_near=_near(last, book.today),
        decided=_decided(clock),
        line=timeline(from_day, book.today, last, ask_by) if from_day and last else None,
        way=way_words(way, book.today) if way else "",
        last_visit=last_visit,
        last_ask=last_ask,
        only_extension=way is not None and way.only_extension,
        soon=last is not None and 0 <= (last - book.today).days <= NEAR,
        more_time="" if clock is None or permit.closed_on else f"{book.base}/permits/{permit.code}/extensions/new",
        facts=f"{book.base}/permits/{permit.code}/facts",
        rules=_rule_lines(permit, clock),
        extensions=tuple(extension_line(book.base, each) for each in permit.extensions),
        fees=fee_lines(book.base, tuple(fee for fee in book.fees if fee.permit_id == permit.id)),
        href=f"{book.base}/permits/{permit.code}",
    )


def _issued(permit: PermitFacts) -> str:
    if permit.closed_on:
        return f"Closed on {show_date(permit.closed_on)}."
    if permit.issued_on:
        return f"Issued on {show_date(permit.issued_on)}."
    return f"Asked for on {show_date(permit.asked_on)}, not issued yet." if permit.asked_on else "Not asked for yet."


def _began(permit: PermitFacts) -> str:
    if permit.started_on is None:
        return ""
    how = f": {permit.started_how}" if permit.started_how else ""
    return f"{show_long_day(permit.started_on)}{how}"


def _lapse(permit: PermitFacts, clock: Clock | None) -> str:
    if permit.closed_on:
        return "Closed: no clock runs."
    if clock is None:
        return "Its clock starts when it is issued."
    if clock.last_day is None:
        if any(each.met for each in clock.rules) and all(each.met or not each.last_day for each in clock.rules):
            return "Work has begun, and no other rule is written down."
        return f"No number of days is written down yet. It stands on the {own('permit')} or its handout."
    return show_long_day(clock.last_day)


def lapse_words(permit: PermitFacts, clock: Clock | None, today: date) -> str:
    """How its time runs in one line, for a list of permits elsewhere."""
    if clock is None or clock.last_day is None:
        return f"{_issued(permit)} {_lapse(permit, clock)}" if not permit.closed_on else _issued(permit)
    return f"Lapses after {show_long_day(clock.last_day)}. {_near(clock.last_day, today)}"


def _near(last: date | None, today: date) -> str:
    if last is None:
        return ""
    if last < today:
        return f"That was {in_days(last, today)}. Ask your authority how it stands."
    return f"That is {in_days(last, today)}."


def _decided(clock: Clock | None) -> str:
    """Which rule or letter gives the day."""
    if clock is None or clock.last_day is None or clock.deciding is None:
        return ""
    rule = clock.deciding.rule
    if clock.extension is not None:
        by = f"By its rules it would be {show_date(clock.deciding.last_day)}." if clock.deciding.last_day else ""
        return f"By the extension in writing. {by}".strip()
    since = clock.deciding.counts if clock.deciding.counts == "issued" else "the last approved visit"
    after = "issue" if since == "issued" else since
    return f"{rule.length} after {after}."


def _rule_lines(permit: PermitFacts, clock: Clock | None) -> tuple[RuleLine, ...]:
    """Every rule as typed, those of a permit that is not issued without a day."""
    if clock is None:
        waiting = (
            RuleLine(RULES[ClockKind(one.kind)], one.length, _sentence(one.words), one.source) for one in permit.rules
        )
        return tuple(waiting)
    decides = clock.deciding.rule.id if clock.deciding and not clock.extension and clock.last_day else 0
    return tuple(
        RuleLine(
            RULES[ClockKind(each.rule.kind)],
            _rule_day(each, permit),
            _sentence(each.rule.words),
            each.rule.source,
            each.rule.id == decides,
        )
        for each in clock.rules
    )


def _sentence(words: str) -> str:
    plain = words.strip().rstrip(".")
    return f"{plain[:1].upper()}{plain[1:]}." if plain else ""


def _rule_day(each: RuleDay, permit: PermitFacts) -> str:
    if each.last_day is None:
        return "number not known yet"
    if each.met:
        began = f" on {show_date(permit.started_on)}" if permit.started_on else ""
        return f"{each.rule.length}: work began{began}, so it runs no more"
    return f"{each.rule.length}: {show_long_day(each.last_day)}"


def extension_line(base: str, each: ExtensionFacts) -> ExtensionLine:
    return ExtensionLine(each.id, extension_words(each), each.why, f"{base}/extensions/{each.id}")


def extension_words(each: ExtensionFacts) -> str:
    asked = f"asked for on {show_date(each.asked_on)}" if each.asked_on else "not asked for yet"
    if each.withdrawn_on:
        return f"Extension, {asked}: withdrawn on {show_date(each.withdrawn_on)}"
    if each.granted is None:
        return f"Extension, {asked}: no answer yet" if each.asked_on else f"Extension, {asked}"
    on = f" on {show_date(each.answered_on)}" if each.answered_on else ""
    if not each.granted:
        return f"Extension, {asked}: refused{on}"
    until = f" until {show_date(each.until_day)}" if each.until_day else ""
    paper = "" if each.in_writing else ". No letter here yet, so the clock is not moved"
    return f"Extension: granted{on}{until}{paper}"
