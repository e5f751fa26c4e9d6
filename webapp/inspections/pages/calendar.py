"""The calendar: its secret address, and what is in it now; the same as text of RFC 5545."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.files.ics import calendar_text
from webapp.inspections.rules.calendar import Event, Status, Told, events
from webapp.inspections.rules.results import standings
from webapp.plan.guard import Here
from webapp.values.dates import show_date, show_day
from webapp.values.own_words import own

SHOWN = 12


@dataclass(frozen=True, slots=True)
class EventLine:
    when: str
    title: str
    detail: str


@dataclass(frozen=True, slots=True)
class CalendarPage:
    """`address` is empty while none was made."""

    sheet: Sheet
    address: str
    since: str
    ahead: tuple[EventLine, ...]
    more: int
    file: str
    make: str
    end: str
    back: str


def _told(session: Session, build_id: int, today: date) -> Told:
    kinds, results = store.list_inspections(session, build_id), store.list_results(session, build_id)
    owed = tuple(each for each in kinds if any(not at.passed for at in standings(each, results, ()).values()))
    return Told(
        permits=store.list_permits(session, build_id),
        inspections=kinds,
        visits=store.list_visits(session, build_id),
        results=results,
        owed=owed,
        offices=store.read_offices(session, build_id),
        moves=store.visit_moves(session, build_id),
        changes=store.permit_changes(session, build_id),
        today=today,
    )


def calendar_of(session: Session, build_id: int, today: date, stamp: datetime) -> bytes:
    """The whole calendar of a build; `stamp`: when its record was last written, in UTC."""
    name, seed = store.seed_of(session, build_id)
    return calendar_text(name, seed, events(_told(session, build_id, today)), stamp)


def calendar_page(session: Session, here: Here, host: str) -> CalendarPage:
    """`host`: how this server is reached, "https://build.example:8730"."""
    key = store.current_key(session, here.build.id)
    found = [each for each in events(_told(session, here.build.id, here.today)) if each.day >= here.today]
    ahead = [each for each in found if each.status is not Status.OFF]
    base = f"{here.base}/calendar"
    return CalendarPage(
        sheet=here.sheet("V1", own("Permits"), "Calendar"),
        address=f"{host.rstrip('/')}/calendar/{key.secret}.ics" if key else "",
        since=show_date(key.made_at.date()) if key else "",
        ahead=tuple(_line(each, here.today) for each in ahead[:SHOWN]),
        more=max(len(ahead) - SHOWN, 0),
        file=f"{base}.ics",
        make=f"{base}/key",
        end=f"{base}/end",
        back=f"{here.base}/permits",
    )


def _line(each: Event, today: date) -> EventLine:
    hours = f", {each.at}" + (f" to {each.until}" if each.until else "") if each.at else ""
    return EventLine(f"{show_day(each.day, today)}{hours}", each.title, each.detail)
