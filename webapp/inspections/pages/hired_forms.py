"""The forms of hired trades: who it is, and what came of what is waited for."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.hired import forms
from webapp.hired.rules.kinds import WaitKind
from webapp.hired.store import HiredFacts, WaitFacts, get_hired, get_wait
from webapp.inspections.actions.evidence import passed_on_by
from webapp.inspections.actions.hired import SHOWS
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.pages.hired import PAYING, Choices, how_it_stands
from webapp.inspections.pages.naming import name_things
from webapp.inspections.rules.facts import ResultFacts
from webapp.inspections.rules.kinds import ResultState
from webapp.inspections.store.hired import permit_codes_of
from webapp.papers.pages import Group, groups_of
from webapp.papers.rules.kinds import AboutKind
from webapp.papers.store import PaperFacts, list_papers
from webapp.plan.guard import Here
from webapp.values.dates import show_day

Waiting = tuple[str, str, int]
"""result as a form sends it, its words, its visit"""


@dataclass(frozen=True, slots=True)
class HiredFormPage:
    sheet: Sheet
    heading: str
    action: str
    back: str
    permits: Choices
    ticked: Choices
    groups: tuple[Group, ...]
    paying: str
    form: FormState


@dataclass(frozen=True, slots=True)
class WaitPage:
    """One thing waited for: it came, it is wanted no more, or it is waited for again."""

    sheet: Sheet
    title: str
    trade: str
    trade_href: str
    wait: WaitFacts
    says: str
    stops: str
    paper_href: str
    known: Choices
    shows: Choices
    """results that wait for this card or report, to tick"""
    rests: Choices
    """results that rest on what came: where each stands, and its words"""
    here: str
    came_form: FormState
    drop_form: FormState


def hired_form_page(session: Session, here: Here, code: str = "", form: FormState | None = None) -> HiredFormPage:
    """The form of a new trade, or of the one called `code`."""
    hired = get_hired(session, here.build.id, code) if code else None
    permit = permit_codes_of(session, here.build.id).get(hired.id, "") if hired else ""
    state = form or (forms.filled(hired, permit) if hired else forms.blank())
    things = [one for one in name_things(session, here) if one.kind in forms.PARTS]
    ticked = {*state.values("parts")}
    base = f"{here.base}/hired"
    return HiredFormPage(
        sheet=here.sheet("P3", "Hired trades", "Put it right" if hired else "Somebody is hired"),
        heading="Put it right" if hired else "Somebody is hired",
        action=f"{base}/{code}/edit" if code else base,
        back=f"{base}/{code}" if code else base,
        permits=(("", "Under mine, or none"), *_permit_choices(session, here)),
        ticked=tuple((one.key, one.label) for one in things if one.key in ticked),
        groups=groups_of(one for one in things if one.key not in ticked and not one.past),
        paying=PAYING,
        form=state,
    )


def _permit_choices(session: Session, here: Here) -> Choices:
    book = read_book(session, here)
    return tuple((one.code, f"{one.code} {one.name}") for one in book.permits.values())


def wait_page(session: Session, here: Here, wait_id: int, **states: FormState) -> WaitPage:
    hired, wait = get_wait(session, here.build.id, wait_id)
    papers = list_papers(session, here.build.id)
    paper = next((one for one in papers if one.id == wait.paper_id), None)
    own = [one for one in papers if one.stands and (AboutKind.HIRED.value, hired.id) in one.about]
    waiting = waiting_results(session, here, hired, wait)
    day = here.today.isoformat()
    blank = FormState({"on": (day,), "shows": tuple(key for key, *_ in waiting) if _one_visit(waiting) else ()})
    return WaitPage(
        sheet=here.sheet("P3", "Hired trades", f"{wait.words}, from the {hired.trade}"),
        title=wait.words,
        trade=hired.trade,
        trade_href=f"{here.base}/hired/{hired.code}",
        wait=wait,
        says=how_it_stands(here.today, wait, paper),
        stops="Until it is here, what comes after stays stopped." if wait.open and wait.stops else "",
        paper_href=f"{here.base}/papers/{paper.code}" if paper else "",
        known=(("", "None of these"), *((one.code, f"{one.code} {one.name}") for one in own)),
        shows=tuple((key, words) for key, words, _ in waiting),
        rests=_rests_on(read_book(session, here), hired, wait.paper_id),
        here=f"{here.base}/hired/{hired.code}/waits/{wait.id}",
        came_form=states.get("came", blank),
        drop_form=states.get("drop", blank),
    )


def waiting_results(session: Session, here: Here, hired: HiredFacts, wait: WaitFacts) -> tuple[Waiting, ...]:
    """What the trade passed on that a card or report of it would show; nothing while something else is waited for."""
    if not wait.open or WaitKind(wait.kind) not in SHOWS:
        return ()
    book = read_book(session, here)
    results = passed_on_by(session, here.build.id, hired.id)
    return tuple((str(one.id), _result_words(book, one), one.visit_id) for one in results)


def _one_visit(waiting: Sequence[Waiting]) -> bool:
    return len({visit_id for _, _, visit_id in waiting}) == 1


def _result_words(book: Book, one: ResultFacts) -> str:
    place, day = book.name(one.surface_id), show_day(one.day, book.today)
    return f"{book.inspection(one.inspection_id).name}, {place}: {one.kind}, {day}"


def _rests_on(book: Book, hired: HiredFacts, paper_id: int | None) -> Choices:
    return tuple(
        (f"{book.base}/results/{one.id}", _result_words(book, one))
        for one in book.results
        if paper_id and one.paper_id == paper_id and one.hired_id == hired.id and one.state == ResultState.CURRENT
    )


def papers_known(papers: Sequence[PaperFacts]) -> dict[str, int]:
    """What the form of something that came may name."""
    return {one.code: one.id for one in papers}
