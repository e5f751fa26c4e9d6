"""The calendar as RFC 5545 text, by the `icalendar` library: escaping and folding are easily got wrong by hand.

Times are floating (3.3.5, form 1): an hour of the site's own clock, without a zone. Whole days are VALUE=DATE without
an end, which is one day (3.6.1). Without METHOD, DTSTAMP is when the record was last written (3.8.7.2). An entry keeps
its UID for ever, whatever the address of the feed; what is called off stays in it as CANCELLED.
"""

from collections.abc import Iterable
from datetime import date, datetime, time, timedelta
from functools import cache
from importlib import import_module
from typing import Any
from uuid import UUID, uuid5

from webapp.inspections.rules.calendar import Event, Status

MINE = UUID("6f1d0c2e-5b3a-4d0e-9c77-2a8f4be1d9a4")
"""a name space of Studbay's own (RFC 9562, 5.5), so that two builds or installations never share a UID"""
REFRESH = timedelta(hours=4)
PROGRAM = "-//Studbay//Calendar of a build//EN"


@cache
def _library() -> Any:
    """Loading it takes a quarter of a second: only who asks for the calendar waits for it."""
    return import_module("icalendar")


def calendar_text(name: str, seed: str, events: Iterable[Event], stamp: datetime) -> bytes:
    """`seed` tells this build from every other one and never changes; `stamp` is in UTC."""
    library = _library()
    calendar = library.Calendar()
    calendar.add("prodid", PROGRAM)
    calendar.add("version", "2.0")
    calendar.add("calscale", "GREGORIAN")
    calendar.add("name", name)  # RFC 7986, 5.1; the next one is what older programs read
    calendar.add("x-wr-calname", name)
    calendar.add("refresh-interval", REFRESH, parameters={"value": "DURATION"})
    calendar.add("x-published-ttl", f"PT{REFRESH.seconds // 3600}H")
    space = uuid5(MINE, seed)
    for event in events:
        calendar.add_component(_entry(library, event, space, stamp))
    return bytes(calendar.to_ical())


def _entry(library: Any, event: Event, space: UUID, stamp: datetime) -> Any:
    entry = library.Event()
    entry.add("uid", str(uuid5(space, event.key)))
    entry.add("dtstamp", stamp)
    entry.add("sequence", event.sequence)
    entry.add("summary", event.title)
    if event.detail:
        entry.add("description", event.detail)
    entry.add("dtstart", _at(event.day, event.at) if event.at else event.day)
    if event.at and event.until:
        entry.add("dtend", _at(event.day, event.until))
    entry.add("status", event.status.value)
    entry.add("transp", "OPAQUE" if event.until else "TRANSPARENT")
    entry.add("class", "PRIVATE")
    for before in event.alarms if event.status is not Status.OFF else ():
        alarm = library.Alarm()
        alarm.add("action", "DISPLAY")
        alarm.add("description", event.title)
        alarm.add("trigger", -before)
        entry.add_component(alarm)
    return entry


def _at(day: date, hour: str) -> datetime:
    """A moment of the site's own clock, without a zone."""
    return datetime.combine(day, time.fromisoformat(hour))
