"""A clock that was wrong: what the capture times of pictures become when it is put right."""

import re
from datetime import datetime, timedelta

A_DAY = 24 * 60
_SAID = re.compile(r"(\S+) \((camera|owner)\)", re.ASCII)
UNKNOWN = "unknown"


def is_day_only(taken_at: str, taken_from: str) -> bool:
    """Whether only the day was said: that is kept as midnight, which no hour can be added to."""
    return taken_from == "owner" and taken_at.endswith("T00:00:00")


def shifted(taken_at: str | None, taken_from: str, minutes: int) -> str | None:
    """The capture time so many minutes later (earlier when negative); None where there is no time to shift.

    What has only a day moves by whole days alone. Raises OverflowError outside the years 1 to 9999.
    """
    if taken_at is None or (is_day_only(taken_at, taken_from) and minutes % A_DAY):
        return None
    return (datetime.fromisoformat(taken_at) + timedelta(minutes=minutes)).isoformat()


def minutes_between(taken_at: str, real: str) -> int:
    """Whole minutes by which a clock that said `taken_at` was behind; its seconds are not asked for."""
    was, is_ = (datetime.fromisoformat(text).replace(second=0) for text in (taken_at, real))
    return (is_ - was) // timedelta(minutes=1)


def show_shift(minutes: int) -> str:
    """`1 day 2 h 5 min later`, `45 min earlier`."""
    days, rest = divmod(abs(minutes), A_DAY)
    hours, left = divmod(rest, 60)
    named = ((days, "day" if days == 1 else "days"), (hours, "h"), (left, "min"))
    return f"{' '.join(f'{count} {name}' for count, name in named if count)} {'later' if minutes > 0 else 'earlier'}"


def said_taken(taken_at: str | None, taken_from: str) -> str:
    """How the history of a picture says its capture time: `2026-05-09T17:48:00 (camera)`, or `unknown`."""
    return f"{taken_at} ({taken_from})" if taken_at else UNKNOWN


def read_said_taken(text: str) -> tuple[str | None, str]:
    """Capture time and where it came from, of what `said_taken` wrote."""
    found = _SAID.fullmatch(text)
    return (found[1], found[2]) if found else (None, UNKNOWN)
