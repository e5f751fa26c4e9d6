"""When a visit has to be asked for, and which visit is the last that can still renew a permit.

Offices are taken to work Monday to Friday; the local authority's own days and hours count.
"""

from datetime import date

from webapp.values.dates import add_working_days, show_date

NO_DAYS_OFF: frozenset[date] = frozenset()


def ask_by(visit: date, notice_days: int, closed: frozenset[date] = NO_DAYS_OFF) -> date:
    """The last day to ask for a visit on `visit`, with `notice_days` working days of notice."""
    return add_working_days(visit, -notice_days, closed)


def last_useful_visit(lapses_after: date, closed: frozenset[date] = NO_DAYS_OFF) -> date:
    """The last working day on which a visit still falls within the permit's time."""
    return add_working_days(add_working_days(lapses_after, 1, closed), -1, closed)


FAR = 180
"""days from the day a visit was booked for, from which the day it was held is asked about: a slip of the year is 365"""
LONG_AGO = 330


def question_far(
    day: date, booked_on: date | None, asked_on: date | None, today: date
) -> tuple[str, tuple[str, ...]] | None:
    """A question about a day that is far from what was booked, and the likely one. It asks and does not refuse."""
    if asked_on is not None and day < asked_on:
        likely = (booked_on.isoformat(),) if booked_on and booked_on <= today else ()
        return f"{show_date(day)} is before the visit was asked for ({show_date(asked_on)}). Is the year right?", likely
    if booked_on is not None and abs((day - booked_on).days) >= FAR:
        likely = (booked_on.isoformat(),) if booked_on <= today else ()
        return f"{show_date(day)} is far from the day it was booked for ({show_date(booked_on)}).", likely
    if booked_on is None and (today - day).days >= LONG_AGO:
        return f"{show_date(day)} is long ago. Is the year right?", ()
    return None
