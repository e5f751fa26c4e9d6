"""All days, newest first, week by week. Hours stand in words, each kind for itself; nothing is counted in a row."""

from dataclasses import dataclass
from datetime import date, timedelta

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.values.dates import show_day
from webapp.values.words import plural
from webapp.workdays import store
from webapp.workdays.rules.hours import Hours, together, week_of
from webapp.workdays.rules.said import DayWords
from webapp.workdays.rules.usual import by_reason
from webapp.workdays.store import DayLine
from webapp.workdays.store.days import LONGEST_PAGE

LONGEST_TITLE = 140


@dataclass(frozen=True, slots=True)
class DayRow:
    href: str
    day: str
    title: str
    lines: tuple[str, ...]


@dataclass(frozen=True, slots=True)
class Week:
    """`hours`: of the whole week, one line for each kind of hands."""

    title: str
    hours: tuple[str, ...]
    days: tuple[DayRow, ...]


@dataclass(frozen=True, slots=True)
class DaysPage:
    sheet: Sheet
    log: str
    weeks: tuple[Week, ...]
    earlier: str
    """address of the days before these; empty when there are none"""
    later: str
    lost: str
    """lost days of the whole build and what took them; empty while there are none"""


def days_page(session: Session, here: Here, before: date | None) -> DaysPage:
    """`before`: only days earlier than this one."""
    path = f"{here.base}/workdays"
    lines, cut = _whole_weeks(store.list_days(session, here.build.id, before))
    hours = _hours_by_week(session, here, lines)
    weeks: dict[date, list[DayRow]] = {}
    for line in lines:
        weeks.setdefault(week_of(line.words.day), []).append(_row(here, line))
    return DaysPage(
        sheet=here.sheet("G4", "Workdays"),
        log=f"{path}/log",
        weeks=tuple(
            Week(f"Week of {show_day(monday, here.today)}", hours[monday].words(), tuple(days))
            for monday, days in weeks.items()
        ),
        earlier=f"{path}?before={min(weeks)}" if cut else "",
        later=path if before else "",
        lost=_lost(store.lost_days(session, here.build.id)),
    )


def _lost(said: tuple[str, ...]) -> str:
    """`7 days: rain 4, ill 2, snow 1`. A plain count: nothing in a row, nothing against anybody."""
    if not said:
        return ""
    listed = ", ".join(f"{reason[:1].lower()}{reason[1:]} {days}" for reason, days in by_reason(said))
    return f"{plural(len(said), 'day')}: {listed}."


def _whole_weeks(lines: tuple[DayLine, ...]) -> tuple[tuple[DayLine, ...], bool]:
    """What fits on one page, ending with a whole week where there is more than one; and whether more follow."""
    if len(lines) <= LONGEST_PAGE:
        return lines, False
    last = week_of(lines[-1].words.day)
    return tuple(line for line in lines if week_of(line.words.day) != last) or lines[:LONGEST_PAGE], True


def _hours_by_week(session: Session, here: Here, lines: tuple[DayLine, ...]) -> dict[date, Hours]:
    if not lines:
        return {}
    first, last = week_of(lines[-1].words.day), week_of(lines[0].words.day) + timedelta(days=6)
    found: dict[date, list[Hours]] = {}
    for day, hours in store.list_hours(session, here.build.id, first, last):
        found.setdefault(week_of(day), []).append(hours)
    return {monday: together(hours) for monday, hours in found.items()}


def _row(here: Here, line: DayLine) -> DayRow:
    counts = (
        f"{plural(line.finished, 'task')} finished" if line.finished else "",
        plural(line.pictures, "picture") if line.pictures else "",
    )
    said = ", ".join(part for part in (line.words.weather.capitalize(), *counts) if part)
    stopped = f"Stopped by: {line.words.stopped_by}" if line.words.stopped_by and not line.words.lost else ""
    lines = tuple(part for part in (", ".join(line.words.hours.words()), said, stopped) if part)
    return DayRow(
        f"{here.base}/workdays/{line.id}", show_day(line.words.day, here.today), _title(line.words, line.worked), lines
    )


def _title(words: DayWords, worked: int) -> str:
    if words.lost:
        return f"A lost day. {words.stopped_by or 'No reason noted'}"
    said = words.done or words.filmed
    if not said:
        return f"Worked on {plural(worked, 'task')}" if worked else "A short note"
    return said if len(said) <= LONGEST_TITLE else f"{said[:LONGEST_TITLE].rsplit(' ', 1)[0]} …"
