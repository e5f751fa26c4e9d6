"""Known breaches: a hold point that the builder's own order breaks, kept with a reason until the order is mended."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.plan.models import Breach
from webapp.plan.store.booked import list_breaches


@dataclass(frozen=True, slots=True)
class NewBreach:
    """`words`: what would be hidden, as it was said to the builder."""

    what_kind: str
    what_id: int
    needs_kind: str
    needs_id: int
    surface_id: int
    words: str

    @property
    def about(self) -> tuple[str, int, str, int, int]:
        return self.what_kind, self.what_id, self.needs_kind, self.needs_id, self.surface_id


def keep_breach(session: Session, build_id: int, new: NewBreach, why: str, on: date) -> Breach:
    """Keep it knowingly. One kept before about the same things ends: its reason was given for another order."""
    for old in _standing(session, build_id):
        if (old.what_kind, old.what_id, old.needs_kind, old.needs_id, old.surface_id) == new.about:
            old.ended_on = on
    breach = Breach(
        build_id=build_id,
        what_kind=new.what_kind,
        what_id=new.what_id,
        needs_kind=new.needs_kind,
        needs_id=new.needs_id,
        surface_id=new.surface_id,
        words=new.words,
        why=why,
        on_day=on,
    )
    session.add(breach)
    session.flush()
    return breach


def _standing(session: Session, build_id: int) -> list[Breach]:
    """The rows of those that have not ended."""
    known = (one.id for one in list_breaches(session, build_id) if one.ended_on is None)
    return [session.get_one(Breach, number) for number in known]


def end_breaches(session: Session, breach_ids: frozenset[int], on: date) -> None:
    """The order was mended, or what was needed is there after all. The lines stay."""
    for number in sorted(breach_ids):
        session.get_one(Breach, number).ended_on = on
    session.flush()
