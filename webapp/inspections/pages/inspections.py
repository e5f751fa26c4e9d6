"""V2: inspections in the builder's order; one inspection with its history; the form of an inspection."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import forms, store
from webapp.inspections.pages.advice import AdviceLine, advice_of
from webapp.inspections.pages.asking import call_off_words
from webapp.inspections.pages.book import Book, CorrectionLine, PlaceLine, VisitLine, read_book
from webapp.inspections.rules.checks import TRADE_CHOICES
from webapp.inspections.rules.facts import AskedFacts, ChangeFacts, InspectionFacts
from webapp.inspections.rules.kinds import Evidence, Outcome
from webapp.inspections.rules.results import to_show
from webapp.inspections.rules.wording import weekday_words
from webapp.plan.guard import Here
from webapp.plan.rules.kinds import NeedKind
from webapp.plan.store.booked import list_breaches
from webapp.values.dates import show_date, show_long_day
from webapp.values.own_words import own
from webapp.values.words import join_words, plural

Choices = tuple[tuple[str, str], ...]
SOURCES = ("my guess", "my authority's handout", "my inspector's word", "front of my card", "common practice")


@dataclass(frozen=True, slots=True)
class InspectionLine:
    code: str
    name: str
    permit: str
    summary: str
    places: tuple[PlaceLine, ...]
    detail: str
    next_visit: str
    next_href: str
    href: str
    move: str


@dataclass(frozen=True, slots=True)
class InspectionsPage:
    """V2. `ahead`: visits to come, the earliest first."""

    sheet: Sheet
    lede: str
    lines: tuple[InspectionLine, ...]
    ahead: tuple[InspectionLine, ...]
    ordering: bool
    has_permits: bool
    new: str
    permits: str
    here: str
    breaches: tuple[tuple[str, str, str], ...]
    """hold points that the order breaks knowingly: what would be hidden, since when and why, where the work is"""


@dataclass(frozen=True, slots=True)
class AskedLine:
    id: int
    words: str
    detail: str
    open: bool
    dropped: bool
    action: str


@dataclass(frozen=True, slots=True)
class InspectionPage:
    """One inspection: where it stands, what is to be ready, what came before, and booking the next visit."""

    sheet: Sheet
    inspection: InspectionFacts
    permit: str
    permit_href: str
    summary: str
    places: tuple[PlaceLine, ...]
    corrections: tuple[CorrectionLine, ...]
    cleared: tuple[CorrectionLine, ...]
    ready: tuple[str, ...]
    asked: tuple[AskedLine, ...]
    ahead: tuple[VisitLine, ...]
    held: tuple[VisitLine, ...]
    ask_words: str
    changes: tuple[ChangeFacts, ...]
    advice: tuple[AdviceLine, ...]
    again: bool
    """something is to be shown to the inspector again"""
    base: str
    here: str
    form: FormState


@dataclass(frozen=True, slots=True)
class InspectionFormPage:
    sheet: Sheet
    heading: str
    action: str
    back: str
    known: bool
    """it is on the list already, so a change of it may say why"""
    form: FormState
    permits: Choices
    surfaces: Choices
    offices: Choices
    sources: Choices
    trades: Choices


def _line(book: Book, each: InspectionFacts) -> InspectionLine:
    places = book.place_lines(each)
    visit = book.next_visit(each)
    owed = len({found.id for standing in book.standings(each).values() for found in standing.owed})
    waiting = len([item for item in book.asked if item.inspection_id == each.id and item.open])
    bare = [place.code for place in places if place.by == Evidence.MY_NOTE]
    parts = [
        f"My note only: {join_words(bare)}" if bare else "",
        plural(owed, "correction") + " open" if owed else "",
        plural(waiting, "thing") + " to have ready" if waiting else "",
    ]
    return InspectionLine(
        code=each.code,
        name=each.name,
        permit=book.permits[each.permit_id].code,
        summary=book.summary(each),
        places=places,
        detail=". ".join(part for part in parts if part),
        next_visit=book.when(visit) if visit else "",
        next_href=f"{book.base}/visits/{visit.id}" if visit else "",
        href=f"{book.base}/inspections/{each.code}",
        move=f"{book.base}/inspections/{each.code}/move",
    )


def inspections_page(session: Session, here: Here, ordering: bool = False) -> InspectionsPage:
    book = read_book(session, here)
    lines = tuple(_line(book, each) for each in book.inspections)
    first = [book.next_visit(each) for each in book.inspections]
    days = {line.code: visit.day for line, visit in zip(lines, first, strict=True) if visit}
    ahead = sorted((line for line in lines if line.code in days), key=lambda line: days[line.code] or date.max)
    passed = sum(all(place.passed for place in line.places) for line in lines)
    return InspectionsPage(
        sheet=here.sheet("V2", own("Inspections")),
        lede=f"{passed} of {plural(len(lines), 'inspection')} passed everywhere they look." if lines else "",
        lines=lines,
        ahead=tuple(ahead),
        ordering=ordering,
        has_permits=bool(book.permits),
        new=f"{here.base}/inspections/new",
        permits=f"{here.base}/permits",
        here=f"{here.base}/inspections",
        breaches=_breaches(session, book),
    )


def _breaches(session: Session, book: Book) -> tuple[tuple[str, str, str], ...]:
    """Those that stand: not mended, and what would be hidden has not passed meanwhile."""
    kinds = {each.id: each for each in book.inspections}
    lines = []
    for one in list_breaches(session, book.build_id):
        kind = kinds.get(one.needs_id)
        if kind is None or one.ended_on is not None:
            continue
        found = book.standings(kind)
        place = one.surface_id if one.surface_id in found else None
        if not (place in found and found[place].passed):
            href = f"tasks/{one.what_id}" if one.what_kind == NeedKind.TASK else f"inspections/{kind.code}"
            said = f"Kept since {show_date(one.on_day)}: {one.why}"
            lines.append((one.words, said, f"{book.base}/{href}"))
    return tuple(lines)


def asked_lines(book: Book, inspection_id: int) -> tuple[AskedLine, ...]:
    """Open ones first, each marked with who asked for it."""
    found = [
        AskedLine(
            id=item.id,
            words=item.words,
            detail=_asked_detail(item),
            open=item.open,
            dropped=item.dropped_on is not None,
            action=f"{book.base}/asked/{item.id}",
        )
        for item in book.asked
        if item.inspection_id == inspection_id
    ]
    return tuple(sorted(found, key=lambda line: not line.open))


def _asked_detail(item: AskedFacts) -> str:
    parts = [f"{item.source[:1].upper()}{item.source[1:]}, {show_date(item.asked_on)}"]
    if item.done_on:
        parts.append(f"ready since {show_date(item.done_on)}")
    if item.dropped_on:
        parts.append(f"not wanted any more since {show_date(item.dropped_on)}")
    if item.stops and item.open:
        parts.append("stops the next visit")
    return ". ".join(f"{part[:1].upper()}{part[1:]}" for part in parts) + "."


def inspection_page(session: Session, here: Here, code: str, form: FormState | None = None) -> InspectionPage:
    book = read_book(session, here)
    inspection = store.get_inspection(session, here.build.id, code)
    lines = book.correction_lines(tuple(each for each in book.corrections if each.inspection_id == inspection.id))
    visits = [each for each in book.visits if each.inspection_id == inspection.id]
    shown = [book.visit_line(each) for each in visits]
    permit = book.permits[inspection.permit_id]
    return InspectionPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), inspection.name),
        inspection=inspection,
        permit=permit.code,
        permit_href=f"{here.base}/permits/{permit.code}",
        summary=book.summary(inspection),
        places=book.place_lines(inspection),
        corrections=tuple(line for line in lines if not line.cleared),
        cleared=tuple(line for line in lines if line.cleared),
        ready=tuple(part.strip() for part in inspection.must_be_ready.replace("\n", ",").split(",") if part.strip()),
        asked=asked_lines(book, inspection.id),
        ahead=tuple(line for line in shown if line.ahead),
        held=tuple(reversed([line for line in shown if not line.ahead])),
        ask_words=_ask_words(book, inspection),
        changes=store.list_inspection_changes(session, inspection.id),
        advice=advice_of(session, here, book, inspection_id=inspection.id),
        again=bool(to_show(inspection, book.results, book.corrections)),
        base=here.base,
        here=f"{here.base}/inspections/{inspection.code}",
        form=form or FormState.of(who_there=inspection.who_there),
    )


def _ask_words(book: Book, inspection: InspectionFacts) -> str:
    """The rule for asking, and for a planned visit its day: "Ask by Wednesday 15:30"."""
    terms = book.terms(inspection)
    where = f" {terms.office} comes on {weekday_words(terms.visiting)}." if terms.office else ""
    rule = f"{plural(terms.notice_days, 'working day')} of notice, asked for by {terms.ask_hour}.{where}"
    visit = book.next_visit(inspection)
    if visit is None or visit.day is None:
        return rule
    off = call_off_words(terms, visit.day, book.today)
    off = f" {off}." if off else ""
    if visit.outcome != Outcome.PLANNED:
        return f"{rule}{off}"
    return f"Ask by {show_long_day(terms.ask_by(visit.day))} {terms.ask_hour}. {rule}{off}"


def inspection_form_page(
    session: Session, here: Here, code: str = "", form: FormState | None = None
) -> InspectionFormPage:
    """The form of the inspection with that short name; of a new one when none is given."""
    book = read_book(session, here)
    inspection = store.get_inspection(session, here.build.id, code) if code else None
    listed = f"{here.base}/inspections"
    return InspectionFormPage(
        sheet=here.sheet("V2", own("Inspections"), inspection.name if inspection else f"A new {own('inspection')}"),
        heading=f"Change {inspection.name}" if inspection else f"A new {own('inspection')}",
        action=f"{listed}/{code}/edit" if code else listed,
        back=f"{listed}/{code}" if code else listed,
        known=inspection is not None,
        form=form or forms.inspection_state(inspection),
        permits=tuple((str(each.id), f"{each.code}, {each.name}") for each in book.permits.values()),
        surfaces=tuple((str(each.id), f"{each.code}, {each.name}") for each in book.surfaces.values()),
        offices=(("", "No office"), *((str(each.id), each.name) for each in book.offices.offices)),
        sources=tuple((source, source) for source in SOURCES),
        trades=TRADE_CHOICES,
    )
