"""Reading the calendar's keys, and what its entries are made of."""

import hmac
from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.inspections.models import CalendarKey, Permit, PermitChange, PermitExtension, Visit, VisitChange
from webapp.plan.models import Build


@dataclass(frozen=True, slots=True)
class KeyFacts:
    build_id: int
    secret: str
    made_at: datetime
    ended_at: datetime | None


def find_key(session: Session, secret: str) -> KeyFacts | None:
    """The key with this secret, ended ones too. Every key is compared, each in the same time whatever fits of it."""
    chosen = select(*(getattr(CalendarKey, name) for name in ("build_id", "secret", "made_at", "ended_at")))
    asked, found = secret.encode(), None
    for row in rows(session, chosen):
        if hmac.compare_digest(row.secret.encode(), asked):
            found = KeyFacts(*row)
    return found


def current_key(session: Session, build_id: int) -> KeyFacts | None:
    chosen = select(*(getattr(CalendarKey, name) for name in ("build_id", "secret", "made_at", "ended_at")))
    running = chosen.where(col(CalendarKey.build_id) == build_id, col(CalendarKey.ended_at).is_(None))
    found = rows(session, running.order_by(col(CalendarKey.id).desc()))
    return KeyFacts(*found[0]) if found else None


def visit_moves(session: Session, build_id: int) -> Mapping[int, int]:
    """Visit -> how often its day, its hours or what became of it changed."""
    chosen = (
        select(col(VisitChange.visit_id), func.count())
        .join(Visit, col(Visit.id) == col(VisitChange.visit_id))
        .where(col(Visit.build_id) == build_id, col(VisitChange.field).in_(("day", "window", "outcome", "asked on")))
        .group_by(col(VisitChange.visit_id))
    )
    return {row[0]: row[1] for row in rows(session, chosen)}


def permit_changes(session: Session, build_id: int) -> Mapping[int, int]:
    """Permit -> how often it was put right, counted with what came of requests for more time."""
    counted: dict[int, int] = {}
    for table in (PermitChange, PermitExtension):
        chosen = (
            select(col(table.permit_id), func.count())
            .join(Permit, col(Permit.id) == col(table.permit_id))
            .where(col(Permit.build_id) == build_id)
            .group_by(col(table.permit_id))
        )
        for permit_id, count in rows(session, chosen):
            counted[permit_id] = counted.get(permit_id, 0) + count
    return counted


def seed_of(session: Session, build_id: int) -> tuple[str, str]:
    """The build's name, and what tells it from every other build in any installation."""
    chosen = select(col(Build.name), col(Build.made_at)).where(col(Build.id) == build_id)
    name, made_at = rows(session, chosen)[0]
    return name, f"{build_id}/{made_at.isoformat()}"
