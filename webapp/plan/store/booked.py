"""Reading what is booked for a day, and the known breaches of the order."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.plan.models import Booked, BookedChange, Breach
from webapp.plan.rules.kinds import BookedState
from webapp.values.errors import NotFound

NO_BOOKED = "Nothing of that number is booked in this build."


@dataclass(frozen=True, slots=True)
class BookedFacts:
    """A truck, a hired hand, a helper, a rented machine that comes on a day for a task."""

    id: int
    task_id: int | None
    what: str
    day: date | None
    window: str
    cancel_by: str
    cancel_days: int
    state: str
    note: str

    @property
    def ahead(self) -> bool:
        """Still to come, whether its day stands or has to be moved."""
        return self.state in {BookedState.BOOKED, BookedState.TO_MOVE}


@dataclass(frozen=True, slots=True)
class BookedChangeFacts:
    """What a booking said before."""

    field: str
    was: str
    became: str
    why: str
    at: datetime


@dataclass(frozen=True, slots=True)
class BreachFacts:
    """A hold point that the builder's own order breaks, kept knowingly. `ended_on`: the order was mended since."""

    id: int
    what_kind: str
    what_id: int
    needs_kind: str
    needs_id: int
    surface_id: int
    words: str
    why: str
    on_day: date
    ended_on: date | None


_BOOKED = tuple(getattr(Booked, name) for name in BookedFacts.__dataclass_fields__)
_CHANGE = tuple(getattr(BookedChange, name) for name in BookedChangeFacts.__dataclass_fields__)
_BREACH = tuple(getattr(Breach, name) for name in BreachFacts.__dataclass_fields__)


@kept_list
def list_booked(session: Session, build_id: int) -> tuple[BookedFacts, ...]:
    """By day; those without a day last. Also what came and what was called off."""
    chosen = select(*(col(column) for column in _BOOKED)).where(col(Booked.build_id) == build_id)
    order = (col(Booked.day).is_(None), col(Booked.day), col(Booked.id))
    return tuple(BookedFacts(*row) for row in rows(session, chosen.order_by(*order)))


def get_booked(session: Session, build_id: int, booked_id: int) -> BookedFacts:
    """Raises NotFound for one of another build."""
    for one in list_booked(session, build_id):
        if one.id == booked_id:
            return one
    raise NotFound(NO_BOOKED)


def list_booked_changes(session: Session, booked_id: int) -> tuple[BookedChangeFacts, ...]:
    """The latest first."""
    chosen = select(*(col(column) for column in _CHANGE)).where(col(BookedChange.booked_id) == booked_id)
    return tuple(BookedChangeFacts(*row) for row in rows(session, chosen.order_by(col(BookedChange.id).desc())))


@kept_list
def list_breaches(session: Session, build_id: int) -> tuple[BreachFacts, ...]:
    """Oldest first, also those that ended."""
    chosen = select(*(col(column) for column in _BREACH)).where(col(Breach.build_id) == build_id)
    return tuple(BreachFacts(*row) for row in rows(session, chosen.order_by(col(Breach.id))))
