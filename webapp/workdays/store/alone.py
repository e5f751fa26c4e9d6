"""Whom I told before I worked alone."""

from datetime import date
from typing import Any

from sqlalchemy import Select, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.workdays.models import Told
from webapp.workdays.rules.alone import ToldFacts

_TOLD = tuple(getattr(Told, name) for name in ToldFacts.__dataclass_fields__)


def _told(build_id: int) -> Select[Any]:
    return select(*(col(one) for one in _TOLD)).where(col(Told.build_id) == build_id).order_by(col(Told.id).desc())


@kept_list
def open_told(session: Session, build_id: int) -> ToldFacts | None:
    """The telling that is not ended: I am not back yet, or forgot to say so."""
    for row in rows(session, _told(build_id).where(col(Told.ended_at).is_(None)).limit(1)):
        return ToldFacts(*row)
    return None


@kept_list
def told_before(session: Session, build_id: int) -> tuple[str, ...]:
    """Those told before, the latest first, each once."""
    return tuple(dict.fromkeys(row.whom for row in (ToldFacts(*one) for one in rows(session, _told(build_id)))))


def told_on(session: Session, build_id: int, day: date) -> tuple[ToldFacts, ...]:
    """Every telling of a day, the earliest first."""
    return tuple(ToldFacts(*row) for row in reversed(rows(session, _told(build_id).where(col(Told.day) == day))))
