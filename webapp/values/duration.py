"""Durations: integer minutes, typed and shown as hours."""

import re
from fractions import Fraction

from webapp.values.errors import BadInput
from webapp.values.rounding import half_up
from webapp.values.typed import LONGEST, NUMBER, plain_text, read_number

DAY_MINUTES = 24 * 60

_HOUR_WORD = r"(?:hours|hour|hrs|hr|h)\.?"
_MINUTE_WORD = r"(?:minutes|minute|mins|min|m)\.?"
_CLOCK = re.compile(r"(\d+):(\d{2})", re.ASCII)
_BOTH = re.compile(rf"(\d+)\s*{_HOUR_WORD}\s*(\d{{1,2}})\s*(?:{_MINUTE_WORD})?", re.ASCII)
_HOURS = re.compile(rf"({NUMBER})\s*(?:{_HOUR_WORD})?", re.ASCII)
_MINUTES = re.compile(rf"(\d+)\s*{_MINUTE_WORD}", re.ASCII)
_QUARTERS = {0: "", 15: "¼", 30: "½", 45: "¾"}


def parse_hours(text: str, most_minutes: int = DAY_MINUTES) -> int:
    """Minutes of `2½`, `2.5`, `2:30`, `2 h 30` or `45 min`; a bare number is hours.

    A part of a minute is rounded to the nearest one. Raises BadInput, also when more than `most_minutes`.
    """
    plain = plain_text(text)
    if len(plain) > LONGEST:
        raise _unreadable()
    minutes = _read_minutes(plain)
    if minutes > most_minutes:
        most = show_minutes(most_minutes)
        as_minutes = plain.isdecimal() and int(plain) <= most_minutes
        hint, likely = (f" Did you mean {plain} minutes?", (f"{plain} min",)) if as_minutes else ("", ())
        raise BadInput(f"That is more than {most}, the most one entry can hold.{hint}", likely)
    return minutes


def _unreadable() -> BadInput:
    return BadInput("Write hours such as 2.5 or 2:30, or minutes such as 45 min.")


def _read_minutes(plain: str) -> int:
    if pair := _CLOCK.fullmatch(plain) or _BOTH.fullmatch(plain):
        hours, minutes = int(pair[1]), int(pair[2])
        if minutes >= 60:
            raise BadInput("An hour has 60 minutes. Write hours such as 2:30, or minutes such as 90 min.")
        return hours * 60 + minutes
    if found := _MINUTES.fullmatch(plain):
        return int(found[1])
    found = _HOURS.fullmatch(plain)
    hours_typed = read_number(found[1]) if found else None
    if hours_typed is None:
        raise _unreadable()
    return half_up(hours_typed * 60)


def show_minutes(minutes: int) -> str:
    """For reading: `25 min`, `2 h`, `2½ h`, `1 h 40 min`."""
    sign = "−" if minutes < 0 else ""
    hours, rest = divmod(abs(minutes), 60)
    if not hours:
        return f"{sign}{rest} min"
    if rest in _QUARTERS:
        return f"{sign}{hours}{_QUARTERS[rest]} h"
    return f"{sign}{hours} h {rest} min"


def field_hours(minutes: int) -> str:
    """For an input field: `2.5` for quarters of an hour, else `1:40`. Reads back as the same minutes."""
    hours, rest = divmod(minutes, 60)
    if rest in _QUARTERS:
        quarters = Fraction(rest, 60)
        return f"{hours}{'' if not rest else '.' + str(int(quarters * 100)).rstrip('0')}"
    return f"{hours}:{rest:02d}"
