"""Offices and their closed days, as the builder learned them."""

from typing import Any

from sqlmodel import Session

from webapp.inspections import store
from webapp.inspections.models import ClosedDay, Office
from webapp.inspections.rules.record import ClosedForm, OfficeForm
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict


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
    """Days and hours as they hold from now on: what was asked for before is on record with its visit."""
    _refuse_same_name(session, build_id, form.name, office_id)
    office = session.get_one(Office, store.get_office(session, build_id, office_id).id)
    for name, value in _values(form).items():
        setattr(office, name, value)
    session.add(office)


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
    """Typed by mistake, or taken back: the days are counted as before."""
    if closed_id not in {each.id for each in store.list_closed_days(session, build_id)}:
        raise NotFound("There is no such closed day here.")
    session.delete(session.get_one(ClosedDay, closed_id))
