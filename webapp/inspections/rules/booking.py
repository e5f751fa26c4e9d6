"""When a visit has to be asked for, and which visit is the last that can still renew a permit.

Offices are taken to work Monday to Friday; the local authority's own days and hours count.
"""

from datetime import date

from webapp.values.dates import add_working_days

NO_DAYS_OFF: frozenset[date] = frozenset()


def ask_by(visit: date, notice_days: int, closed: frozenset[date] = NO_DAYS_OFF) -> date:
    """The last day to ask for a visit on `visit`, with `notice_days` working days of notice."""
    return add_working_days(visit, -notice_days, closed)


def last_useful_visit(lapses_after: date, closed: frozenset[date] = NO_DAYS_OFF) -> date:
    """The last working day on which a visit still falls within the permit's time."""
    return add_working_days(add_working_days(lapses_after, 1, closed), -1, closed)
