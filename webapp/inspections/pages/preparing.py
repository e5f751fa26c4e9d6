"""Before a visit: the readiness sheet of one visit, and the self-check list of one trade."""

from collections.abc import Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.actions.points import NewPoint
from webapp.inspections.forms.points import SOURCES
from webapp.inspections.pages.at_hand import PapersAtHand, papers_at_hand
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.rules.checks import trade_of
from webapp.inspections.rules.facts import AskedFacts, InspectionFacts, VisitFacts
from webapp.inspections.rules.kinds import CheckState, CheckUse, Outcome
from webapp.inspections.rules.preparing import Known, Listed, listed, offered_checks, offered_ready
from webapp.inspections.store.points import PointFacts, TickFacts, list_points, list_ticks
from webapp.plan.guard import Here
from webapp.values.dates import show_day, show_long_day, show_short_day
from webapp.values.own_words import own

HELD = (Outcome.CAME, Outcome.NOT_READY, Outcome.NO_ENTRY)
STATES = (
    (CheckState.FINE.value, "Fine"),
    (CheckState.TO_DO.value, "To do"),
    (CheckState.NOT_HERE.value, "Not here"),
)


@dataclass(frozen=True, slots=True)
class PointLine:
    """One point with what was last seen of it. `row_id`: 0 while it is only offered."""

    key: str
    words: str
    detail: str
    state: str
    row_id: int
    asked: bool


@dataclass(frozen=True, slots=True)
class Prepared:
    """The list as lines, and as it stands in the record: what a form is read against."""

    listed: tuple[Listed, ...]
    lines: tuple[PointLine, ...]
    states: dict[str, str]


@dataclass(frozen=True, slots=True)
class PreparingPage:
    """Either list. `places`: value, words, current of the surfaces it is kept for; `offers`: what corrections said."""

    sheet: Sheet
    heading: str
    lede: str
    facts: tuple[tuple[str, str], ...]
    papers: PapersAtHand | None
    lines: tuple[PointLine, ...]
    states: tuple[tuple[str, str], ...]
    counts: str
    places: tuple[tuple[str, str, bool], ...]
    offers: tuple[str, ...]
    ended: tuple[tuple[str, str], ...]
    sources: tuple[str, ...]
    action: str
    points: str
    back: str
    back_label: str
    here: str
    other: tuple[str, str]
    trade: str
    form: FormState


def _known(
    points: Iterable[PointFacts], use: CheckUse, trade: str, inspection_id: int, offered: set[str]
) -> list[Known]:
    """Rows of this list. One offered by an inspection's own words and offered no more is left out."""
    return [
        Known(
            one.id, one.words, one.source, one.ended_on is not None, own=one.source in SOURCES or one.words in offered
        )
        for one in points
        if one.use == use
        and one.asked_id is None
        and (one.trade in {"", trade} if use == CheckUse.READY else one.trade == trade)
        and one.inspection_id in {None, inspection_id}
    ]


def _last_held(book: Book, inspection_id: int) -> VisitFacts | None:
    held = (one for one in book.visits if one.inspection_id == inspection_id and one.outcome in HELD and one.day)
    return max(held, key=lambda one: (one.day, one.id), default=None)


def _asked(book: Book, points: Iterable[PointFacts], inspection_id: int) -> list[tuple[AskedFacts, Listed]]:
    """What an inspector or the builder put down for this inspection, first: it comes back before each next visit."""
    row = {one.asked_id: one.id for one in points if one.asked_id is not None and one.ended_on is None}
    found = []
    for item in book.asked:
        if item.inspection_id == inspection_id and item.dropped_on is None:
            where = f", {book.code(item.surface_id)}" if item.surface_id else ""
            source = f"{item.source}, {show_short_day(item.asked_on, book.today)}{where}"
            found.append((item, Listed(f"a{item.id}", item.words, source, row.get(item.id))))
    return found


def _line(one: Listed, tick: TickFacts | None, state: str, book: Book, *, asked: bool) -> PointLine:
    source = f"{one.source[:1].upper()}{one.source[1:]}"
    seen = f" Seen {show_day(tick.on_day, book.today)}." if tick else ""
    note = f" {tick.note.rstrip('.')}." if tick and tick.note else ""
    return PointLine(one.key, one.words, f"{source}.{seen}{note}", state, one.row_id or 0, asked)


def ready_list(session: Session, here: Here, book: Book, visit: VisitFacts) -> Prepared:
    """The readiness sheet of a visit: what was asked for, what this inspection wants, what any visit wants."""
    inspection = book.inspection(visit.inspection_id)
    points = list_points(session, here.build.id)
    offered = offered_ready(inspection.must_be_ready, inspection.source, remote=visit.remote)
    asked = _asked(book, points, inspection.id)
    known = _known(points, CheckUse.READY, "", inspection.id, {one.words for one in offered})
    rest = listed(CheckUse.READY, offered, known)
    ticks = {one.point_id: one for one in list_ticks(session, inspection.id) if one.visit_id == visit.id}
    since = _last_held(book, inspection.id)
    states: dict[str, str] = {}
    for item, one in asked:
        tick = ticks.get(one.row_id or 0)
        stands = item.done_on is not None and not (since and since.day and item.done_on <= since.day)
        states[one.key] = tick.state if tick else CheckState.FINE.value if stands else ""
    states |= {one.key: ticks[one.row_id].state if one.row_id in ticks else "" for one in rest}
    every = (*(one for _, one in asked), *rest)
    own = {one.key for _, one in asked}
    lines = tuple(_line(one, ticks.get(one.row_id or 0), states[one.key], book, asked=one.key in own) for one in every)
    return Prepared(every, lines, states)


def check_list(session: Session, here: Here, book: Book, inspection: InspectionFacts, place: int | None) -> Prepared:
    """The self-check list of the inspection's trade, as seen last on one surface."""
    trade = trade_of(inspection.name, inspection.trade)
    points = list_points(session, here.build.id)
    offered = offered_checks(trade)
    known = _known(points, CheckUse.SELF_CHECK, trade, inspection.id, {one.words for one in offered})
    own = [Known(one.id, one.words, one.source, one.ended, own=True) for one in known]
    every = listed(CheckUse.SELF_CHECK, offered, own)
    ticks = {one.point_id: one for one in list_ticks(session, inspection.id) if one.surface_id == place}
    states = {one.key: ticks[one.row_id].state if one.row_id in ticks else "" for one in every}
    lines = tuple(_line(one, ticks.get(one.row_id or 0), states[one.key], book, asked=False) for one in every)
    return Prepared(every, lines, states)


def point_made(line: Listed, use: CheckUse, inspection: InspectionFacts) -> NewPoint:
    """The row that an offered point becomes once something is said of it."""
    if line.key.startswith("a"):
        return NewPoint(use, line.words, line.source, inspection_id=inspection.id, asked_id=int(line.key[1:]))
    if use == CheckUse.SELF_CHECK:
        return NewPoint(use, line.words, line.source, trade_of(inspection.name, inspection.trade))
    own = line.source == inspection.source
    return NewPoint(use, line.words, line.source, inspection_id=inspection.id if own else None)


def counted(states: Iterable[str]) -> str:
    """ "9 fine, 1 to do, 3 not looked at"; what does not apply is not counted."""
    told = list(states)
    fine, to_do = told.count(CheckState.FINE.value), told.count(CheckState.TO_DO.value)
    left = told.count("")
    parts = (f"{fine} fine" if fine else "", f"{to_do} to do" if to_do else "", f"{left} not looked at" if left else "")
    return ", ".join(part for part in parts if part) or "nothing to look at"


def ready_page(session: Session, here: Here, visit_id: int, form: FormState | None = None) -> PreparingPage:
    """Raises NotFound for a visit of another build."""
    book = read_book(session, here)
    visit = store.get_visit(session, here.build.id, visit_id)
    inspection = book.inspection(visit.inspection_id)
    found = ready_list(session, here, book, visit)
    path = f"{here.base}/visits/{visit_id}"
    there = visit.who_there or inspection.who_there
    day = show_long_day(visit.day) if visit.day else ""
    facts = [("Visit", ", ".join(part for part in (day, visit.window) if part))]
    facts += [("Comes", "by video" if visit.remote else inspection.who), ("Must be there", there)]
    return PreparingPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), f"Ready: {inspection.name}"),
        heading="By video: ready?" if visit.remote else "Ready?",
        lede=f"{inspection.name}. {counted(found.states.values()).capitalize()}.",
        facts=tuple((label, value) for label, value in facts if value),
        papers=papers_at_hand(session, here, visit_id),
        lines=found.lines,
        states=STATES,
        counts=counted(found.states.values()),
        places=(),
        offers=(),
        ended=_ended(session, here, CheckUse.READY, "", inspection.id),
        sources=SOURCES,
        action=f"{path}/ready",
        points=f"{here.base}/inspections/{inspection.code}/points?use=ready&visit={visit_id}",
        back=path,
        back_label=inspection.name,
        here=f"{path}/ready",
        other=("My self-check list", f"{here.base}/inspections/{inspection.code}/check"),
        trade="",
        form=form or FormState(),
    )


def _ended(session: Session, here: Here, use: CheckUse, trade: str, inspection_id: int) -> tuple[tuple[str, str], ...]:
    return tuple(
        (one.words, f"Off the list since {show_day(one.ended_on, here.today)}: {one.ended_why}")
        for one in list_points(session, here.build.id)
        if one.ended_on and one.use == use and one.trade == trade and one.inspection_id in {None, inspection_id}
    )


def check_page(
    session: Session, here: Here, code: str, surface: str = "", form: FormState | None = None
) -> PreparingPage:
    """Raises NotFound for an inspection that is not there."""
    book = read_book(session, here)
    inspection = store.get_inspection(session, here.build.id, code)
    place = chosen_place(inspection, surface)
    found = check_list(session, here, book, inspection, place)
    trade = trade_of(inspection.name, inspection.trade)
    path = f"{here.base}/inspections/{code}"
    on = {line.words.casefold() for line in found.lines}
    said = (one.words for one in book.corrections if one.inspection_id == inspection.id)
    lede = f"{trade.capitalize()}, {book.name(place)}. {counted(found.states.values()).capitalize()}." if trade else ""
    return PreparingPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), f"Self-check: {inspection.name}"),
        heading=f"Self-check: {inspection.name}",
        lede=lede
        or f"This {own('inspection')} has no trade of its own. Choose one under “Change it”, or write your own points.",
        facts=(),
        papers=None,
        lines=found.lines,
        states=STATES,
        counts=counted(found.states.values()),
        places=tuple((str(each), book.code(each), each == place) for each in inspection.surface_ids),
        offers=tuple(dict.fromkeys(words for words in said if words.casefold() not in on)),
        ended=_ended(session, here, CheckUse.SELF_CHECK, trade, inspection.id),
        sources=SOURCES,
        action=f"{path}/check",
        points=f"{path}/points?use=self-check",
        back=path,
        back_label=inspection.name,
        here=f"{path}/check",
        other=("", ""),
        trade=trade,
        form=form or FormState.of(surface=str(place or "")),
    )


def chosen_place(inspection: InspectionFacts, surface: str) -> int | None:
    """The surface asked for, or the first it looks at; None for the whole building."""
    if surface.isdecimal() and int(surface) in inspection.surface_ids:
        return int(surface)
    return inspection.places[0]
