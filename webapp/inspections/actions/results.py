"""Recording what came of a visit. Wholly or not at all; a result is never overwritten."""

from dataclasses import replace
from datetime import date

from sqlmodel import Session

from webapp.inspections import store
from webapp.inspections.actions.corrections import clear_correction
from webapp.inspections.actions.evidence import attach_to_visit
from webapp.inspections.actions.put_right import correct_result
from webapp.inspections.actions.visits import book_visit
from webapp.inspections.actions.writing import (
    Held,
    add_correction,
    add_rest,
    add_result,
    close_visit,
    held_visit,
    place_names,
)
from webapp.inspections.models import Visit
from webapp.inspections.rules.corrections import is_cleared
from webapp.inspections.rules.kinds import Evidence, Outcome, ResultKind
from webapp.inspections.rules.record import (
    AttachedPaper,
    NewResult,
    NotLookedAt,
    RestsOn,
    VisitRecord,
    clashes,
    twice,
)
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict

SAID_AGAIN = "said otherwise on the form of the same visit"


def record_result(
    session: Session, build_id: int, visit_id: int, record: VisitRecord, today: date | None = None
) -> tuple[int, ...]:
    """Write down what came of a visit; may be sent again with more of what was said. Returns the ids of new results.

    A surface that was said otherwise is put right in its place, or belongs to a second visit of that day, as the
    record says. A paper that comes now goes to what was said without one. `today`: the day of putting right.
    Raises RuleBroken when a surface has a result of this visit already, or a correction fits no result.
    """
    second, record = _parted(record)
    held = held_visit(session, build_id, visit_id)
    _check(session, held, record)
    if held.on_record:
        _attach(session, held, record)
    close_visit(session, held, Outcome.CAME, record.day, record.note)
    made = {each.surface_id: add_result(session, held, each, record).row_id for each in record.results}
    at_place = {place: each.id for place, each in held.on_record.items()} | made
    for each in record.replaced:
        old = held.on_record[each.surface_id].id
        changed_on = today or record.day
        at_place[each.surface_id] = correct_result(
            session, build_id, old, each, changed_on, SAID_AGAIN, _rests_on(record)
        )
    first = store.last_correction_number(session, build_id) + 1
    for number, one in enumerate(record.corrections, first):
        add_correction(session, held, one, at_place[one.surface_id], number)
    add_rest(session, held, record.asked, record.fee, record.day)
    session.flush()
    if second is not None:
        _second_visit(session, held, second)
    _clear_seen(session, held, record)
    return tuple(made.values())


def _rests_on(record: VisitRecord) -> RestsOn | None:
    """What the record says it rests on; None where nothing was said of that, so that it rests on what it did."""
    if record.photo_id is None and record.evidence == Evidence.MY_NOTE:
        return None
    return RestsOn(record.evidence, record.photo_id, record.signed_by, record.hired_id)


def _parted(record: VisitRecord) -> tuple[VisitRecord | None, VisitRecord]:
    """What belongs to a second visit of the day, with its corrections, and the rest."""
    if not record.second:
        return None, record
    places = {each.surface_id for each in record.second}
    theirs = tuple(each for each in record.corrections if each.surface_id in places)
    ours = tuple(each for each in record.corrections if each.surface_id not in places)
    second = VisitRecord(
        record.day,
        record.second,
        theirs,
        evidence=record.evidence,
        photo_id=record.photo_id,
        signed_by=record.signed_by,
        hired_id=record.hired_id,
    )
    return second, replace(record, corrections=ours, second=())


def _attach(session: Session, held: Held, record: VisitRecord) -> None:
    if record.photo_id is not None and record.evidence not in {Evidence.MY_NOTE, Evidence.THEIR_WORD}:
        paper = AttachedPaper(record.evidence, record.photo_id, record.signed_by)
        attach_to_visit(session, held.build_id, held.visit.id, paper)


def _second_visit(session: Session, held: Held, second: VisitRecord) -> None:
    """It was asked for with the first one, so no fee can stand in its way."""
    visit = book_visit(session, held.build_id, held.inspection.id, second.day)
    visit.outcome, visit.asked_on = Outcome.ASKED.value, held.visit.asked_on
    session.flush()
    record_result(session, held.build_id, visit.row_id, second)


def _clear_seen(session: Session, held: Held, record: VisitRecord) -> None:
    """Corrections of before that the inspector saw in order; a pass of their surface has cleared some already."""
    results = store.list_results_of(session, held.inspection.id)
    for each in store.list_corrections_of(session, held.inspection.id):
        if each.id in record.seen and not is_cleared(each, results):
            who = record.signed_by or f"the {held.inspection.who}"
            clear_correction(session, held.build_id, each.id, record.day, who, "seen at the visit")


def _check(session: Session, held: Held, record: VisitRecord) -> None:
    names = place_names(session, held.build_id)
    kinds: dict[int | None, str] = {place: each.kind for place, each in held.on_record.items()}
    places = {each.surface_id for each in (*record.results, *record.replaced)}
    if not places | {each.surface_id for each in record.corrections} <= set(held.inspection.places):
        raise NotFound(f"This {own('inspection')} does not look at that surface.")
    again = {each.surface_id: each.kind.value for each in record.replaced}
    reasons = [Reason(clash.sentence) for clash in clashes(record, kinds | again, names)]
    for place in twice(record.results, kinds):
        sentence = f"{names[place]} has a result of this visit already: {kinds[place]}. Put that one right instead."
        reasons.append(Reason(sentence))
    if reasons:
        raise RuleBroken(Verdict(tuple(reasons)))


def not_ready(session: Session, build_id: int, visit_id: int, told: NotLookedAt) -> None:
    """Nothing was looked at: neither passed nor failed, the visit is still owed. A slip is kept with each surface.

    Raises RuleBroken when this visit has results.
    """
    held = held_visit(session, build_id, visit_id)
    if held.on_record:
        reason = Reason("This visit has results, so something was looked at. Put those right first.")
        raise RuleBroken(Verdict((reason,)))
    close_visit(session, held, Outcome.NO_ENTRY if told.no_entry else Outcome.NOT_READY, told.day, "")
    visit = session.get_one(Visit, visit_id)
    visit.reason = told.reason
    session.add(visit)
    if told.photo_id is not None:
        slip = VisitRecord(
            told.day,
            evidence=told.evidence,
            photo_id=told.photo_id,
            signed_by=told.signed_by,
            hired_id=told.hired_id,
        )
        for place in held.inspection.places:
            add_result(session, held, NewResult(place, ResultKind.NOT_LOOKED_AT), slip)
    add_rest(session, held, told.asked, told.fee, told.day)
    session.flush()
