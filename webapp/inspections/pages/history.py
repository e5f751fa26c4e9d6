"""All that was said, changed, taken back and cleared of one inspection or one surface, in the order it happened."""

from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.hired.store import list_hired
from webapp.inspections import store
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.rules.corrections import clearing
from webapp.inspections.rules.facts import AdviceFacts, ChangeFacts, CorrectionFacts, FeeFacts, ResultFacts, VisitFacts
from webapp.inspections.rules.kinds import CorrectionState, Outcome, ResultState
from webapp.inspections.rules.results import said_by
from webapp.plan.guard import Here
from webapp.surfaces.store import get_surface
from webapp.values.dates import show_date, show_long_day
from webapp.values.money import show_money
from webapp.values.own_words import own
from webapp.values.words import capital


@dataclass(frozen=True, slots=True)
class Event:
    """One thing that happened on `day`; `photo` is the SHA-256 of its paper, or empty."""

    day: date
    order: int
    title: str
    detail: str
    href: str
    photo: str = ""


@dataclass(frozen=True, slots=True)
class Day:
    heading: str
    events: tuple[Event, ...]


@dataclass(frozen=True, slots=True)
class HistoryPage:
    sheet: Sheet
    heading: str
    back: str
    back_label: str
    days: tuple[Day, ...]


@dataclass(frozen=True, slots=True)
class Told:
    """What belongs to the thing the history is of."""

    book: Book
    currency: str
    hired: Mapping[int | None, str]
    visits: tuple[VisitFacts, ...]
    results: tuple[ResultFacts, ...]
    corrections: tuple[CorrectionFacts, ...]
    advice: tuple[AdviceFacts, ...]
    visit_changes: tuple[tuple[int, ChangeFacts], ...]
    correction_changes: tuple[tuple[int, date, ChangeFacts], ...]


def inspection_history(session: Session, here: Here, code: str) -> HistoryPage:
    book, one = read_book(session, here), store.get_inspection(session, here.build.id, code)
    told = _told(session, here, book, {one.id}, None)
    back = f"{here.base}/inspections/{one.code}"
    sheet = here.sheet(f"V2-{one.position}", own("Inspections"), f"History: {one.name}")
    return HistoryPage(sheet, f"{one.name}: all that was said", back, one.name, days_of(told))


def surface_history(session: Session, here: Here, code: str) -> HistoryPage:
    book, surface = read_book(session, here), get_surface(session, here.build.id, code)
    looks = {one.id for one in book.inspections if surface.id in one.places or None in one.places}
    told = _told(session, here, book, looks, surface.id)
    sheet = here.sheet(f"W1-{surface.code}", surface.name, "All that was said", surface.facing)
    back = f"{here.base}/surfaces/{surface.code}"
    return HistoryPage(sheet, f"{surface.name}: all that was said", back, surface.name, days_of(told))


def _told(session: Session, here: Here, book: Book, inspections: set[int], surface_id: int | None) -> Told:
    """Of some inspections; where a surface is given, only what is about it or about the whole building."""

    def about(place: int | None) -> bool:
        return surface_id is None or place in {surface_id, None}

    results = tuple(one for one in book.results if one.inspection_id in inspections and about(one.surface_id))
    corrections = tuple(one for one in book.corrections if one.inspection_id in inspections and about(one.surface_id))
    held = {one.visit_id for one in results}
    visits = tuple(
        one for one in book.visits if one.inspection_id in inspections and (surface_id is None or one.id in held)
    )
    shown = {one.id for one in visits}
    numbers = {one.id for one in corrections}
    return Told(
        book=book,
        currency=here.build.currency,
        hired={one.id: one.trade for one in list_hired(session, here.build.id)},
        visits=visits,
        results=results,
        corrections=corrections,
        advice=tuple(
            one
            for one in store.list_advice(session, here.build.id)
            if (one.surface_id == surface_id if surface_id else one.inspection_id in inspections)
        ),
        visit_changes=tuple(pair for pair in store.list_all_visit_changes(session, here.build.id) if pair[0] in shown),
        correction_changes=tuple(
            line for line in store.list_all_correction_changes(session, here.build.id) if line[0] in numbers
        ),
    )


def days_of(told: Told) -> tuple[Day, ...]:
    """Oldest day first; of one day in the order of the list below."""
    events = [
        *_visits(told),
        *_results(told),
        *_corrections(told),
        *_steps(told),
        *_put_right(told),
        *_fees(told),
        *_asked(told),
        *_advice(told),
    ]
    days: dict[date, list[Event]] = {}
    for event in sorted(events, key=lambda one: (one.day, one.order)):
        days.setdefault(event.day, []).append(event)
    return tuple(Day(show_long_day(day), tuple(found)) for day, found in days.items())


def _sentence(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"


def _visits(told: Told) -> Iterator[Event]:
    for one in told.visits:
        if one.day is None:
            continue
        name, outcome = told.book.inspection(one.inspection_id).name, Outcome(one.outcome)
        words = {Outcome.CAME: "The inspector came", Outcome.CANCELLED: "Called off"}.get(outcome, _sentence(outcome))
        detail = " ".join(f"{_sentence(part).rstrip('.')}." for part in (one.reason, one.note) if part)
        yield Event(one.day, 0, f"{words}: {name}", detail, f"{told.book.base}/visits/{one.id}")


def _results(told: Told) -> Iterator[Event]:
    for one in told.results:
        name, place = told.book.inspection(one.inspection_id).name, told.book.name(one.surface_id)
        href, part = f"{told.book.base}/results/{one.id}", f": {one.part}" if one.part else ""
        state = "" if one.state == ResultState.CURRENT else f" {_sentence(one.state)} later."
        if one.reopened:
            state = " Counts no more since a change from what was approved."
        by = f" Passed on by the {told.hired[one.hired_id]}." if one.hired_id in told.hired else ""
        said = f"{_sentence(said_by(one))}.{by}{state}"
        yield Event(one.day, 1, f"{name}, {place}: {one.kind}{part}", said, href, one.photo)
        if one.changed_on is not None:
            taken = one.state == ResultState.WITHDRAWN
            words = f"Taken back by {one.changed_who}" if taken else "My mistake, put right"
            title = f"{words}: {name}, {place}, “{one.kind}” of {show_date(one.day)}"
            yield Event(one.changed_on, 4, title, one.changed_why, href, one.letter)


def _corrections(told: Told) -> Iterator[Event]:
    said_on = {one.id: one.day for one in told.book.results}
    for one in told.corrections:
        where = ", ".join(part for part in (told.book.name(one.surface_id), one.place) if part)
        rule = f" Rule cited: {one.rule_cited}." if one.rule_cited else ""
        detail = f"{where}. {_sentence(one.form)}. Clears by: {one.clears_by}.{rule}"
        href = f"{told.book.base}/corrections/{one.id}"
        yield Event(said_on[one.result_id], 2, f"Correction {one.number}: “{one.words}”", detail, href, one.before)
        results = [each for each in told.book.results if each.inspection_id == one.inspection_id]
        found = clearing(one, results)
        if found and found.on and one.state != CorrectionState.CLEARED:
            yield Event(found.on, 5, f"Correction {one.number} cleared", _sentence(found.by), href)


def _steps(told: Told) -> Iterator[Event]:
    known = {one.id: one for one in told.corrections}
    for correction_id, day, change in told.correction_changes:
        one = known[correction_id]
        photo = one.after if change.became.startswith("done") else ""
        detail = f"Before: {change.was}.{' ' + capital(change.why) if change.why else ''}"
        yield Event(
            day,
            5,
            f"Correction {one.number}: {change.became}",
            detail,
            f"{told.book.base}/corrections/{one.id}",
            photo,
        )


def _put_right(told: Told) -> Iterator[Event]:
    """What a visit said before: its day, its outcome, the paper of a result."""
    kinds = {one.id: told.book.inspection(one.inspection_id).name for one in told.visits}
    for visit_id, change in told.visit_changes:
        field, _, number = change.field.rpartition(" of result ")
        title = f"{kinds[visit_id]}, {field or number}: {change.was}, now {change.became}"
        yield Event(_day(change.at), 6, title, change.why, f"{told.book.base}/visits/{visit_id}")


def _day(moment: datetime) -> date:
    return moment.astimezone().date()


def _fees(told: Told) -> Iterator[Event]:
    held = {one.id: one for one in told.visits}
    for fee in told.book.fees:
        visit = held.get(fee.visit_id or 0)
        if visit is not None and visit.day is not None:
            yield from _fee(told, fee, visit.day)


def _fee(told: Told, fee: FeeFacts, day: date) -> Iterator[Event]:
    amount, href = show_money(fee.amount_cents, told.currency), f"{told.book.base}/fees/{fee.id}"
    stops = " No visit is taken until it is paid." if fee.stops_visits else ""
    yield Event(day, 3, f"A fee of {amount}", f"{_sentence(fee.why)}.{stops}" if fee.why else stops.strip(), href)
    if fee.paid_on:
        yield Event(fee.paid_on, 5, f"Fee of {amount} paid", "It is in the spend.", href)


def _asked(told: Told) -> Iterator[Event]:
    held = {one.id for one in told.visits}
    for one in told.book.asked:
        if one.visit_id in held:
            code = told.book.inspection(one.inspection_id).code
            detail = "It stops the next visit." if one.stops else ""
            yield Event(
                one.asked_on, 3, f"Asked for: {one.words}", detail, f"{told.book.base}/inspections/{code}#ready"
            )


def _advice(told: Told) -> Iterator[Event]:
    for one in told.advice:
        href = f"{told.book.base}/advice/{one.id}"
        detail = f"{_sentence(one.who)}, {one.form}. A word, no result."
        yield Event(one.day, 3, f"“{one.words}”", detail, href)
        if one.ended_on:
            yield Event(one.ended_on, 5, f"Taken back: “{one.words}”", one.ended_why, href)
