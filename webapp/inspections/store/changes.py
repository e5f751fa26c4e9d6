"""What permits, inspections, visits and corrections were said to be before, oldest first."""

from datetime import date
from typing import Any

from sqlalchemy import Select, or_, select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.inspections.models import (
    Correction,
    CorrectionChange,
    InspectionChange,
    OfficeChange,
    PermitChange,
    Visit,
    VisitChange,
)
from webapp.inspections.rules.facts import ChangeFacts
from webapp.inspections.store.lists import columns


def list_visit_changes(session: Session, visit_id: int) -> tuple[ChangeFacts, ...]:
    chosen = select(*columns(VisitChange, "field", "was", "became", "why", "at"))
    return _changes(session, chosen.where(col(VisitChange.visit_id) == visit_id).order_by(col(VisitChange.id)))


def list_inspection_changes(session: Session, inspection_id: int) -> tuple[ChangeFacts, ...]:
    of_it = col(InspectionChange.inspection_id) == inspection_id
    chosen = select(*columns(InspectionChange, "field", "was", "became", "why", "at")).where(of_it)
    return _changes(session, chosen.order_by(col(InspectionChange.id)))


def list_permit_changes(session: Session, permit_id: int) -> tuple[ChangeFacts, ...]:
    chosen = select(*columns(PermitChange, "field", "was", "became", "why", "at"))
    return _changes(session, chosen.where(col(PermitChange.permit_id) == permit_id).order_by(col(PermitChange.id)))


def list_office_changes(session: Session, build_id: int, office_id: int) -> tuple[ChangeFacts, ...]:
    """Of one office, with what every office said before."""
    of_it = or_(col(OfficeChange.office_id) == office_id, col(OfficeChange.office_id).is_(None))
    chosen = select(*columns(OfficeChange, "field", "was", "became", "why", "at"))
    mine = chosen.where(col(OfficeChange.build_id) == build_id, of_it)
    return _changes(session, mine.order_by(col(OfficeChange.id)))


def list_correction_changes(session: Session, correction_id: int) -> tuple[ChangeFacts, ...]:
    """`field` is the day it is about, as ISO text."""
    of_it = col(CorrectionChange.correction_id) == correction_id
    chosen = select(*columns(CorrectionChange, "on_day", "was", "became", "why", "at")).where(of_it)
    found = rows(session, chosen.order_by(col(CorrectionChange.id)))
    return tuple(ChangeFacts(row[0].isoformat(), *row[1:]) for row in found)


def list_all_visit_changes(session: Session, build_id: int) -> tuple[tuple[int, ChangeFacts], ...]:
    """Of every visit of a build: its id and what it said before."""
    chosen = (
        select(*columns(VisitChange, "visit_id", "field", "was", "became", "why", "at"))
        .join(Visit, col(Visit.id) == col(VisitChange.visit_id))
        .where(col(Visit.build_id) == build_id)
        .order_by(col(VisitChange.id))
    )
    return tuple((row[0], ChangeFacts(*row[1:])) for row in rows(session, chosen))


def list_all_correction_changes(session: Session, build_id: int) -> tuple[tuple[int, date, ChangeFacts], ...]:
    """Of every correction of a build: its id, the day it is about, and what it said before."""
    chosen = (
        select(*columns(CorrectionChange, "correction_id", "on_day", "was", "became", "why", "at"))
        .join(Correction, col(Correction.id) == col(CorrectionChange.correction_id))
        .where(col(Correction.build_id) == build_id)
        .order_by(col(CorrectionChange.id))
    )
    return tuple((row[0], row[1], ChangeFacts("", *row[2:])) for row in rows(session, chosen))


def _changes(session: Session, chosen: Select[Any]) -> tuple[ChangeFacts, ...]:
    return tuple(ChangeFacts(*row) for row in rows(session, chosen))
