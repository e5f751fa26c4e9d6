"""The calendar's secret address: made, made anew, ended."""

import secrets

from sqlmodel import Session, col, select

from webapp.core import clock
from webapp.inspections.models import CalendarKey

BYTES = 32


def end_calendar_keys(session: Session, build_id: int) -> int:
    """No calendar of this build can be read from outside any more. Gives how many addresses ended."""
    mine = col(CalendarKey.build_id) == build_id
    rows = session.exec(select(CalendarKey).where(mine, col(CalendarKey.ended_at).is_(None))).all()
    for row in rows:
        row.ended_at = clock.now()
        session.add(row)
    session.flush()
    return len(rows)


def make_calendar_key(session: Session, build_id: int) -> CalendarKey:
    """A new address; the one before answers no more."""
    end_calendar_keys(session, build_id)
    row = CalendarKey(build_id=build_id, secret=secrets.token_urlsafe(BYTES), made_at=clock.now())
    session.add(row)
    session.flush()
    return row
