"""The builder's own lists: the inspections owed under permits in the order used here, and what to have ready."""

from collections.abc import Iterable
from datetime import date
from typing import Any

from sqlalchemy import delete
from sqlmodel import Session, col

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.actions.permits import refuse_taken, said_so
from webapp.inspections.models import (
    AskedItem,
    Inspection,
    InspectionChange,
    InspectionSurface,
)
from webapp.inspections.rules.facts import InspectionFacts, ResultFacts
from webapp.inspections.rules.record import InspectionForm, NewAsked
from webapp.inspections.rules.results import standings
from webapp.surfaces.store import list_surfaces
from webapp.values.errors import RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict
from webapp.values.words import join_words

_INSPECTION_LABELS = {
    "permit_id": "Under",
    "code": "Short name",
    "name": "Called here",
    "must_be_ready": "What must be ready",
    "office_id": "Asked for at",
    "notice_days": "Notice, working days",
    "ask_by": "Ask by",
    "who": "Who comes",
    "before_what": "Before what",
    "source": "Where this is from",
    "holds_cover": "Its surfaces stay open until it passed",
    "renews_permit": "A pass starts the permit’s clock anew",
    "trade": "Self-check list",
    "who_there": "Who must be there",
}


def add_inspection(session: Session, build_id: int, form: InspectionForm) -> Inspection:
    """At the end of the builder's order. Raises RuleBroken when the short name is taken."""
    known = store.list_inspections(session, build_id)
    refuse_taken(any(each.code == form.code for each in known), form.code, own("inspection"))
    position = max((each.position for each in known), default=0) + 1
    values = {name: getattr(form, name) for name in _INSPECTION_LABELS}
    inspection = Inspection(build_id=build_id, position=position, **values)
    session.add(inspection)
    session.flush()
    _look_at(session, inspection.row_id, form.surface_ids)
    return inspection


def edit_inspection(session: Session, build_id: int, code: str, form: InspectionForm, why: str = "") -> int:
    """Change what an inspection is about; each part that changed keeps what it was. Returns how many changed.

    Raises RuleBroken for taking off a surface that has results of it, and for letting surfaces be closed in spite of
    a result that did not pass: only a pass or the authority's own word does that.
    """
    before = store.get_inspection(session, build_id, code)
    others = (each for each in store.list_inspections(session, build_id) if each.id != before.id)
    refuse_taken(any(each.code == form.code for each in others), form.code, own("inspection"))
    dropped = set(before.places) - set(form.surface_ids or (None,))
    results = store.list_results_of(session, before.id)
    if dropped & {each.surface_id for each in results}:
        reason = Reason(
            f"A surface with results of this {own('inspection')} stays on its list, or those would count for nothing."
        )
        raise RuleBroken(Verdict((reason,)))
    if before.holds_cover and not form.holds_cover:
        _refuse_what_did_not_pass(before, results)
    changes = _inspection_changes(session, build_id, before, form)
    for label, was, became in changes:
        session.add(
            InspectionChange(inspection_id=before.id, field=label, was=was, became=became, why=why, at=clock.now())
        )
    inspection = session.get_one(Inspection, before.id)
    for name in _INSPECTION_LABELS:
        setattr(inspection, name, getattr(form, name))
    session.add(inspection)
    _look_at(session, before.id, form.surface_ids)
    return len(changes)


def _inspection_changes(
    session: Session, build_id: int, before: InspectionFacts, form: InspectionForm
) -> list[tuple[str, str, str]]:
    """What differs: its label, what it was and what it becomes, in words."""
    called: dict[str, dict[Any, str]] = {
        "permit_id": {each.id: each.code for each in store.list_permits(session, build_id)},
        "office_id": {each.id: each.name for each in store.list_offices(session, build_id)},
        "notice_days": {None: "as its office"},
        "ask_by": {"": "as its office"},
    }
    changes = []
    for name, label in _INSPECTION_LABELS.items():
        old, new = getattr(before, name), getattr(form, name)
        if old != new:
            named = called.get(name, {})
            changes.append((label, said_so(named.get(old, old)), said_so(named.get(new, new))))
    if set(before.surface_ids) != set(form.surface_ids):
        was, became = (_places(session, build_id, ids) for ids in (before.surface_ids, form.surface_ids))
        changes.append(("Looks at", was, became))
    return changes


def _places(session: Session, build_id: int, surface_ids: Iterable[int]) -> str:
    names = [each.name for each in list_surfaces(session, build_id) if each.id in set(surface_ids)]
    return join_words(names) if names else "the whole building"


def _refuse_what_did_not_pass(inspection: InspectionFacts, results: Iterable[ResultFacts]) -> None:
    held = [each for each in standings(inspection, results, ()).values() if each.kind and not each.passed]
    if held:
        sentence = f"{inspection.name}: {held[0].words}. Its surfaces stay open until it passes."
        detail = "If the authority says otherwise, record their word on the sheet before cover."
        raise RuleBroken(Verdict((Reason(sentence, detail),)), heading="Not changed")


def _look_at(session: Session, inspection_id: int, surface_ids: tuple[int, ...]) -> None:
    session.flush()
    session.connection().execute(delete(InspectionSurface).where(col(InspectionSurface.inspection_id) == inspection_id))
    for surface_id in surface_ids:
        session.add(InspectionSurface(inspection_id=inspection_id, surface_id=surface_id))
    session.flush()


def order_inspections(session: Session, order: Iterable[int]) -> None:
    """All inspections of a build in a new order. Whether it breaks a hold point is asked by readiness."""
    for position, number in enumerate(order, 1):
        session.get_one(Inspection, number).position = position
    session.flush()


def add_asked_item(
    session: Session, build_id: int, inspection_id: int, new: NewAsked, on: date, visit_id: int | None = None
) -> AskedItem:
    """Something more to have ready at the next visit of an inspection."""
    inspection = store.get_inspection_by_id(session, build_id, inspection_id)
    item = AskedItem(
        build_id=build_id,
        inspection_id=inspection.id,
        surface_id=new.surface_id,
        visit_id=visit_id,
        words=new.words,
        source=new.source,
        asked_on=on,
        stops=new.stops,
    )
    session.add(item)
    session.flush()
    return item


def asked_item_done(session: Session, build_id: int, asked_id: int, on: date | None) -> None:
    """It is ready, or (None) not after all."""
    item = session.get_one(AskedItem, store.get_asked(session, build_id, asked_id).id)
    item.done_on = on
    session.add(item)


def drop_asked_item(session: Session, build_id: int, asked_id: int, on: date | None) -> None:
    """Nobody wants it any more, or (None) it is wanted again. The line stays."""
    item = session.get_one(AskedItem, store.get_asked(session, build_id, asked_id).id)
    item.dropped_on = on
    session.add(item)
