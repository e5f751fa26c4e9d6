"""Recording what came of a visit, and putting it right: my mistake, or theirs. A result is never overwritten."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.actions.visits import day_words, move_results, note_change
from webapp.inspections.models import AskedItem, Correction, CorrectionChange, Fee, Result, Visit
from webapp.inspections.rules.facts import InspectionFacts, ResultFacts, VisitFacts
from webapp.inspections.rules.kinds import Evidence, Outcome, ResultKind, ResultState
from webapp.inspections.rules.record import (
    NewAsked,
    NewCorrection,
    NewFee,
    NewResult,
    NotLookedAt,
    VisitRecord,
    clashes,
    twice,
)
from webapp.surfaces import store as surfaces
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict

MY_MISTAKE, THEIRS = "my mistake", "theirs"
WHOLE = "the whole building"


@dataclass(frozen=True, slots=True)
class _Held:
    """A visit that is being written up, with what is on record of it already."""

    build_id: int
    visit: VisitFacts
    inspection: InspectionFacts
    on_record: dict[int | None, ResultFacts]


def place_names(session: Session, build_id: int) -> dict[int | None, str]:
    """What to call each surface, and the whole building under None."""
    named: dict[int | None, str] = {each.id: each.name for each in surfaces.list_surfaces(session, build_id)}
    return named | {None: WHOLE}


def _held(session: Session, build_id: int, visit_id: int) -> _Held:
    visit = store.get_visit(session, build_id, visit_id)
    if visit.outcome == Outcome.CANCELLED:
        reason = Reason("This visit was called off. Book a new one; the old one stays in the history.")
        raise RuleBroken(Verdict((reason,)))
    inspection = store.get_inspection_by_id(session, build_id, visit.inspection_id)
    current = {
        each.surface_id: each
        for each in store.list_results_of(session, inspection.id)
        if each.visit_id == visit_id and each.state == ResultState.CURRENT
    }
    return _Held(build_id, visit, inspection, current)


def record_result(session: Session, build_id: int, visit_id: int, record: VisitRecord) -> tuple[int, ...]:
    """Write down what came of a visit; may be sent again with more of what was said. Returns the ids of new results.

    Raises RuleBroken when a surface has a result of this visit already, or a correction fits no result.
    """
    held = _held(session, build_id, visit_id)
    _check(session, held, record)
    _close_visit(session, held, Outcome.CAME, record.day, record.note)
    made = [_add_result(session, held, each, record) for each in record.results]
    at_place = {place: each.id for place, each in held.on_record.items()} | {
        each.surface_id: each.row_id for each in made
    }
    number = store.last_correction_number(session, build_id)
    for each in record.corrections:
        number += 1
        _add_correction(session, held, each, at_place[each.surface_id], number)
    _add_rest(session, held, record.asked, record.fee, record.day)
    session.flush()
    return tuple(each.row_id for each in made)


def _check(session: Session, held: _Held, record: VisitRecord) -> None:
    names = place_names(session, held.build_id)
    kinds: dict[int | None, str] = {place: each.kind for place, each in held.on_record.items()}
    places = {each.surface_id for each in record.results} | {each.surface_id for each in record.corrections}
    if not places <= set(held.inspection.places):
        raise NotFound(f"This {own('inspection')} does not look at that surface.")
    reasons = [Reason(clash.sentence) for clash in clashes(record, kinds, names)]
    for place in twice(record.results, kinds):
        sentence = f"{names[place]} has a result of this visit already: {kinds[place]}. Put that one right instead."
        reasons.append(Reason(sentence))
    if reasons:
        raise RuleBroken(Verdict(tuple(reasons)))


def _close_visit(session: Session, held: _Held, outcome: Outcome, day: date, note: str) -> None:
    visit = session.get_one(Visit, held.visit.id)
    note_change(session, held.visit.id, "outcome", visit.outcome, outcome.value)
    if held.on_record:
        move_results(session, held.visit, day, "")
    else:
        note_change(session, held.visit.id, "day", day_words(visit.day), day_words(day))
    if note and note != visit.note:
        note_change(session, held.visit.id, "note", visit.note or "none", note)
        visit.note = note
    visit.outcome, visit.day = outcome.value, day
    session.add(visit)


def _add_result(session: Session, held: _Held, new: NewResult, record: VisitRecord) -> Result:
    result = Result(
        visit_id=held.visit.id,
        inspection_id=held.inspection.id,
        surface_id=new.surface_id,
        kind=new.kind.value,
        day=record.day,
        part=new.part,
        evidence=record.evidence.value,
        photo_id=record.photo_id,
        recorded_at=clock.now(),
    )
    session.add(result)
    session.flush()
    return result


def _add_correction(session: Session, held: _Held, new: NewCorrection, result_id: int, number: int) -> None:
    correction = Correction(
        build_id=held.build_id,
        result_id=result_id,
        surface_id=new.surface_id,
        number=number,
        words=new.words,
        place=new.place,
        form=new.form.value,
        rule_cited=new.rule_cited,
        clears_by=new.clears_by.value,
    )
    session.add(correction)


def _add_rest(session: Session, held: _Held, asked: tuple[NewAsked, ...], fee: NewFee | None, day: date) -> None:
    for each in asked:
        item = AskedItem(
            build_id=held.build_id,
            inspection_id=held.inspection.id,
            surface_id=each.surface_id,
            visit_id=held.visit.id,
            words=each.words,
            source=each.source,
            asked_on=day,
            stops=each.stops,
        )
        session.add(item)
    if fee is not None:
        row = Fee(
            build_id=held.build_id,
            permit_id=held.inspection.permit_id,
            visit_id=held.visit.id,
            amount_cents=fee.amount_cents,
            why=fee.why,
            due_on=fee.due_on,
            stops_visits=fee.stops_visits,
        )
        session.add(row)


def not_ready(session: Session, build_id: int, visit_id: int, told: NotLookedAt) -> None:
    """Nothing was looked at: neither passed nor failed, the visit is still owed. A slip is kept with each surface.

    Raises RuleBroken when this visit has results.
    """
    held = _held(session, build_id, visit_id)
    if held.on_record:
        reason = Reason("This visit has results, so something was looked at. Put those right first.")
        raise RuleBroken(Verdict((reason,)))
    _close_visit(session, held, Outcome.NO_ENTRY if told.no_entry else Outcome.NOT_READY, told.day, "")
    visit = session.get_one(Visit, visit_id)
    visit.reason = told.reason
    session.add(visit)
    if told.photo_id is not None:
        slip = VisitRecord(told.day, evidence=told.evidence, photo_id=told.photo_id)
        for place in held.inspection.places:
            _add_result(session, held, NewResult(place, ResultKind.NOT_LOOKED_AT), slip)
    _add_rest(session, held, told.asked, told.fee, told.day)
    session.flush()


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
    evidence: Evidence | None = None,
    photo_id: int | None = None,
) -> int:
    """I typed a result wrong: a new one stands in its place, the old one stays readable. Returns the new one's id.

    Its corrections go with it, also to another surface. Raises RuleBroken when that surface has a result of this visit.
    """
    facts, result = _current(session, build_id, result_id)
    held = _held(session, build_id, facts.visit_id)
    if new.surface_id not in held.inspection.places:
        raise NotFound(f"This {own('inspection')} does not look at that surface.")
    if new.surface_id != facts.surface_id and new.surface_id in held.on_record:
        name = place_names(session, build_id)[new.surface_id]
        reason = Reason(f"{name} has a result of this visit already. Put that one right instead.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
    paper = VisitRecord(facts.day, evidence=evidence or Evidence(facts.evidence), photo_id=photo_id or result.photo_id)
    made = _add_result(session, held, new, paper)
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
