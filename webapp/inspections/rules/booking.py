"""An office's days: when a visit has to be asked for or called off, and which one is the last that is of use.

Working days are Monday to Friday without public holidays and the office's own closed days; notice is counted in them.
Visiting days are the weekdays on which the office comes, without the same. Without an office: Monday to Friday, no day
off known. The local authority's own days and hours count.
"""

from collections.abc import Container
from dataclasses import dataclass, field
from datetime import date, timedelta

from webapp.values.dates import MONDAY_TO_FRIDAY, add_working_days

NO_DAYS_OFF: frozenset[date] = frozenset()
NOTICE, HOUR = 1, "15:30"
"""while nothing else was typed: one working day, by half past three (common practice, no source)"""
SEARCHED = 400
"""days looked back for a visiting day; an office that never comes has none"""


@dataclass(frozen=True, slots=True)
class OfficeFacts:
    """An office as the builder learned it. `weekdays` with Monday as 0; `reach` is private."""

    id: int
    name: str
    weekdays: frozenset[int]
    from_time: str
    until_time: str
    notice_days: int
    ask_by: str
    cancel_by: str
    cancel_days: int
    calendar: str
    reach: str
    source: str


@dataclass(frozen=True, slots=True)
class ClosedFacts:
    """Days on which an office is closed, or open in spite of its calendar; of all offices when `office_id` is None."""

    id: int
    office_id: int | None
    day: date
    until_day: date | None
    open: bool
    why: str

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and self.day <= day <= (self.until_day or self.day)


@dataclass(frozen=True, slots=True)
class DaysOff:
    """All days off of one office: public holidays of its calendar and its own closed days, less those it works on."""

    holidays: Container[date] = NO_DAYS_OFF
    closed: tuple[ClosedFacts, ...] = ()

    def __contains__(self, day: object) -> bool:
        said = [each.open for each in self.closed if day in each]
        return not any(said) if said else day in self.holidays


@dataclass(frozen=True, slots=True)
class Terms:
    """What holds for asking for one kind of visit. Hours are "15:30"; `cancel_hour` is empty where none is known."""

    notice_days: int = NOTICE
    ask_hour: str = HOUR
    visiting: frozenset[int] = MONDAY_TO_FRIDAY
    off: Container[date] = field(default=NO_DAYS_OFF)
    cancel_hour: str = ""
    cancel_days: int = 0
    office: str = ""

    def visits_on(self, day: date) -> bool:
        return day.weekday() in self.visiting and day not in self.off

    def ask_by(self, visit: date) -> date:
        """The last day to ask for a visit on `visit`."""
        return add_working_days(visit, -self.notice_days, self.off)

    def cancel_by(self, visit: date) -> date:
        """The day of the hour up to which a visit on `visit` can be called off."""
        return add_working_days(visit, -self.cancel_days, self.off)

    def last_useful_visit(self, lapses_after: date) -> date | None:
        """The last day on which a visit still falls within the permit's time; None when the office never comes."""
        days = (lapses_after - timedelta(days=back) for back in range(SEARCHED))
        return next((day for day in days if self.visits_on(day)), None)


@dataclass(frozen=True, slots=True)
class Offices:
    """Every office of a build with its days off."""

    offices: tuple[OfficeFacts, ...] = ()
    off: tuple[tuple[int, DaysOff], ...] = ()
    everywhere: DaysOff = DaysOff()
    """days off of all offices: they hold for an inspection that has none, too"""

    def terms(self, office_id: int | None, notice_days: int | None = None, ask_hour: str = "") -> Terms:
        """What holds for an inspection with this office, whose own notice and hour come first where it has any."""
        office = next((each for each in self.offices if each.id == office_id), None)
        if office is None:
            notice = NOTICE if notice_days is None else notice_days
            return Terms(notice, ask_hour or HOUR, off=self.everywhere)
        return Terms(
            notice_days=office.notice_days if notice_days is None else notice_days,
            ask_hour=ask_hour or office.ask_by,
            visiting=office.weekdays,
            off=dict(self.off).get(office.id, self.everywhere),
            cancel_hour=office.cancel_by,
            cancel_days=office.cancel_days,
            office=office.name,
        )
