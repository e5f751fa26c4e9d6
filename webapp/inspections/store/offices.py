"""Reading offices, their closed days and what both make of a day."""

from typing import Any

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import ClosedDay, Office
from webapp.inspections.rules.booking import ClosedFacts, DaysOff, OfficeFacts, Offices
from webapp.inspections.store.holidays import PublicHolidays
from webapp.inspections.store.lists import columns
from webapp.values.errors import NotFound

_TIMES = ("from_time", "until_time", "notice_days", "ask_by", "cancel_by", "cancel_days", "calendar", "reach", "source")


def weekdays_of(words: str) -> frozenset[int]:
    """ "1,3,5", the days' ISO numbers, as numbers with Monday as 0."""
    return frozenset(int(each) - 1 for each in words.split(",") if each.isdecimal() and 1 <= int(each) <= 7)


def _office(row: Any) -> OfficeFacts:
    return OfficeFacts(row[0], row[1], weekdays_of(row[2]), *row[3:])


@kept_list
def list_offices(session: Session, build_id: int) -> tuple[OfficeFacts, ...]:
    """In the order they were put in."""
    chosen = select(*columns(Office, "id", "name", "weekdays", *_TIMES)).where(col(Office.build_id) == build_id)
    return tuple(_office(row) for row in rows(session, chosen.order_by(col(Office.id))))


def get_office(session: Session, build_id: int, office_id: int) -> OfficeFacts:
    for office in list_offices(session, build_id):
        if office.id == office_id:
            return office
    raise NotFound("There is no such office here.")


@kept_list
def list_closed_days(session: Session, build_id: int) -> tuple[ClosedFacts, ...]:
    """The earliest first."""
    chosen = select(*columns(ClosedDay, "id", "office_id", "day", "until_day", "open", "why"))
    here = chosen.where(col(ClosedDay.build_id) == build_id)
    return tuple(ClosedFacts(*row) for row in rows(session, here.order_by(col(ClosedDay.day), col(ClosedDay.id))))


@kept_list
def read_offices(session: Session, build_id: int) -> Offices:
    """Every office with its days off: the calendar's holidays, and closed days of its own or of all."""
    offices, closed = list_offices(session, build_id), list_closed_days(session, build_id)
    everywhere = tuple(each for each in closed if each.office_id is None)
    off = []
    for office in offices:
        own = tuple(each for each in closed if each.office_id in {None, office.id})
        off.append((office.id, DaysOff(PublicHolidays(office.calendar) if office.calendar else frozenset(), own)))
    return Offices(offices, tuple(off), DaysOff(closed=everywhere))
