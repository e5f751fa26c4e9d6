"""Which permit a hired trade works under."""

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.inspections.models import Permit


def permit_codes_of(session: Session, build_id: int) -> dict[int, str]:
    """Hired trade -> short name of its own permit."""
    chosen = select(col(Permit.hired_id), col(Permit.code)).where(
        col(Permit.build_id) == build_id, col(Permit.hired_id).is_not(None)
    )
    return {row.hired_id: row.code for row in rows(session, chosen)}
