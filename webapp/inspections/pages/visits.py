"""One visit: its result surface by surface, what was said, the paper, a fee; and that nothing was looked at."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.hired.store import hired_choices
from webapp.inspections import store
from webapp.inspections.forms.fields import place_name
from webapp.inspections.forms.held import NOT_YET, REPLACE, SECOND, SEEN, VisitContext
from webapp.inspections.forms.said import rows_of
from webapp.inspections.pages.book import Book, CorrectionLine, read_book
from webapp.inspections.pages.clock import FeeLine, fee_lines
from webapp.inspections.rules.facts import ChangeFacts, CorrectionFacts, InspectionFacts, ResultFacts, VisitFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, Evidence, Outcome, ResultKind, ResultState
from webapp.inspections.rules.results import Standing, said_by, standings, to_show
from webapp.plan.guard import Here
from webapp.values.dates import show_date, show_day
from webapp.values.own_words import own

Choices = tuple[tuple[str, str], ...]
KINDS: Choices = (
    (ResultKind.PASSED.value, "Passed"),
    (ResultKind.FAILED.value, "Failed"),
    (ResultKind.SMALL_ITEMS.value, "Small items"),
    (ResultKind.PART_PASSED.value, "Part"),
    (ResultKind.SEEN_NEXT.value, "Next visit"),
    (ResultKind.NOT_LOOKED_AT.value, "Not seen"),
)
"""the three said most often come first: they are the first row on a phone"""
RESULT = "result"
_PAPER_WORDS = {Evidence.LETTER: "Letter or report", Evidence.THEIR_WORD: "Their word, passed on by a hired trade"}
PAPERS: Choices = tuple((each.value, _PAPER_WORDS.get(each, f"{each[:1].upper()}{each[1:]}")) for each in Evidence)
FOR_ALL: Choices = (("", "Each its own"), (ResultKind.PASSED.value, "Passed"), (ResultKind.FAILED.value, "Failed"))
TWICE: Choices = ((REPLACE, "It was mistyped"), (SECOND, "A second visit"))
SHOWN: Choices = ((SEEN, "Seen, fine"), (NOT_YET, "Not yet"))
FORMS: Choices = ((CorrectionForm.WRITTEN.value, "Written"), (CorrectionForm.SAID.value, "Said, not written"))
CLEARS: Choices = tuple((each.value, f"{each.value[:1].upper()}{each.value[1:]}") for each in reversed(ClearsBy))
CLEARS_IN_SHORT: Choices = (
    (ClearsBy.REVISIT.value, "Seen again"),
    (ClearsBy.PICTURE.value, "Picture sent"),
    (ClearsBy.OWN_WORD.value, "My word"),
)


@dataclass(frozen=True, slots=True)
class PlaceField:
    """One surface of the form. `said` is what this visit has on record of it; then it is shown, not asked."""

    field: str
    name: str
    mark: str
    turned: bool
    said: str
    by: str
    href: str
    before: str
    """where it stood before this visit, when it was passed: then it is folded away"""


@dataclass(frozen=True, slots=True)
class VisitPage:
    sheet: Sheet
    inspection: InspectionFacts
    inspection_href: str
    permit: str
    visit: VisitFacts
    came: str
    came_label: str
    so_far: str
    ahead: bool
    has_results: bool
    places: tuple[PlaceField, ...]
    passed_before: tuple[PlaceField, ...]
    to_show: tuple[CorrectionLine, ...]
    corrections: tuple[CorrectionLine, ...]
    rows: int
    on: Choices
    asked: tuple[str, ...]
    paper: str
    paper_note: str
    fees: tuple[FeeLine, ...]
    changes: tuple[ChangeFacts, ...]
    currency: str
    base: str
    here: str
    do: str
    questioned: bool
    kinds: Choices
    papers: Choices
    hired: Choices
    forms: Choices
    clears: Choices
    clears_in_short: Choices
    for_all: Choices
    twice: Choices
    shown: Choices
    open_places: int
    form: FormState


def visit_context(session: Session, here: Here, visit_id: int) -> VisitContext:
    """What a sent form is read against."""
    visit = store.get_visit(session, here.build.id, visit_id)
    inspection = store.get_inspection_by_id(session, here.build.id, visit.inspection_id)
    book = read_book(session, here)
    owed = tuple(place for place, found in _before(book, visit, inspection).items() if not found.passed)
    kinds = {
        each.surface_id: each.kind
        for each in book.results
        if each.visit_id == visit_id and each.state == ResultState.CURRENT
    }
    ahead = visit.outcome in {Outcome.PLANNED, Outcome.ASKED}
    return VisitContext(
        inspection=inspection,
        issued_on=book.permits[inspection.permit_id].issued_on,
        on_record=kinds,
        names=book.names(),
        owed=owed or inspection.places,
        to_show=_to_show(book, visit, inspection),
        hired=dict(hired_choices(session, here.build.id)),
        booked_on=visit.day if ahead else None,
        asked_on=visit.asked_on,
    )


def _before(book: Book, visit: VisitFacts, inspection: InspectionFacts) -> dict[int | None, Standing]:
    """Where it stood without what this visit said."""
    others = tuple(one for one in book.results if one.visit_id != visit.id)
    return standings(inspection, others, book.corrections)


def _to_show(book: Book, visit: VisitFacts, inspection: InspectionFacts) -> tuple[CorrectionFacts, ...]:
    """Corrections of earlier visits that the inspector wants to see again."""
    found = to_show(inspection, book.results, book.corrections)
    return tuple(one for one in found if one.visit_id != visit.id)


def choices_of_hired(session: Session, build_id: int) -> Choices:
    """Who can have passed a result on; nothing to choose where nobody is hired."""
    hired = hired_choices(session, build_id)
    return (("", "Nobody: I heard it"), *hired) if hired else ()


def visit_page(
    session: Session,
    here: Here,
    visit_id: int,
    form: FormState | None = None,
    do: str = RESULT,
    rows: int = 1,
    hired: str = "",
) -> VisitPage:
    """The visit with one of its forms: result, not-ready or day. Only one, as they share field names.

    `rows`: how many corrections can be written down at the least; `hired`: the trade whose word is written down.
    """
    book = read_book(session, here)
    visit = store.get_visit(session, here.build.id, visit_id)
    inspection = book.inspection(visit.inspection_id)
    places = _places(book, visit, inspection)
    said = tuple(each for each in book.results if each.visit_id == visit_id)
    state = form or _blank(visit, here.today, hired)
    has_results = any(place.said for place in places)
    return VisitPage(
        sheet=here.sheet(f"V2-{inspection.position}", own("Inspections"), f"Record the result: {inspection.name}"),
        inspection=inspection,
        inspection_href=f"{here.base}/inspections/{inspection.code}",
        permit=book.permits[inspection.permit_id].code,
        visit=visit,
        came=_came(visit, here.today),
        came_label=_label(visit),
        so_far=book.summary(inspection),
        ahead=visit.outcome in {Outcome.PLANNED, Outcome.ASKED},
        has_results=has_results,
        places=tuple(place for place in places if not place.before or _is_used(state, place.field)),
        passed_before=tuple(place for place in places if place.before and not _is_used(state, place.field)),
        to_show=book.correction_lines(_to_show(book, visit, inspection)),
        corrections=book.correction_lines(tuple(each for each in book.corrections if each.visit_id == visit_id)),
        rows=max(rows, rows_of(state)),
        on=tuple((place_name(place), book.name(place)) for place in inspection.places),
        asked=tuple(item.words.rstrip(".") for item in book.asked if item.visit_id == visit_id),
        paper=next((each.photo for each in said if each.photo), ""),
        paper_note=_paper_note(said, has_results),
        fees=fee_lines(book.base, tuple(fee for fee in book.fees if fee.visit_id == visit_id)),
        changes=store.list_visit_changes(session, visit_id),
        currency=here.build.currency,
        base=here.base,
        here=f"{here.base}/visits/{visit_id}",
        do=_does(visit, do, has_results),
        questioned=state.error("day") is not None or state.value("day_right") != "",
        kinds=KINDS,
        papers=PAPERS,
        hired=choices_of_hired(session, here.build.id),
        forms=FORMS,
        clears=CLEARS,
        clears_in_short=CLEARS_IN_SHORT,
        for_all=FOR_ALL,
        twice=TWICE,
        shown=SHOWN,
        open_places=sum(not place.said and not place.before for place in places),
        form=state,
    )


def _does(visit: VisitFacts, do: str, has_results: bool) -> str:
    """Which form is shown: only one that this visit can still take; none for one that was called off."""
    if visit.outcome == Outcome.CANCELLED:
        return ""
    ahead = visit.outcome in {Outcome.PLANNED, Outcome.ASKED}
    possible = {"not-ready": not has_results, "day": not ahead}
    return do if possible.get(do) else RESULT


def _came(visit: VisitFacts, today: date) -> str:
    day = show_day(visit.day, today) if visit.day else "not set"
    return f"{day}, {visit.window}" if visit.window else day


def _label(visit: VisitFacts) -> str:
    if visit.outcome in {Outcome.PLANNED, Outcome.ASKED}:
        return "Comes, asked for" if visit.outcome == Outcome.ASKED else "Planned for"
    return {Outcome.CAME: "Came", Outcome.CANCELLED: "Called off"}.get(
        Outcome(visit.outcome), visit.outcome.capitalize()
    )


def _blank(visit: VisitFacts, today: date, hired: str) -> FormState:
    ahead = visit.day is not None and visit.day <= today
    day = visit.day if visit.day and ahead else today
    booked = {"asked_on": visit.asked_on.isoformat() if visit.asked_on else "", "window": visit.window}
    evidence = Evidence.THEIR_WORD if hired else Evidence.MY_NOTE
    return FormState.of(day=day.isoformat(), evidence=evidence.value, outcome="not ready", hired=hired, **booked)


def _is_used(state: FormState, field: str) -> bool:
    """Whether something is ticked or wrong there: then it must not be hidden."""
    return any(state.value(name) or state.error(name) for name in (f"kind_{field}", f"part_{field}"))


def _places(book: Book, visit: VisitFacts, inspection: InspectionFacts) -> tuple[PlaceField, ...]:
    said = {
        each.surface_id: each
        for each in book.results
        if each.visit_id == visit.id and each.state == ResultState.CURRENT
    }
    found, before = [], _before(book, visit, inspection)
    for place, standing in book.standings(inspection).items():
        result = said.get(place)
        mark, turned = book.mark(place, standing.passed)
        words = f"{result.kind[:1].upper()}{result.kind[1:]}" if result else ""
        part = f": {result.part}" if result and result.part else ""
        found.append(
            PlaceField(
                field=place_name(place),
                name=book.name(place),
                mark=mark,
                turned=turned,
                said=f"{words}{part}",
                by=said_by(result) if result else "",
                href=f"{book.base}/results/{result.id}" if result else "",
                before=_stood(before[place]) if not result and before[place].passed else "",
            )
        )
    return tuple(found)


def _stood(found: Standing) -> str:
    day = f" {show_date(found.day)}" if found.day else ""
    return f"{found.words[:1].upper()}{found.words[1:]}{day}, {found.by}."


def _paper_note(said: Iterable[ResultFacts], has_results: bool) -> str:
    if any(each.has_paper for each in said):
        return ""
    if has_results:
        return "No picture of the paper yet. Until there is one this result is shown as “my note”."
    return "Without a picture of the card, notice or slip the result is shown as “my note”."
