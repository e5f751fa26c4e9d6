"""What goes into the calendar: visits, moments to ask or to call off, last useful days, last days of permits.

A moment is a day and an hour of the site's own clock, without a zone: it is 15:30 where the office is, wherever the
phone has travelled. It says which inspection or permit is meant and nothing that belongs to the paper: no number, no
place, no person, no note.
"""

import re
from collections.abc import Iterator, Mapping
from dataclasses import dataclass
from datetime import date, timedelta
from enum import StrEnum

from webapp.inspections.rules.booking import Offices, Terms
from webapp.inspections.rules.facts import InspectionFacts, PermitFacts, ResultFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome
from webapp.inspections.rules.lapse import clock_of
from webapp.inspections.rules.renewing import AHEAD, way_of
from webapp.values.dates import show_date

_WINDOW = re.compile(r"\b([01]?\d|2[0-3]):([0-5]\d)\b.*?\b([01]?\d|2[0-3]):([0-5]\d)\b")
DAY, HALF_DAY, TWO_HOURS = timedelta(days=1), timedelta(hours=6), timedelta(hours=2)
FORTNIGHT = timedelta(days=14)


class Status(StrEnum):
    """RFC 5545, 3.8.1.11."""

    PLANNED = "TENTATIVE"
    SURE = "CONFIRMED"
    OFF = "CANCELLED"


@dataclass(frozen=True, slots=True)
class Event:
    """One entry. `key` names it for ever ("visit/12"); `at` and `until` are hours ("15:30"), empty for a whole day.

    `sequence` never goes down while the entry moves; `alarms`: so long before it begins.
    """

    key: str
    title: str
    day: date
    at: str = ""
    until: str = ""
    detail: str = ""
    status: Status = Status.SURE
    sequence: int = 0
    alarms: tuple[timedelta, ...] = ()


@dataclass(frozen=True, slots=True)
class Told:
    """What events are made of. `moves`: visit -> how often its day, hours or outcome changed; `changes`: permit -> how
    often what it says did.
    """

    permits: tuple[PermitFacts, ...]
    inspections: tuple[InspectionFacts, ...]
    visits: tuple[VisitFacts, ...]
    results: tuple[ResultFacts, ...]
    owed: tuple[InspectionFacts, ...]
    offices: Offices
    moves: Mapping[int, int]
    changes: Mapping[int, int]
    today: date


def events(told: Told) -> tuple[Event, ...]:
    """By day; those of one day with an hour last."""
    found = [*_visits(told), *_permits(told)]
    return tuple(sorted(found, key=lambda each: (each.day, each.at, each.key)))


def window_of(words: str) -> tuple[str, str]:
    """The hours of "between 9:00 and 12:00"; both empty when it does not say two that follow one another."""
    found = _WINDOW.search(words)
    if found is None:
        return "", ""
    first, last = f"{int(found[1]):02d}:{found[2]}", f"{int(found[3]):02d}:{found[4]}"
    return (first, last) if first < last else ("", "")


def _visits(told: Told) -> Iterator[Event]:
    kinds = {each.id: each for each in told.inspections}
    for visit in told.visits:
        if visit.day is None:
            continue
        kind = kinds[visit.inspection_id]
        at, until = window_of(visit.window)
        planned = visit.outcome == Outcome.PLANNED
        off = visit.outcome == Outcome.CANCELLED
        status = Status.OFF if off else Status.PLANNED if planned else Status.SURE
        detail = {Outcome.PLANNED: "Planned, not asked for yet.", Outcome.ASKED: "Asked for."}
        yield Event(
            key=f"visit/{visit.id}",
            title=f"Visit: {kind.name}",
            day=visit.day,
            at=at,
            until=until,
            detail=detail.get(Outcome(visit.outcome), ""),
            status=status,
            sequence=told.moves.get(visit.id, 0),
        )
        if visit.day >= told.today:
            terms = told.offices.terms(kind.office_id, kind.notice_days, kind.ask_by)
            yield from _around(told, visit, visit.day, kind, terms)


def _around(told: Told, visit: VisitFacts, day: date, kind: InspectionFacts, terms: Terms) -> Iterator[Event]:
    """The moments to ask for a visit and to call it off. One that has passed its use is marked as called off, so that
    a calendar that took it in as a file lets go of it too.
    """
    sequence = told.moves.get(visit.id, 0)
    yield Event(
        key=f"visit/{visit.id}/ask",
        title=f"Ask by {terms.ask_hour}: {kind.name}",
        day=terms.ask_by(day),
        at=terms.ask_hour,
        detail=f"For the visit of {show_date(day)}.",
        status=Status.SURE if visit.outcome == Outcome.PLANNED else Status.OFF,
        sequence=sequence,
        alarms=(DAY, TWO_HOURS) if visit.outcome == Outcome.PLANNED else (),
    )
    if terms.cancel_hour:
        ahead = visit.outcome in AHEAD
        yield Event(
            key=f"visit/{visit.id}/call-off",
            title=f"Call off by {terms.cancel_hour} if not ready: {kind.name}",
            day=terms.cancel_by(day),
            at=terms.cancel_hour,
            detail="Later, a fee may follow.",
            status=Status.SURE if ahead else Status.OFF,
            sequence=sequence,
            alarms=(HALF_DAY * 2,) if ahead else (),
        )


def _permits(told: Told) -> Iterator[Event]:
    for permit in told.permits:
        clock = clock_of(permit, told.inspections, told.results)
        if clock is None or clock.last_day is None:
            continue
        kinds = {each.id for each in told.inspections if each.permit_id == permit.id}
        said = sum(1 + (each.state != "current") for each in told.results if each.inspection_id in kinds)
        sequence = said + told.changes.get(permit.id, 0)
        yield Event(
            key=f"permit/{permit.id}/lapse",
            title=f"Last day of {permit.name}",
            day=clock.last_day,
            detail="By the rules you typed. Your local authority decides.",
            sequence=sequence,
            alarms=(FORTNIGHT,),
        )
        way = way_of(permit, clock, told.owed, told.visits, told.offices, told.today)
        if way is None or way.chance is None or way.chance.last is None or way.chance.ask_by is None:
            continue
        name, hour = way.chance.inspection.name, way.chance.terms.ask_hour
        yield Event(
            key=f"permit/{permit.id}/last-visit",
            title=f"Last useful day for {name}",
            day=way.chance.last,
            detail=f"A visit that passes by then renews {permit.name}.",
            sequence=sequence,
        )
        open_ = way.chance.open and not way.chance.is_asked
        yield Event(
            key=f"permit/{permit.id}/last-ask",
            title=f"Ask by {hour} at the latest: {name}",
            day=way.chance.ask_by,
            at=hour,
            detail=f"After that no visit comes before the last day of {permit.name}.",
            status=Status.SURE if open_ else Status.OFF,
            sequence=sequence,
            alarms=(DAY, TWO_HOURS) if open_ else (),
        )
