"""Points of a trench or slab tied to two fixed points: put on record, put right, marked as gone."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.making import keep_on, put_away, put_right, take_back
from webapp.surfaces.models import FixedTie


@dataclass(frozen=True, slots=True)
class TieDraft:
    """A point `x_nm` along its surface and its two distances from fixed points, taped on the level; nanometres."""

    name: str
    x_nm: int
    from_a: str
    a_nm: int
    from_b: str
    b_nm: int
    note: str


def add_tie(session: Session, surface_id: int, draft: TieDraft) -> FixedTie:
    return keep_on(session, FixedTie, surface_id, draft)


def edit_tie(session: Session, build_id: int, tie_id: int, draft: TieDraft) -> None:
    """Put right what was mistyped or mismeasured; what was said stays readable."""
    put_right(session, _row(session, build_id, tie_id), draft, build_id, "tie", tie_id)


def remove_tie(session: Session, build_id: int, tie_id: int, on: date) -> None:
    """It was found wrong, or a fixed point is gone: it stays listed with the day."""
    put_away(session, _row(session, build_id, tie_id), on)


def return_tie(session: Session, build_id: int, tie_id: int, draft: TieDraft) -> None:
    """It holds after all, as it is said now."""
    row = _row(session, build_id, tie_id)
    take_back(session, row, build_id, "tie")
    put_right(session, row, draft, build_id, "tie", tie_id)


def _row(session: Session, build_id: int, tie_id: int) -> FixedTie:
    return session.get_one(FixedTie, store.get_tie(session, build_id, tie_id).id)
