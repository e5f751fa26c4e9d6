"""Reading accounts."""

from dataclasses import dataclass

from sqlmodel import Session, col, select

from webapp.accounts.models import Owner, SignIn
from webapp.core.database import remembered


@dataclass(frozen=True, slots=True)
class Signed:
    """Who is asking, and by which sign-in."""

    owner_id: int
    name: str
    sign_in_id: int


def _signed(session: Session, token_hash: str) -> Signed | None:
    row = session.exec(
        select(Owner.id, Owner.name, SignIn.id)
        .join(Owner, col(Owner.id) == col(SignIn.owner_id))
        .where(col(SignIn.token_hash) == token_hash, col(SignIn.ended_at).is_(None))
    ).first()
    return Signed(row[0] or 0, row[1], row[2] or 0) if row else None


def find_signed(session: Session, token_hash: str) -> Signed | None:
    """Who holds this token; None when it is unknown or ended."""
    return remembered(session, ("signed", token_hash), lambda: _signed(session, token_hash))
