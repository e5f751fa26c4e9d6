"""Reading what was said besides results."""

from sqlalchemy import ColumnElement, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import Advice, AdviceChange
from webapp.inspections.rules.facts import AdviceFacts, ChangeFacts
from webapp.inspections.store.lists import columns
from webapp.values.errors import NotFound

_OWN = ("id", "day", "who", "words", "form", "inspection_id", "surface_id", "item_id", "used_for", "paper_id")


def _advice(session: Session, *where: ColumnElement[bool]) -> tuple[AdviceFacts, ...]:
    chosen = select(*columns(Advice, *_OWN, "ended_on", "ended_why", "recorded_at")).where(*where)
    order = (col(Advice.day).desc(), col(Advice.id).desc())
    return tuple(AdviceFacts(*row) for row in rows(session, chosen.order_by(*order)))


@kept_list
def list_advice(session: Session, build_id: int) -> tuple[AdviceFacts, ...]:
    """The latest first; also what was taken back."""
    return _advice(session, col(Advice.build_id) == build_id)


def get_advice(session: Session, build_id: int, advice_id: int) -> AdviceFacts:
    found = _advice(session, col(Advice.build_id) == build_id, col(Advice.id) == advice_id)
    if not found:
        raise NotFound("There is no such word on record here.")
    return found[0]


def list_advice_changes(session: Session, advice_id: int) -> tuple[ChangeFacts, ...]:
    chosen = select(*columns(AdviceChange, "field", "was", "became", "why", "at"))
    of_it = chosen.where(col(AdviceChange.advice_id) == advice_id).order_by(col(AdviceChange.id))
    return tuple(ChangeFacts(*row) for row in rows(session, of_it))
