"""V1: permits, each with its own clock; the sheet of one permit; a fee."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.rules.booking import ask_by, last_useful_visit
from webapp.inspections.rules.facts import ChangeFacts, FeeFacts, PermitFacts
from webapp.inspections.rules.lapse import Clock, clock_of
from webapp.plan.guard import Here
from webapp.values.dates import in_days, show_date, show_long_day
from webapp.values.own_words import own


@dataclass(frozen=True, slots=True)
class FeeLine:
    id: int
    amount_cents: int
    words: str
    href: str


@dataclass(frozen=True, slots=True)
class PermitLine:
    """One permit and how its time runs, in words. `lapse` is empty while no clock runs."""

    code: str
    name: str
    covers: str
    number: str
    issued: str
    counting: str
    counting_href: str
    lapse: str
    lapse_near: str
    useful: str
    rule: str
    source: str
    fees: tuple[FeeLine, ...]
    href: str


@dataclass(frozen=True, slots=True)
class PermitsPage:
    sheet: Sheet
    permits: tuple[PermitLine, ...]
    currency: str
    new: str


@dataclass(frozen=True, slots=True)
class PermitPage:
    """One permit to read and put right, or a new one when `line` is None."""

    sheet: Sheet
    heading: str
    line: PermitLine | None
    changes: tuple[ChangeFacts, ...]
    currency: str
    action: str
    back: str
    form: FormState


@dataclass(frozen=True, slots=True)
class FeePage:
    """One fee, to be paid or paid."""

    sheet: Sheet
    currency: str
    fee: FeeFacts
    words: str
    visit_words: str
    visit_href: str
    spend_href: str
    action: str
    form: FormState


@dataclass(frozen=True, slots=True)
class FeesPage:
    """Every fee not paid yet, which the sheet of spend shows beside what is paid."""

    sheet: Sheet
    currency: str
    fees: tuple[FeeLine, ...]
    total_cents: int
    back: str


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


def _line(book: Book, permit: PermitFacts) -> PermitLine:
    clock = clock_of(permit, book.inspections, book.results)
    return PermitLine(
        code=permit.code,
        name=permit.name,
        covers=permit.covers,
        number=permit.number,
        issued=_issued(permit),
        counting=f"{clock.counts[:1].upper()}{clock.counts[1:]}, {show_long_day(clock.counting_day)}" if clock else "",
        counting_href=f"{book.base}/results/{clock.result_id}" if clock and clock.result_id else "",
        lapse=_lapse(permit, clock),
        lapse_near=_near(clock, book.today),
        useful=_useful(book, permit, clock),
        rule=permit.lapse_rule
        or (f"{permit.lapse_days} days after the last day that counts." if permit.lapse_days else ""),
        source=permit.rule_source,
        fees=fee_lines(book.base, tuple(fee for fee in book.fees if fee.permit_id == permit.id)),
        href=f"{book.base}/permits/{permit.code}",
    )


def _issued(permit: PermitFacts) -> str:
    if permit.closed_on:
        return f"Closed on {show_date(permit.closed_on)}."
    if permit.issued_on:
        return f"Issued on {show_date(permit.issued_on)}."
    return f"Asked for on {show_date(permit.asked_on)}, not issued yet." if permit.asked_on else "Not asked for yet."


def _lapse(permit: PermitFacts, clock: Clock | None) -> str:
    if permit.closed_on:
        return "Closed: no clock runs."
    if clock is None:
        return "Its clock starts when it is issued."
    if clock.last_day is None:
        return f"No number of days is written down yet. It stands on the {own('permit')} or its handout."
    return show_long_day(clock.last_day)


def _near(clock: Clock | None, today: date) -> str:
    if clock is None or clock.last_day is None:
        return ""
    if clock.last_day < today:
        return f"That was {in_days(clock.last_day, today)}. Ask your authority how it stands."
    return f"That is {in_days(clock.last_day, today)}."


def _useful(book: Book, permit: PermitFacts, clock: Clock | None) -> str:
    """The last visit that would still renew the permit, and when to ask for it."""
    if clock is None or clock.last_day is None or clock.last_day < book.today:
        return ""
    for each in book.inspections:
        owed = any(not found.passed for found in book.standings(each).values())
        if each.permit_id == permit.id and each.renews_permit and owed:
            visit = last_useful_visit(clock.last_day)
            asking = f"{show_long_day(ask_by(visit, each.notice_days))} {each.ask_by}"
            return f"{each.name} would renew it: on {show_long_day(visit)} at the latest, asked for by {asking}."
    return ""


def permits_page(session: Session, here: Here) -> PermitsPage:
    book = read_book(session, here)
    return PermitsPage(
        sheet=here.sheet("V1", own("Permits")),
        permits=tuple(_line(book, permit) for permit in book.permits.values()),
        currency=here.build.currency,
        new=f"{here.base}/permits/new",
    )


def permit_page(session: Session, here: Here, code: str = "", form: FormState | None = None) -> PermitPage:
    """The permit with that short name; a blank one when none is given."""
    back, currency = f"{here.base}/permits", here.build.currency
    if not code:
        new = f"A new {own('permit')}"
        sheet = here.sheet("V1", own("Permits"), new)
        return PermitPage(sheet, new, None, (), currency, back, back, form or forms.permit_state(None))
    permit = store.get_permit(session, here.build.id, code)
    return PermitPage(
        sheet=here.sheet(f"V1-{permit.code}", own("Permits"), permit.name),
        heading=permit.name,
        line=_line(read_book(session, here), permit),
        changes=store.list_permit_changes(session, permit.id),
        currency=currency,
        action=f"{back}/{permit.code}",
        back=back,
        form=form or forms.permit_state(permit),
    )


def fee_page(session: Session, here: Here, fee_id: int, form: FormState | None = None) -> FeePage:
    fee = store.get_fee(session, here.build.id, fee_id)
    book = read_book(session, here)
    visit = next((each for each in book.visits if each.id == fee.visit_id), None)
    named = f"{book.inspection(visit.inspection_id).name}, {book.visit_line(visit).words.lower()}" if visit else ""
    return FeePage(
        sheet=here.sheet("V1", own("Permits"), "A fee"),
        currency=here.build.currency,
        fee=fee,
        words=fee_words(fee),
        visit_words=f"{named}, {show_date(visit.day)}" if visit and visit.day else named,
        visit_href=f"{here.base}/visits/{visit.id}" if visit else "",
        spend_href=f"{here.base}/spend/{fee.spend_id}" if fee.spend_id else "",
        action=f"{here.base}/fees/{fee_id}/pay",
        form=form or FormState.of(paid_on=here.today.isoformat()),
    )


def fees_page(session: Session, here: Here) -> FeesPage:
    owed = tuple(fee for fee in store.list_fees(session, here.build.id) if fee.paid_on is None)
    return FeesPage(
        sheet=here.sheet("V1", own("Permits"), "Fees not paid yet"),
        currency=here.build.currency,
        fees=fee_lines(here.base, owed),
        total_cents=sum(fee.amount_cents for fee in owed),
        back=f"{here.base}/spend",
    )
