"""P3: hired trades: what they do, under which permit, who said what, what is still waited for, bills and papers."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.hired.rules.kinds import WaitKind
from webapp.hired.store import (
    HiredChangeFacts,
    HiredFacts,
    WaitFacts,
    get_hired,
    list_hired,
    list_hired_changes,
)
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.pages.naming import name_things
from webapp.inspections.store.hired import permit_codes_of
from webapp.money.store import SpendFacts, list_spend
from webapp.papers.rules.kinds import AboutKind
from webapp.papers.rules.things import Thing
from webapp.papers.store import PaperFacts, list_papers
from webapp.plan.guard import Here
from webapp.values.dates import show_date, show_day
from webapp.values.money import show_amount
from webapp.values.words import join_words, plural

Choices = tuple[tuple[str, str], ...]
PAYING = (
    "Paying people can bring duties: tax, insurance, a licence that covers the work. Studbay only reminds; ask "
    "somebody who knows before you pay."
)
HIRED_KIND = "hired"


@dataclass(frozen=True, slots=True)
class HiredLine:
    """One trade in the list. `waits`: what is still waited for, in words."""

    title: str
    detail: str
    waits: str
    href: str


@dataclass(frozen=True, slots=True)
class HiredList:
    sheet: Sheet
    lines: tuple[HiredLine, ...]
    ended: tuple[HiredLine, ...]
    new: str


@dataclass(frozen=True, slots=True)
class WaitLine:
    """One thing waited for, or that came."""

    words: str
    detail: str
    href: str
    stops: bool
    open: bool


@dataclass(frozen=True, slots=True)
class SaidLine:
    """One inspection of the trade's own permit. `word`: where its word that it passed is written down."""

    name: str
    stands: str
    href: str
    word: str


@dataclass(frozen=True, slots=True)
class HiredPage:
    """One trade. Name, licence and how to reach it are private: this sheet is for the builder alone."""

    sheet: Sheet
    hired: HiredFacts
    title: str
    lede: str
    facts: tuple[tuple[str, str], ...]
    parts: tuple[Thing, ...]
    permit: str
    permit_href: str
    said: tuple[SaidLine, ...]
    waits: tuple[WaitLine, ...]
    came: tuple[WaitLine, ...]
    bills: tuple[SpendFacts, ...]
    paid: str
    bill_choices: Choices
    kinds: Choices
    changes: tuple[HiredChangeFacts, ...]
    paying: str
    new_paper: str
    here: str
    wait_form: FormState
    bill_form: FormState
    end_form: FormState
    gone: str


def hired_list(session: Session, here: Here) -> HiredList:
    every = list_hired(session, here.build.id)
    lines = [(one, _line(here, one)) for one in every]
    return HiredList(
        sheet=here.sheet("P3", "Hired trades"),
        lines=tuple(line for one, line in lines if one.ended_on is None),
        ended=tuple(line for one, line in lines if one.ended_on is not None),
        new=f"{here.base}/hired/new",
    )


def _line(here: Here, one: HiredFacts) -> HiredLine:
    waiting = [wait.words for wait in one.waits if wait.open]
    since = f"Done here since {show_date(one.ended_on)}." if one.ended_on else ""
    does = f"{one.does.rstrip('.')}." if one.does else ""
    return HiredLine(
        title=first_up(one.trade),
        detail=" ".join(part for part in (does, since) if part),
        waits=f"Waiting for: {join_words(waiting)}" if waiting else "",
        href=f"{here.base}/hired/{one.code}",
    )


def hired_page(session: Session, here: Here, code: str, **states: FormState) -> HiredPage:
    """`states`: a form that was not taken, as wait, bill or end."""
    hired, things = get_hired(session, here.build.id, code), name_things(session, here)
    permit = permit_codes_of(session, here.build.id).get(hired.id, "")
    spend = list_spend(session, here.build.id)
    papers = {one.id: one for one in list_papers(session, here.build.id)}
    bills = tuple(one for one in spend if one.id in hired.spend_ids)
    lines = [(wait.open, _wait_line(here, hired, wait, papers)) for wait in hired.waits]
    base = f"{here.base}/hired/{hired.code}"
    return HiredPage(
        sheet=here.sheet("P3", "Hired trades", first_up(hired.trade)),
        hired=hired,
        title=first_up(hired.trade),
        lede=_lede(hired),
        facts=_facts(hired),
        parts=tuple(thing for thing in things if (thing.kind, thing.id) in hired.parts),
        permit=permit,
        permit_href=f"{here.base}/permits/{permit}" if permit else "",
        said=_said(read_book(session, here), permit, hired.id),
        waits=tuple(line for still, line in lines if still),
        came=tuple(line for still, line in lines if not still),
        bills=bills,
        paid=show_amount(sum(one.total_cents for one in bills)) if bills else "",
        bill_choices=(
            ("", "Choose a line"),
            *(
                (str(one.id), f"{show_day(one.day, here.today)}, {one.what}, {show_amount(one.total_cents)}")
                for one in spend
                if one.kind == HIRED_KIND and one.id not in hired.spend_ids
            ),
        ),
        kinds=tuple((each.value, first_up(each)) for each in WaitKind),
        changes=list_hired_changes(session, hired.id),
        paying=PAYING,
        new_paper=f"{here.base}/papers/new?about={AboutKind.HIRED}:{hired.id}",
        here=base,
        wait_form=states.get("wait", FormState.of(wait_kind=WaitKind.CARD.value, stops="yes")),
        bill_form=states.get("bill", FormState()),
        end_form=states.get("end", FormState.of(on=here.today.isoformat())),
        gone=f"Done here since {show_date(hired.ended_on)}." if hired.ended_on else "",
    )


def bills_offered(session: Session, build_id: int) -> dict[str, int]:
    """What the form of a bill may send."""
    return {str(one.id): one.id for one in list_spend(session, build_id)}


def _lede(hired: HiredFacts) -> str:
    stops = [wait.words for wait in hired.waits if wait.open and wait.stops]
    if stops:
        return f"Waiting for: {join_words(stops)}. Until then what comes after it stays stopped."
    waiting = sum(wait.open for wait in hired.waits)
    return f"{plural(waiting, 'thing')} still waited for; nothing is stopped by it." if waiting else ""


def _facts(hired: HiredFacts) -> tuple[tuple[str, str], ...]:
    seen = ", ".join(
        part
        for part in (show_date(hired.licence_seen_on) if hired.licence_seen_on else "", hired.licence_seen_how)
        if part
    )
    return (
        ("Name, private", hired.name or "not said"),
        ("Licence, private", hired.licence or "not said"),
        ("Licence seen", seen or "not yet"),
        ("Insured", hired.insured or "not said"),
        ("How to reach, private", hired.reach or "not said"),
        ("Does", hired.does or "not said"),
    )


def _said(book: Book, permit: str, hired_id: int) -> tuple[SaidLine, ...]:
    """Each inspection of its own permit, where it stands, and where its word goes."""
    found = []
    for kind in book.inspections:
        if permit and book.permits[kind.permit_id].code == permit:
            ahead = book.next_visit(kind)
            href = f"{book.base}/inspections/{kind.code}"
            word = f"{book.base}/visits/{ahead.id}?hired={hired_id}" if ahead else f"{href}#book"
            found.append(SaidLine(kind.name, book.summary(kind), href, word))
    return tuple(found)


def _wait_line(here: Here, hired: HiredFacts, wait: WaitFacts, papers: dict[int, PaperFacts]) -> WaitLine:
    return WaitLine(
        words=wait.words,
        detail=how_it_stands(here.today, wait, papers.get(wait.paper_id or 0)),
        href=f"{here.base}/hired/{hired.code}/waits/{wait.id}",
        stops=wait.stops,
        open=wait.open,
    )


def how_it_stands(today: date, wait: WaitFacts, paper: PaperFacts | None) -> str:
    if wait.came_on:
        kept = f" Kept as {paper.code} {paper.name}." if paper else " No paper of it."
        return f"Came {show_day(wait.came_on, today)}.{kept}"
    if wait.dropped_on:
        return f"Waited for no more since {show_day(wait.dropped_on, today)}: {wait.dropped_why.rstrip('.')}."
    asked = f"Asked for {show_day(wait.asked_on, today)}." if wait.asked_on else "Not asked for yet."
    return f"{first_up(wait.kind)}. {asked}{' It stops what comes after.' if wait.stops else ''}"


def first_up(words: str) -> str:
    return f"{words[:1].upper()}{words[1:]}"
