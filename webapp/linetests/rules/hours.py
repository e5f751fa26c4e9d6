"""Hours of a day as the site's own clock shows them, and how long lies between two of them."""

import re
from datetime import date, datetime, time

from webapp.values.dates import days_between
from webapp.values.errors import BadInput
from webapp.values.typed import plain_text

_HOUR = re.compile(r"(\d{1,2})(?:[:. ]?(\d{2}))?\s*([ap])?\.?\s*m?\.?", re.ASCII)


def parse_hour(text: str) -> str:
    """`18:40` of `18:40`, `1840`, `6.40 pm`. Raises BadInput."""
    found = _HOUR.fullmatch(plain_text(text))
    if found is None:
        raise BadInput("Write an hour such as 18:40.")
    hour, minute, half = int(found[1]), int(found[2] or 0), found[3]
    if half and not 1 <= hour <= 12:
        raise BadInput("Write an hour such as 6:40 pm or 18:40.")
    hour = hour % 12 + (12 if half == "p" else 0) if half else hour
    try:
        return time(hour, minute).isoformat("minutes")
    except ValueError:
        raise BadInput("A day has hours from 00:00 to 23:59.") from None


def minutes_between(day: date, start: str, end_day: date, end: str) -> int:
    """Minutes from one hour of a day to another, over as many midnights as lie between; negative when it is earlier.

    Clock time of the site, so a night in which the clocks are put on or back is an hour off.
    """
    first, last = (datetime.combine(date.min, time.fromisoformat(one)) for one in (start, end))
    return days_between(day, end_day) * 24 * 60 + round((last - first).total_seconds()) // 60


def show_span(minutes: int) -> str:
    """`45 min`, `1 h 15 min`, `14 h`."""
    hours, rest = divmod(minutes, 60)
    parts = (f"{hours} h" if hours else "", f"{rest} min" if rest or not hours else "")
    return " ".join(part for part in parts if part)
