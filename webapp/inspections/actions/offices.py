"""Offices and their closed days, as the builder learned them."""

from typing import Any

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.actions.permits import said_so
from webapp.inspections.models import ClosedDay, Office, OfficeChange
from webapp.inspections.rules.record import ClosedForm, OfficeForm
from webapp.inspections.rules.wording import closed_words, weekday_words
from webapp.values.dates import show_long_day
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict

_LABELS = {
    "name": "Called here",
    "weekdays": "It comes on",
    "from_time": "From",
    "until_time": "To",
    "notice_days": "Notice, working days",
    "ask_by": "Ask by",
    "cancel_by": "Call off by",
    "cancel_days": "Working days before",
    "calendar": "Public holidays of",
    "reach": "How to ask",
    "source": "Where this is from",
}


def _values(form: OfficeForm) -> dict[str, Any]:
    return {
        "name": form.name,
        "weekdays": ",".join(str(day + 1) for day in sorted(form.weekdays)),
        "from_time": form.from_time,
        "until_time": form.until_time,
        "notice_days": form.notice_days,
        "ask_by": form.ask_by,
        "cancel_by": form.cancel_by,
        "cancel_days": form.cancel_days,
        "calendar": form.calendar,
        "reach": form.reach,
        "source": form.source,
    }


def _refuse_same_name(session: Session, build_id: int, name: str, own_id: int | None = None) -> None:
    others = (each for each in store.list_offices(session, build_id) if each.id != own_id)
    if any(each.name.casefold() == name.casefold() for each in others):
        raise RuleBroken(Verdict((Reason(f"There is another office called {name}."),)))


def add_office(session: Session, build_id: int, form: OfficeForm) -> Office:
    """Raises RuleBroken when the name is taken."""
    _refuse_same_name(session, build_id, form.name)
    office = Office(build_id=build_id, **_values(form))
    session.add(office)
    session.flush()
    return office


def edit_office(session: Session, build_id: int, office_id: int, form: OfficeForm) -> None:
    """Days and hours as they hold from now on: what they were stays readable."""
    _refuse_same_name(session, build_id, form.name, office_id)
    before = store.get_office(session, build_id, office_id)
    for name, label in _LABELS.items():
        was, became = (said_so(_shown(name, getattr(one, name))) for one in (before, form))
        if was != became:
            _note(session, build_id, office_id, label, was, became)
    office = session.get_one(Office, office_id)
    for name, value in _values(form).items():
        setattr(office, name, value)
    session.add(office)


def _shown(name: str, value: Any) -> Any:
    return weekday_words(value) if name == "weekdays" else value


def _note(session: Session, build_id: int, office_id: int | None, field: str, was: str, became: str) -> None:
    """Keep what was on record before; of every office where none is named."""
    change = OfficeChange(build_id=build_id, office_id=office_id, field=field, was=was, became=became, at=clock.now())
    session.add(change)


def add_closed_day(session: Session, build_id: int, office_id: int, form: ClosedForm) -> None:
    """Of one office, or of all where the form says so."""
    row = ClosedDay(
        build_id=build_id,
        office_id=None if form.everywhere else store.get_office(session, build_id, office_id).id,
        day=form.day,
        until_day=form.until_day,
        open=form.open,
        why=form.why,
    )
    session.add(row)


def drop_closed_day(session: Session, build_id: int, closed_id: int) -> None:
    """Typed by mistake, or taken back: the days are counted as before. That it stood there stays readable."""
    found = next((each for each in store.list_closed_days(session, build_id) if each.id == closed_id), None)
    if found is None:
        raise NotFound("There is no such closed day here.")
    until = f" to {show_long_day(found.until_day)}" if found.until_day else ""
    was = f"{show_long_day(found.day)}{until}. {closed_words(found)}"
    _note(session, build_id, found.office_id, "Day off", was, "taken out")
    session.delete(session.get_one(ClosedDay, closed_id))
