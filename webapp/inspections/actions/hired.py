"""A hired trade works under its own permit, and its card or report is what its word waited for."""

from collections.abc import Collection
from datetime import date

from sqlmodel import Session, col, select

from webapp.hired import actions as hired
from webapp.hired.rules.kinds import WaitKind
from webapp.hired.store import HiredFacts, WaitFacts, get_wait
from webapp.inspections.actions.evidence import attach_paper, word_again
from webapp.inspections.models import Permit
from webapp.inspections.rules.kinds import Evidence
from webapp.inspections.rules.record import AttachedPaper
from webapp.papers.actions import PaperDraft, Taken, add_paper
from webapp.papers.rules.kinds import AboutKind, PaperKind
from webapp.papers.rules.things import About

KEPT_AS = {
    WaitKind.CARD: PaperKind.CARD,
    WaitKind.REPORT: PaperKind.LETTER,
    WaitKind.PERMIT: PaperKind.CARD,
    WaitKind.INVOICE: PaperKind.INVOICE,
    WaitKind.WARRANTY: PaperKind.WARRANTY,
    WaitKind.INSTRUCTIONS: PaperKind.MAKER,
    WaitKind.OTHER: PaperKind.OTHER,
}
"""what something waited for is kept as"""
SHOWS = {WaitKind.CARD: Evidence.CARD, WaitKind.REPORT: Evidence.LETTER}
"""what of it a result can rest on"""


def works_under(session: Session, build_id: int, hired_id: int, code: str) -> None:
    """Say which permit a trade works under; empty for none of its own. What was said before stays readable."""
    permits = session.exec(select(Permit).where(col(Permit.build_id) == build_id)).all()
    was = next((permit.code for permit in permits if permit.hired_id == hired_id), "")
    if was == code:
        return
    for permit in permits:
        if permit.hired_id == hired_id:
            permit.hired_id = None
        if permit.code == code:
            permit.hired_id = hired_id
        session.add(permit)
    hired.note_change(session, hired_id, "Own permit", was or hired.NOT_SAID, code or hired.NOT_SAID)
    session.flush()


def keep_what_came(
    session: Session, build_id: int, one: HiredFacts, wait: WaitFacts, taken: Taken, on: date, about: Collection[About]
) -> int:
    """What was sent as what was waited for, kept among the papers, filed under the trade, its parts and `about`."""
    filed = ((AboutKind.HIRED.value, one.id), *one.parts, *about)
    draft = PaperDraft(KEPT_AS[WaitKind(wait.kind)], f"{wait.words}, {one.trade}", on, taken=taken, about=filed)
    return add_paper(session, build_id, draft).row_id


def it_came(
    session: Session, build_id: int, wait_id: int, on: date, paper_id: int | None, result_ids: Collection[int] = ()
) -> None:
    """What was waited for is there; the results it is the card or report of rest on it from then on."""
    hired.it_came(session, build_id, wait_id, on, paper_id)
    _, wait = get_wait(session, build_id, wait_id)
    evidence = SHOWS.get(WaitKind(wait.kind))
    if evidence is None or paper_id is None:
        return
    for result_id in result_ids:
        attach_paper(session, build_id, result_id, AttachedPaper(evidence, paper_id=paper_id))


def wait_again(session: Session, build_id: int, wait_id: int, why: str) -> int:
    """It is waited for again, and what rested on it is the trade's word again. Returns how many results that were."""
    one, wait = get_wait(session, build_id, wait_id)
    hired.wait_again(session, build_id, wait_id, why)
    return word_again(session, build_id, one.id, wait.paper_id, why) if wait.paper_id else 0


def attach_what_came(
    session: Session, build_id: int, result_id: int, paper: AttachedPaper, wait_id: int, on: date, about: About
) -> None:
    """A card attached at a result that is also what is waited for from the trade: one paper, both cleared."""
    one, wait = get_wait(session, build_id, wait_id)
    kept = keep_what_came(session, build_id, one, wait, Taken(photo_id=paper.photo_id), on, (about,))
    hired.it_came(session, build_id, wait_id, on, kept)
    attach_paper(session, build_id, result_id, AttachedPaper(paper.evidence, None, paper.signed_by, kept))
