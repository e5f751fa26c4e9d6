"""A hired trade works under its own permit."""

from sqlmodel import Session, col, select

from webapp.hired.actions import NOT_SAID, note_change
from webapp.inspections.models import Permit


def works_under(session: Session, build_id: int, hired_id: int, code: str) -> None:
    """Say which permit a trade works under; empty for none of its own. What was said before stays readable."""
    permits = session.exec(select(Permit).where(col(Permit.build_id) == build_id)).all()
    was = next((permit.code for permit in permits if permit.hired_id == hired_id), "")
    if was == code:
        return
    for permit in permits:
        if permit.hired_id == hired_id:
            permit.hired_id = None
        if permit.code == code:
            permit.hired_id = hired_id
        session.add(permit)
    note_change(session, hired_id, "Own permit", was or NOT_SAID, code or NOT_SAID)
    session.flush()
