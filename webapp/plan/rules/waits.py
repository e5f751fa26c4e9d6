"""Waits that run by themselves: cure, drying, plan check."""

from datetime import date, timedelta


def wait_of(wait_days: int, lag_days: int = 0) -> int:
    """Days between the end of a task and what needs it: its own wait or the need's, whichever is longer.

    Not both together, because the same cure is often written down in both places.
    """
    return max(wait_days, lag_days)


def earliest_end(done_on: date | None, days: int) -> date | None:
    """The earliest day the wait is over, counted in calendar days from the day it began; None before it began."""
    return done_on + timedelta(days=days) if done_on and days else None


def running_until(done_on: date | None, days: int, today: date) -> date | None:
    """`earliest_end` while the wait still runs; on that day it is over."""
    end = earliest_end(done_on, days)
    return end if end and end > today else None


def begun_unknown(done: bool, done_on: date | None, days: int) -> bool:
    """Whether a wait began and nobody wrote down when: it is never over until that day is given."""
    return done and done_on is None and days > 0
