"""Reading lots: the ground that builds share."""

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.plan.models import Lot
from webapp.plan.store import BuildFacts, list_builds


def list_lots(session: Session) -> tuple[tuple[int, str], ...]:
    """Id and name of every lot, by name."""
    found = rows(session, select(col(Lot.id), col(Lot.name)).order_by(col(Lot.name)))
    return tuple((row[0], row[1]) for row in found)


def lot_name(session: Session, lot_id: int | None) -> str:
    """Empty for a build that names none."""
    return dict(list_lots(session)).get(lot_id, "") if lot_id is not None else ""


def builds_beside(session: Session, build: BuildFacts) -> tuple[BuildFacts, ...]:
    """The other builds on the same lot, the newest first."""
    if build.lot_id is None:
        return ()
    return tuple(each for each in list_builds(session) if each.lot_id == build.lot_id and each.id != build.id)
