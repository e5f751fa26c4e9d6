"""Hired trades: put on record, put right, what they do, what is waited for, which bill is theirs."""

from dataclasses import dataclass, fields
from datetime import date

from sqlmodel import Session, col, select

from webapp.core import clock
from webapp.hired import store
from webapp.hired.models import Hired, HiredChange, HiredPart, HiredSpend, HiredWait
from webapp.hired.rules.kinds import WaitKind
from webapp.hired.store import Part
from webapp.money.store import get_spend
from webapp.papers.store import paper_by_id
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict

NOT_SAID = "not said"
LABELS = {
    "trade": "Trade",
    "name": "Name",
    "licence": "Licence",
    "licence_seen_on": "Licence seen on",
    "licence_seen_how": "How I saw it",
    "insured": "Insured",
    "reach": "How to reach",
    "does": "Does",
    "note": "Note",
}


@dataclass(frozen=True, slots=True)
class HiredDraft:
    """A hired trade as the builder says it. Name, licence and how to reach them are private."""

    trade: str
    name: str = ""
    licence: str = ""
    licence_seen_on: date | None = None
    licence_seen_how: str = ""
    insured: str = ""
    reach: str = ""
    does: str = ""
    note: str = ""


@dataclass(frozen=True, slots=True)
class WaitDraft:
    """Something still waited for. While it `stops`, what the trade does counts as not finished."""

    kind: WaitKind
    words: str
    stops: bool = False
    asked_on: date | None = None


def add_hired(session: Session, build_id: int, draft: HiredDraft, parts: tuple[Part, ...] = ()) -> Hired:
    """Put a hired trade on record. It gets the next free short name."""
    number = len(session.exec(select(Hired.id).where(col(Hired.build_id) == build_id)).all()) + 1
    values = {each.name: getattr(draft, each.name) for each in fields(draft)}
    hired = Hired(build_id=build_id, code=f"H{number:02d}", recorded_at=clock.now(), **values)
    session.add(hired)
    session.flush()
    _does_parts(session, hired.row_id, parts)
    return hired


def amend_hired(
    session: Session, build_id: int, code: str, draft: HiredDraft, parts: tuple[Part, ...], why: str
) -> None:
    """Put right what is said of a trade; each part keeps what it was."""
    hired = session.get_one(Hired, store.get_hired(session, build_id, code).id)
    for name, label in LABELS.items():
        was, became = getattr(hired, name), getattr(draft, name)
        if was != became:
            note_change(session, hired.row_id, label, _said(was), _said(became), why)
            setattr(hired, name, became)
    session.add(hired)
    _does_parts(session, hired.row_id, parts)


def note_change(session: Session, hired_id: int, field: str, was: str, became: str, why: str = "") -> None:
    """Keep what was on record before."""
    change = HiredChange(hired_id=hired_id, field=field, was=was, became=became, why=why, at=clock.now())
    session.add(change)


def _said(value: object) -> str:
    return show_date(value) if isinstance(value, date) else str(value or NOT_SAID)


def _does_parts(session: Session, hired_id: int, parts: tuple[Part, ...]) -> None:
    there = session.exec(select(HiredPart).where(col(HiredPart.hired_id) == hired_id)).all()
    for row in there:
        if (row.part_kind, row.part_id) not in parts:
            session.delete(row)
    known = {(row.part_kind, row.part_id) for row in there}
    for kind, part_id in dict.fromkeys(parts):
        if (kind, part_id) not in known:
            session.add(HiredPart(hired_id=hired_id, part_kind=kind, part_id=part_id))
    session.flush()


def wait_for(session: Session, build_id: int, code: str, draft: WaitDraft) -> HiredWait:
    """Something is waited for from now on."""
    hired = store.get_hired(session, build_id, code)
    wait = HiredWait(
        hired_id=hired.id,
        kind=draft.kind,
        words=draft.words,
        stops=draft.stops,
        asked_on=draft.asked_on,
        recorded_at=clock.now(),
    )
    session.add(wait)
    session.flush()
    return wait


def it_came(session: Session, build_id: int, wait_id: int, on: date, paper_id: int | None) -> None:
    """What was waited for is there, with the paper it came as. What stops needs one: a word alone frees nothing."""
    wait = _open(session, build_id, wait_id)
    if wait.stops and paper_id is None:
        raise RuleBroken(Verdict((Reason("Attach the card or report: until it is here, it stops what it stops."),)))
    if paper_id is not None:
        paper_by_id(session, build_id, paper_id)
    wait.came_on, wait.paper_id = on, paper_id
    session.add(wait)
    session.flush()


def drop_wait(session: Session, build_id: int, wait_id: int, on: date, why: str) -> None:
    """It is waited for no more, with the reason; the line stays."""
    wait = _open(session, build_id, wait_id)
    wait.dropped_on, wait.dropped_why = on, why
    session.add(wait)
    session.flush()


def _open(session: Session, build_id: int, wait_id: int) -> HiredWait:
    _, found = store.get_wait(session, build_id, wait_id)
    if not found.open:
        raise RuleBroken(Verdict((Reason("This is not waited for any more."),)))
    return session.get_one(HiredWait, wait_id)


def wait_again(session: Session, build_id: int, wait_id: int, why: str) -> None:
    """It did not come after all, or is wanted after all: it is waited for again. What was said stays readable."""
    hired, found = store.get_wait(session, build_id, wait_id)
    wait = session.get_one(HiredWait, wait_id)
    day = found.came_on or found.dropped_on
    if day is None:
        raise RuleBroken(Verdict((Reason("This is waited for still."),)))
    was = f"{'came' if found.came_on else 'not wanted'} {show_date(day)}"
    note_change(session, hired.id, found.words, was, "waited for again", why)
    wait.came_on = wait.dropped_on = wait.paper_id = None
    wait.dropped_why = ""
    session.add(wait)
    session.flush()


def link_bill(session: Session, build_id: int, code: str, spend_id: int) -> None:
    """A line of spend is a bill of this trade. Saying it again changes nothing."""
    hired = store.get_hired(session, build_id, code)
    get_spend(session, build_id, spend_id)
    if spend_id not in hired.spend_ids:
        session.add(HiredSpend(hired_id=hired.id, spend_id=spend_id))
        session.flush()


def end_hired(session: Session, build_id: int, code: str, on: date | None) -> None:
    """They are done here since this day, and stay listed; None takes that back."""
    hired = session.get_one(Hired, store.get_hired(session, build_id, code).id)
    note_change(session, hired.row_id, "Done here since", _said(hired.ended_on), _said(on))
    hired.ended_on = on
    session.add(hired)
    session.flush()
