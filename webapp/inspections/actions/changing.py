"""A change from what was approved: recorded with all it touches at once, asked about, answered, put right."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.footage import actions as footage
from webapp.footage.actions import ShotDraft
from webapp.footage.store import get_shot
from webapp.inspections import store
from webapp.inspections.models import (
    InspectionChange,
    InspectionSurface,
    PlanChange,
    PlanChangeHistory,
    PlanChangeItem,
    PlanChangeSurface,
    Reopened,
)
from webapp.inspections.rules.changing import Answer, Change, Move, Touched, is_back
from webapp.inspections.rules.kinds import ChangeAnswer
from webapp.plan import actions as plan
from webapp.plan.actions import PlannedTask, TypedNeed
from webapp.plan.rules.ends import end_key
from webapp.plan.rules.kinds import NeedKind
from webapp.plan.store import BuildFacts, get_task
from webapp.surfaces import actions as surfaces
from webapp.surfaces import store as walls
from webapp.surfaces.actions import ItemDraft
from webapp.values.dates import show_date

BACK = "It is back where it was approved."


def move_thing(session: Session, build_id: int, move: Move, on: date) -> int:
    """Put a hidden thing elsewhere, also on another surface; the old place stays on record. Returns the new id."""
    old = walls.get_item(session, build_id, move.item_id)
    draft = ItemDraft(
        label=old.label,
        kind=old.kind,
        service=old.service,
        line_id=old.line_id,
        from_corner=move.from_corner,
        x_nm=move.x_nm,
        y_nm=move.y_nm,
        width_nm=old.width_nm,
        note=old.note,
        is_box=old.is_box,
    )
    return surfaces.move_item(session, build_id, old.id, draft, on, move.surface_id).row_id


def record_change(
    session: Session, build: BuildFacts, change: Change, touched: Touched, move: Move | None = None
) -> int:
    """Write a change down with everything it touches, wholly or not at all. Returns its id.

    What was said before it of the inspections it reopens counts no more and stays readable; the authority's word on
    them ends as well. What goes back to where it was needs nobody's approval.
    """
    back = move is not None and is_back(move, walls.list_items(session, build.id))
    row = PlanChange(
        build_id=build.id,
        on_day=change.on_day,
        what=change.what,
        why=change.why,
        who_agrees=change.who_agrees,
        asked_on=change.asked_on,
        answer=(ChangeAnswer.NOT_NEEDED if back else ChangeAnswer.NONE).value,
        answered_on=change.on_day if back else None,
        answer_words=BACK if back else "",
        at=clock.now(),
    )
    session.add(row)
    session.flush()
    if move is not None:
        move_thing(session, build.id, move, change.on_day)
        session.add(PlanChangeItem(change_id=row.row_id, item_id=move.item_id))
    for surface_id in touched.surface_ids:
        walls.surface_by_id(session, build.id, surface_id)
        session.add(PlanChangeSurface(change_id=row.row_id, surface_id=surface_id))
    _reopen(session, build, row, touched)
    _film_again(session, build.id, row, touched)
    _do_again(session, build, touched)
    surfaces.retake(session, build.id, touched.slot_ids, change.on_day)
    session.flush()
    return row.row_id


def _reopen(session: Session, build: BuildFacts, row: PlanChange, touched: Touched) -> None:
    for inspection_id, place in touched.reopened:
        inspection = store.get_inspection_by_id(session, build.id, inspection_id)
        if place is not None and place not in inspection.surface_ids:
            _look_there_too(session, build.id, inspection_id, place, row.what)
        session.add(Reopened(change_id=row.row_id, inspection_id=inspection_id, surface_id=place))
        key = end_key(NeedKind.INSPECTION, inspection_id, place or 0)
        for surface_id in (place,) if place is not None else touched.surface_ids:
            surfaces.end_let_go(session, surface_id, row.on_day, {key})


def _look_there_too(session: Session, build_id: int, inspection_id: int, place: int, why: str) -> None:
    """The inspection has to see a surface it had nothing to do with before."""
    inspection = store.get_inspection_by_id(session, build_id, inspection_id)
    codes = {one.id: one.code for one in walls.list_surfaces(session, build_id)}
    was = ", ".join(codes[one] for one in inspection.surface_ids)
    session.add(InspectionSurface(inspection_id=inspection_id, surface_id=place))
    session.add(
        InspectionChange(
            inspection_id=inspection_id,
            field="surfaces",
            was=was or "the whole building",
            became=f"{was}, {codes[place]}".removeprefix(", "),
            why=why,
            at=clock.now(),
        )
    )
    session.flush()


def _film_again(session: Session, build_id: int, row: PlanChange, touched: Touched) -> None:
    """The old take stays as it is: it shows the old state. A new shot of the same comes onto the list."""
    for shot_id in touched.shot_ids:
        old = get_shot(session, build_id, shot_id)
        note = f"{row.what}, {show_date(row.on_day)}. The take of before shows the old state."
        draft = ShotDraft(f"Again: {old.what}"[:200], None, old.once, old.strength, note)
        made = footage.add_shot(session, build_id, draft)
        surfaces.set_shot_surfaces(session, build_id, made.row_id, touched.surface_ids)


def _do_again(session: Session, build: BuildFacts, touched: Touched) -> None:
    """A done task keeps its day and its hours; the same work is put down anew, and the visits owed anew wait for it."""
    for task_id in touched.task_ids:
        old = get_task(session, build.id, task_id)
        again = PlannedTask(
            title=f"Again: {old.title}"[:200],
            kind=old.kind,
            who=old.who,
            hands=old.hands,
            weather=old.weather,
            low_min=old.low_min,
            likely_min=old.likely_min,
            high_min=old.high_min,
            wait_days=old.wait_days,
            wait_reason=old.wait_reason,
            one_go=old.one_go,
        )
        made = plan.add_task(session, build.id, old.phase_id, again)
        surfaces.set_task_surfaces(session, build, made.row_id, dict.fromkeys(touched.surface_ids, False))
        for inspection_id, place in touched.reopened:
            need = TypedNeed(
                what_kind=NeedKind.INSPECTION.value,
                what_id=inspection_id,
                what_surface_id=place or 0,
                needs_id=made.row_id,
                reason="changed since it passed",
            )
            plan.add_need(session, build, need)


def answer_change(session: Session, build_id: int, change_id: int, answer: Answer) -> None:
    """Write down what was said to a change, or that it was asked again. What it said before stays readable."""
    row = session.get_one(PlanChange, store.get_plan_change(session, build_id, change_id).id)
    asked = answer.answer == ChangeAnswer.NONE
    _note(session, row, "answer", answer.answer.value)
    _note(session, row, "asked_on", answer.on if asked else row.asked_on)
    _note(session, row, "answered_on", None if asked else answer.on)
    _note(session, row, "answer_words", answer.words)
    _note(session, row, "who_agrees", answer.who or row.who_agrees)
    _note(session, row, "photo_id", answer.photo_id)


def correct_change(session: Session, build_id: int, change_id: int, change: Change, why: str) -> None:
    """Put right what is said of a change; the old words stay readable."""
    row = session.get_one(PlanChange, store.get_plan_change(session, build_id, change_id).id)
    for field in ("what", "why", "who_agrees", "on_day", "asked_on"):
        _note(session, row, field, getattr(change, field), why)


def _note(session: Session, row: PlanChange, field: str, became: object, why: str = "") -> None:
    was = getattr(row, field)
    if was == became:
        return
    words = [show_date(one) if isinstance(one, date) else str(one or "") for one in (was, became)]
    shown = {"photo_id": "paper"}.get(field, field.replace("_", " "))
    if field == "photo_id":
        words = ["a picture" if one else "" for one in (was, became)]
    history = PlanChangeHistory(
        change_id=row.row_id, field=shown, was=words[0], became=words[1], why=why, at=clock.now()
    )
    session.add(history)
    setattr(row, field, became)
    session.add(row)
