"""What is booked for a day: a truck, a hired hand, a helper, a rented machine. What it said before stays readable."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.plan.models import Booked, BookedChange
from webapp.plan.rules.kinds import BookedState
from webapp.plan.store.booked import BookedFacts, get_booked
from webapp.values.dates import show_long_day
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict


@dataclass(frozen=True, slots=True)
class NewBooked:
    """As typed. `cancel_days`: working days before `day` on which the hour up to which it can be called off falls."""

    what: str
    task_id: int | None = None
    day: date | None = None
    window: str = ""
    cancel_by: str = ""
    cancel_days: int = 0
    note: str = ""


_LABELS = {
    "what": "What comes",
    "day": "Day",
    "window": "Window",
    "cancel_by": "Call off by",
    "cancel_days": "Working days before",
    "note": "Note",
}


def book(session: Session, build_id: int, new: NewBooked) -> Booked:
    """Something comes on a day."""
    made = Booked(build_id=build_id, task_id=new.task_id, **{name: getattr(new, name) for name in _LABELS})
    session.add(made)
    session.flush()
    return made


def edit_booked(session: Session, build_id: int, booked_id: int, new: NewBooked, why: str = "") -> int:
    """Put it right or give it another day; a new day settles that it had to be moved. Returns how much changed."""
    before = get_booked(session, build_id, booked_id)
    _refuse_past(before)
    row = session.get_one(Booked, booked_id)
    changed = 0
    for name, label in _LABELS.items():
        old, now = getattr(before, name), getattr(new, name)
        if old != now:
            _note(session, booked_id, label, _said(old), _said(now), why)
            setattr(row, name, now)
            changed += 1
    row.task_id = new.task_id
    if before.state == BookedState.TO_MOVE and new.day is not None and new.day != before.day:
        _set_state(session, row, BookedState.BOOKED, why)
    session.flush()
    return changed


def move_booked(session: Session, build_id: int, booked_id: int, day: date, why: str) -> None:
    """To another day, because what it hangs on moved."""
    before = get_booked(session, build_id, booked_id)
    _refuse_past(before)
    row = session.get_one(Booked, booked_id)
    if before.day != day:
        _note(session, booked_id, _LABELS["day"], _said(before.day), _said(day), why)
        row.day = day
    _set_state(session, row, BookedState.BOOKED, why)


def set_booked_state(session: Session, build_id: int, booked_id: int, state: BookedState, why: str = "") -> None:
    """It has to be moved, was called off, came, or stands as booked after all."""
    get_booked(session, build_id, booked_id)
    _set_state(session, session.get_one(Booked, booked_id), state, why)


def _set_state(session: Session, row: Booked, state: BookedState, why: str) -> None:
    if row.state != state.value:
        _note(session, row.row_id, "State", row.state, state.value, why)
        row.state = state.value
    session.flush()


def _note(session: Session, booked_id: int, field: str, was: str, became: str, why: str) -> None:
    change = BookedChange(booked_id=booked_id, field=field, was=was, became=became, why=why, at=clock.now())
    session.add(change)


def _said(value: object) -> str:
    if isinstance(value, date):
        return show_long_day(value)
    return "none" if value in {None, ""} else str(value)


def _refuse_past(booked: BookedFacts) -> None:
    if not booked.ahead:
        reason = Reason(f"“{booked.what}” {'came' if booked.state == BookedState.CAME else 'was called off'} already.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
