"""The paper that a result rests on, attached once it is there. What it rested on before stays readable."""

from dataclasses import replace

from sqlmodel import Session

from webapp.inspections import store
from webapp.inspections.actions.visits import note_change
from webapp.inspections.models import Result
from webapp.inspections.rules.facts import ResultFacts
from webapp.inspections.rules.kinds import Evidence, ResultState
from webapp.inspections.rules.record import AttachedPaper
from webapp.inspections.rules.results import said_by
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict


def attach_paper(session: Session, build_id: int, result_id: int, paper: AttachedPaper) -> None:
    """The paper of one result. A pass that was only passed on counts from then on.

    Raises RuleBroken for a result that was replaced or taken back, and for a paper that is none.
    """
    result = store.get_result(session, build_id, result_id)
    if result.state != ResultState.CURRENT:
        _refuse(f"This result is {result.state} already; no paper makes it count again.")
    _attach(session, result, paper)


def attach_to_visit(session: Session, build_id: int, visit_id: int, paper: AttachedPaper) -> int:
    """One card for all that was said at a visit: every current result of it without a paper. Returns how many."""
    visit = store.get_visit(session, build_id, visit_id)
    results = store.list_results_of(session, visit.inspection_id)
    bare = [each for each in results if each.visit_id == visit_id and _is_bare(each)]
    for each in bare:
        _attach(session, each, paper)
    return len(bare)


def passed_on_by(session: Session, build_id: int, hired_id: int) -> tuple[ResultFacts, ...]:
    """What a hired trade passed on by word and what still waits for its card or report."""
    results = store.list_results(session, build_id)
    return tuple(
        one for one in results if one.hired_id == hired_id and one.on_word and one.state == ResultState.CURRENT
    )


def word_again(session: Session, build_id: int, hired_id: int, paper_id: int, why: str) -> int:
    """The paper was not it after all: what the trade passed on is its word again. Returns of how many results."""
    results = [
        one
        for one in store.list_results(session, build_id)
        if one.hired_id == hired_id and one.paper_id == paper_id and one.state == ResultState.CURRENT
    ]
    for before in results:
        row = session.get_one(Result, before.id)
        row.evidence, row.paper_id = Evidence.THEIR_WORD.value, None
        session.add(row)
        became = said_by(replace(before, evidence=row.evidence, paper_id=None))
        note_change(session, before.visit_id, f"paper of result {before.id}", said_by(before), became, why)
    return len(results)


def _is_bare(result: ResultFacts) -> bool:
    rests_on_a_paper = result.has_paper and result.evidence not in {Evidence.MY_NOTE, Evidence.THEIR_WORD}
    return result.state == ResultState.CURRENT and not rests_on_a_paper


def _attach(session: Session, before: ResultFacts, paper: AttachedPaper) -> None:
    if paper.evidence in {Evidence.MY_NOTE, Evidence.THEIR_WORD}:
        _refuse("Say what paper it is: the card, a notice, a slip, a letter or report.")
    row = session.get_one(Result, before.id)
    row.evidence, row.paper_id = paper.evidence.value, paper.paper_id
    row.photo_id = paper.photo_id or row.photo_id
    row.signed_by = paper.signed_by or row.signed_by
    session.add(row)
    note_change(session, before.visit_id, f"paper of result {before.id}", said_by(before), paper.evidence.value)


def _refuse(sentence: str) -> None:
    raise RuleBroken(Verdict((Reason(sentence),)), heading="Not attached")
