"""Keeping what was said besides results. It passes nothing: only a result on record frees a surface."""

from collections.abc import Mapping
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.models import Advice, AdviceChange
from webapp.inspections.rules.record import NewAdvice
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict

_LABELS = {
    "day": "Day",
    "who": "Who said it",
    "words": "Words",
    "form": "How",
    "inspection_id": "About",
    "surface_id": "Where",
    "used_for": "Used for",
}


def add_advice(session: Session, build_id: int, form: NewAdvice) -> Advice:
    made = Advice(build_id=build_id, recorded_at=clock.now(), **{name: getattr(form, name) for name in _LABELS})
    session.add(made)
    session.flush()
    return made


def edit_advice(
    session: Session,
    build_id: int,
    advice_id: int,
    form: NewAdvice,
    names: Mapping[str, Mapping[int | None, str]],
    why: str,
) -> int:
    """Put it right; what each part said before stays. Gives how many changed. `names`: words for ids, by field."""
    before = store.get_advice(session, build_id, advice_id)
    row = session.get_one(Advice, advice_id)
    changed = 0
    for name, label in _LABELS.items():
        old, new = getattr(before, name), getattr(form, name)
        if old != new:
            _note(session, advice_id, label, _words(old, names.get(name)), _words(new, names.get(name)), why)
            setattr(row, name, new)
            changed += 1
    session.add(row)
    return changed


def end_advice(session: Session, build_id: int, advice_id: int, on: date, why: str) -> None:
    """It was taken back, or found wrong. It stays readable. Raises RuleBroken when it was before."""
    before = store.get_advice(session, build_id, advice_id)
    if before.ended_on is not None:
        reason = Reason(f"It was taken back on {show_date(before.ended_on)} already.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
    row = session.get_one(Advice, advice_id)
    row.ended_on, row.ended_why = on, why
    session.add(row)
    _note(session, advice_id, "Counts", "yes", f"taken back {show_date(on)}", why)


def _note(session: Session, advice_id: int, label: str, was: str, became: str, why: str) -> None:
    change = AdviceChange(advice_id=advice_id, field=label, was=was, became=became, why=why, at=clock.now())
    session.add(change)


def _words(value: object, names: Mapping[int | None, str] | None) -> str:
    if names is not None and (value is None or isinstance(value, int)):
        return names.get(value, "none")
    if isinstance(value, date):
        return show_date(value)
    return str(value) if value else "none"
