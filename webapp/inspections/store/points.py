"""Reading points to look over and what was seen of each. `list_` is one query."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import CheckPoint, CheckTick


@dataclass(frozen=True, slots=True)
class PointFacts:
    """One point on a list. `inspection_id`: only before that inspection; `asked_id`: an inspector asked for it once."""

    id: int
    use: str
    trade: str
    inspection_id: int | None
    asked_id: int | None
    position: int
    words: str
    source: str
    ended_on: date | None
    ended_why: str


@dataclass(frozen=True, slots=True)
class TickFacts:
    """What was seen of one point: for a visit, or for one surface. The last one counts."""

    point_id: int
    inspection_id: int
    visit_id: int | None
    surface_id: int | None
    state: str
    note: str
    on_day: date


_POINT = tuple(getattr(CheckPoint, name) for name in PointFacts.__dataclass_fields__)
_TICK = tuple(getattr(CheckTick, name) for name in TickFacts.__dataclass_fields__)


@kept_list
def list_points(session: Session, build_id: int) -> tuple[PointFacts, ...]:
    """By position, also those that ended."""
    chosen = select(*(col(column) for column in _POINT)).where(col(CheckPoint.build_id) == build_id)
    return tuple(
        PointFacts(*row) for row in rows(session, chosen.order_by(col(CheckPoint.position), col(CheckPoint.id)))
    )


def list_ticks(session: Session, inspection_id: int) -> tuple[TickFacts, ...]:
    """Oldest first."""
    chosen = select(*(col(column) for column in _TICK)).where(col(CheckTick.inspection_id) == inspection_id)
    return tuple(TickFacts(*row) for row in rows(session, chosen.order_by(col(CheckTick.id))))
