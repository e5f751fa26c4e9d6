"""The parts of writing a visit down: the visit with what is on record of it, a result, a correction, what else came."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.actions.corrections import show_pictures
from webapp.inspections.actions.visits import day_words, move_results, note_change
from webapp.inspections.models import AskedItem, Correction, Fee, Result, Visit
from webapp.inspections.rules.facts import InspectionFacts, ResultFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome, ResultState
from webapp.inspections.rules.record import NewAsked, NewCorrection, NewFee, NewResult, VisitRecord
from webapp.surfaces import store as surfaces
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict

WHOLE = "the whole building"


@dataclass(frozen=True, slots=True)
class Held:
    """A visit that is being written up, with what is on record of it already."""

    build_id: int
    visit: VisitFacts
    inspection: InspectionFacts
    on_record: dict[int | None, ResultFacts]


def place_names(session: Session, build_id: int) -> dict[int | None, str]:
    """What to call each surface, and the whole building under None."""
    named: dict[int | None, str] = {each.id: each.name for each in surfaces.list_surfaces(session, build_id)}
    return named | {None: WHOLE}


def held_visit(session: Session, build_id: int, visit_id: int) -> Held:
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
    return Held(build_id, visit, inspection, current)


def close_visit(session: Session, held: Held, outcome: Outcome, day: date, note: str) -> None:
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


def add_result(session: Session, held: Held, new: NewResult, record: VisitRecord) -> Result:
    result = Result(
        visit_id=held.visit.id,
        inspection_id=held.inspection.id,
        surface_id=new.surface_id,
        kind=new.kind.value,
        day=record.day,
        part=new.part,
        evidence=record.evidence.value,
        photo_id=record.photo_id,
        signed_by=record.signed_by,
        hired_id=record.hired_id,
        recorded_at=clock.now(),
    )
    session.add(result)
    session.flush()
    return result


def add_correction(session: Session, held: Held, new: NewCorrection, result_id: int, number: int) -> None:
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
        likely_min=new.likely_min,
        before_photo_id=new.photo_id,
    )
    session.add(correction)
    if new.photo_id is not None:
        session.flush()
        show_pictures(session, correction)


def add_rest(session: Session, held: Held, asked: tuple[NewAsked, ...], fee: NewFee | None, day: date) -> None:
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
