"""Putting a result right: my mistake, or theirs. A result is never overwritten."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.actions.writing import add_result, held_visit, place_names
from webapp.inspections.models import Correction, CorrectionChange, Result
from webapp.inspections.rules.facts import ResultFacts
from webapp.inspections.rules.kinds import Evidence, ResultState
from webapp.inspections.rules.record import NewResult, RestsOn, VisitRecord
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict

MY_MISTAKE, THEIRS = "my mistake", "theirs"


def _current(session: Session, build_id: int, result_id: int) -> tuple[ResultFacts, Result]:
    facts = store.get_result(session, build_id, result_id)
    if facts.state != ResultState.CURRENT:
        reason = Reason(f"This result is {facts.state} already; it stays as it is.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
    return facts, session.get_one(Result, result_id)


def withdraw_result(
    session: Session, build_id: int, result_id: int, on: date, who: str, why: str, letter_id: int | None = None
) -> None:
    """The authority took a result back. What relied on it is locked again, since nothing but current results counts."""
    _, result = _current(session, build_id, result_id)
    result.state, result.changed_by = ResultState.WITHDRAWN.value, THEIRS
    result.changed_on, result.changed_who, result.changed_why = on, who, why
    result.changed_photo_id = letter_id
    session.add(result)


def correct_result(
    session: Session,
    build_id: int,
    result_id: int,
    new: NewResult,
    on: date,
    why: str,
    rests: RestsOn | None = None,
) -> int:
    """I typed a result wrong: a new one stands in its place, the old one stays readable. Returns the new one's id.
    `rests`: what it rests on, as before when None; its picture as before where none came with it.

    Its corrections go with it, also to another surface. Raises RuleBroken when that surface has a result of this visit.
    """
    facts, result = _current(session, build_id, result_id)
    held = held_visit(session, build_id, facts.visit_id)
    if new.surface_id not in held.inspection.places:
        raise NotFound(f"This {own('inspection')} does not look at that surface.")
    if new.surface_id != facts.surface_id and new.surface_id in held.on_record:
        name = place_names(session, build_id)[new.surface_id]
        reason = Reason(f"{name} has a result of this visit already. Put that one right instead.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
    paper = VisitRecord(
        facts.day,
        evidence=rests.evidence if rests else Evidence(facts.evidence),
        photo_id=(rests and rests.photo_id) or result.photo_id,
        signed_by=rests.signed_by if rests else facts.signed_by,
        hired_id=rests.hired_id if rests else facts.hired_id,
    )
    made = add_result(session, held, new, paper)
    if Evidence(made.evidence) not in {Evidence.MY_NOTE, Evidence.THEIR_WORD}:
        made.paper_id = facts.paper_id
    result.state, result.changed_by, result.changed_who = ResultState.REPLACED.value, MY_MISTAKE, "me"
    result.changed_on, result.changed_why, result.replaced_by_id = on, why, made.row_id
    session.add(result)
    _carry_over(session, build_id, facts, made, on)
    session.flush()
    return made.row_id


def _carry_over(session: Session, build_id: int, old: ResultFacts, made: Result, on: date) -> None:
    names = place_names(session, build_id)
    for facts in store.list_corrections_of(session, old.inspection_id):
        if facts.result_id != old.id:
            continue
        correction = session.get_one(Correction, facts.id)
        correction.result_id = made.row_id
        if facts.surface_id == old.surface_id != made.surface_id:
            correction.surface_id = made.surface_id
            was, became = f"on {names[old.surface_id]}", f"on {names[made.surface_id]}"
            why = "the result was put right"
            change = CorrectionChange(
                correction_id=facts.id, was=was, became=became, on_day=on, why=why, at=clock.now()
            )
            session.add(change)
        session.add(correction)
