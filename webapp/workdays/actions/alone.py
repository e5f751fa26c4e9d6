"""Telling somebody before working alone, and being back. What was told stays with its day."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.workdays.actions.people import know
from webapp.workdays.models import Told
from webapp.workdays.rules.alone import Telling
from webapp.workdays.store.alone import open_told


def tell(session: Session, build_id: int, day: date, telling: Telling) -> Told:
    """Keep what I told; one that is open was told again by this. The name is private as a helper's is."""
    know(session, build_id, telling.whom)
    _end(session, build_id, "told again")
    told = Told(
        build_id=build_id,
        day=day,
        whom=telling.whom,
        back_by=telling.back_by,
        task_id=telling.task_id,
        told_at=clock.now(),
    )
    session.add(told)
    session.flush()
    return told


def come_back(session: Session, build_id: int) -> bool:
    """I am back. Whether there was a telling that waited for it."""
    return _end(session, build_id, "back")


def _end(session: Session, build_id: int, how: str) -> bool:
    waiting = open_told(session, build_id)
    if waiting is None:
        return False
    row = session.get_one(Told, waiting.id)
    row.ended_at, row.ended_how = clock.now(), how
    session.add(row)
    session.flush()
    return True
