"""Days: typed, shown and counted without a clock; today is always an argument.

Names of months and days are fixed English, so that what a page shows does not hang on the machine's language.
"""

import re
from calendar import monthrange
from collections.abc import Container
from datetime import date, datetime, timedelta

from webapp.values.errors import BadInput
from webapp.values.own_words import own
from webapp.values.typed import LONGEST, plain_text

MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
WEEKDAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")
"""In the order of `date.weekday()`: Monday is 0."""

MONDAY_TO_FRIDAY = frozenset({0, 1, 2, 3, 4})

_NEAR_DAYS = 180
_AHEAD_DAYS = 183
_FIRST_YEAR, _LAST_YEAR = 1900, 2199

_ISO = re.compile(r"(\d+)[-/](\d{1,2})[-/](\d{1,2})", re.ASCII)
_SHORT_NUMBERS = re.compile(r"(\d{1,2})[-/.](\d{1,2})[-/.](\d{2}|\d{4})", re.ASCII)
_WEEKDAY = r"(?:(?P<weekday>mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+)?"
_DAY = r"(?P<day>\d{1,2})(?:st|nd|rd|th)?"
_MONTH = r"(?P<month>[a-z]{3,9})\.?"
_DAY_FIRST = re.compile(rf"{_WEEKDAY}{_DAY}[\s-]*{_MONTH}(?:,?[\s-]+(?P<year>\d+))?", re.ASCII)
_MONTH_FIRST = re.compile(rf"{_WEEKDAY}{_MONTH}\s+{_DAY}(?:,?\s+(?P<year>\d+))?", re.ASCII)


def parse_day(text: str, today: date) -> date:
    """The day of `2026-05-09`, `9 May 2026`, `May 9`, `today`, `yesterday` or `tomorrow`.

    Without a year it is the latest such day that is not more than 183 days after `today`.
    Raises BadInput, with likely days as ISO text where the slip can be guessed.
    """
    plain = plain_text(text)
    if len(plain) > LONGEST:
        raise _unreadable(today)
    if plain in {"yesterday", "today", "tomorrow"}:
        return today + timedelta(days=("yesterday", "today", "tomorrow").index(plain) - 1)
    if (iso := _ISO.fullmatch(plain)) and len(iso[1]) > 2:
        return _real_day(int(iso[1]), int(iso[2]), int(iso[3]))
    named = _DAY_FIRST.fullmatch(plain) or _MONTH_FIRST.fullmatch(plain)
    month = _month_number(named["month"]) if named else None
    if named is None or month is None:
        raise _doubtful_numbers(plain, today)
    return _named_day(named, month, today)


def _unreadable(today: date) -> BadInput:
    return BadInput(f"Write a day such as {today.isoformat()} or {show_date(today)}.")


def _doubtful_numbers(plain: str, today: date) -> BadInput:
    """A refusal of `5/9/2026`, which half the world reads as 5 September, or of anything unreadable."""
    numbers = _SHORT_NUMBERS.fullmatch(plain)
    if numbers is None:
        return _unreadable(today)
    first, second, year = int(numbers[1]), int(numbers[2]), int(numbers[3])
    if year < 100:
        return BadInput(f"Write the year with four digits, such as {today.isoformat()}.")
    both = {(second, first), (first, second)}
    likely = sorted(f"{year}-{month:02d}-{day:02d}" for month, day in both if _exists(year, month, day))
    hint = f" Did you mean {' or '.join(show_date(date.fromisoformat(iso)) for iso in likely)}?" if likely else ""
    return BadInput(f"Day and month can be swapped in {plain}.{hint}", tuple(likely))


def _exists(year: int, month: int, day: int) -> bool:
    return _FIRST_YEAR <= year <= _LAST_YEAR and 1 <= month <= 12 and 1 <= day <= monthrange(year, month)[1]


def _month_number(name: str) -> int | None:
    matching = [number for number, month in enumerate(MONTHS, 1) if month.lower().startswith(name)]
    return matching[0] if len(matching) == 1 else None


def _named_day(named: re.Match[str], month: int, today: date) -> date:
    year = named["year"]
    if year is not None and len(year) <= 2:
        guess = f"{today.year // 100}{int(year):02d}-{month:02d}-{int(named['day']):02d}"
        likely = (guess,) if _exists(int(guess[:4]), month, int(named["day"])) else ()
        raise BadInput(f"Write the year with four digits, such as {today.year}.", likely)
    whole_year = int(year) if year is not None else _nearest_year(month, int(named["day"]), today)
    day = _real_day(whole_year, month, int(named["day"]))
    weekday = WEEKDAYS[day.weekday()]
    if named["weekday"] and not weekday.lower().startswith(named["weekday"]):
        raise BadInput(f"{show_date(day)} is a {weekday}. Is the day right?", (day.isoformat(),))
    return day


def _nearest_year(month: int, day: int, today: date) -> int:
    """The latest year in which the day, or the end of its month, is at most 183 days after `today`."""
    last = today + timedelta(days=_AHEAD_DAYS)
    return last.year if (month, min(day, monthrange(last.year, month)[1])) <= (last.month, last.day) else last.year - 1


def _real_day(year: int, month: int, day: int) -> date:
    """The day, or a BadInput that says why there is no such day."""
    if not _FIRST_YEAR <= year <= _LAST_YEAR:
        raise BadInput(f"The year {year} lies outside {_FIRST_YEAR} to {_LAST_YEAR}. Look at its digits.")
    if not 1 <= month <= 12:
        swapped = (f"{year}-{day:02d}-{month:02d}",) if _exists(year, day, month) else ()
        hint = f" Did you mean {show_date(date(year, day, month))}?" if swapped else ""
        raise BadInput(f"There is no month {month}.{hint}", swapped)
    if not 1 <= day <= monthrange(year, month)[1]:
        raise _no_such_day(year, month, day)
    return date(year, month, day)


def _no_such_day(year: int, month: int, day: int) -> BadInput:
    length = monthrange(year, month)[1]
    name = f"{MONTHS[month - 1]} {year}" if month == 2 else MONTHS[month - 1]
    sentence = f"{name} has {length} days."
    if not 1 <= day <= 31:
        return BadInput(f"{sentence} There is no day {day} in it.")
    last, following = date(year, month, length), date(year, month + 1, 1)
    return BadInput(
        f"{sentence} Did you mean {length} {MONTHS[month - 1]} or {show_date(following)}?",
        (last.isoformat(), following.isoformat()),
    )


def show_date(day: date) -> str:
    """`16 May 2026`."""
    return f"{day.day} {MONTHS[day.month - 1]} {day.year}"


def show_long_day(day: date) -> str:
    """`Saturday 16 May 2026`."""
    return f"{WEEKDAYS[day.weekday()]} {show_date(day)}"


def show_day(day: date, today: date | None = None) -> str:
    """`Sat 16 May` in the year of `today` or within 180 days of it, else `Sat 16 May 2026`."""
    near = today is not None and (day.year == today.year or abs((day - today).days) <= _NEAR_DAYS)
    shown = f"{WEEKDAYS[day.weekday()][:3]} {day.day} {MONTHS[day.month - 1][:3]}"
    return shown if near else f"{shown} {day.year}"


def show_short_day(day: date, today: date | None = None) -> str:
    """`16 May`, with the year where `show_day` has it."""
    return show_day(day, today).partition(" ")[2]


def show_moment(moment: datetime) -> str:
    """`16 May 17:20`, in whatever zone `moment` is already in."""
    return f"{moment.day} {MONTHS[moment.month - 1][:3]} {moment:%H:%M}"


def days_between(first: date, second: date) -> int:
    """Days from `first` to `second`; negative when `second` is earlier."""
    return (second - first).days


def in_days(day: date, today: date) -> str:
    """`today`, `tomorrow`, `in 3 days`, `5 weeks ago`.

    Weeks and years are rounded down: what is still to come is never said to be further off than it is.
    """
    days = days_between(today, day)
    if days in (-1, 0, 1):
        return ("yesterday", "today", "tomorrow")[days + 1]
    span = _span(min(day, today), max(day, today))
    return f"in {span}" if days > 0 else f"{span} ago"


def _span(first: date, last: date) -> str:
    days = days_between(first, last)
    years = last.year - first.year - ((last.month, last.day) < (first.month, first.day))
    if years >= 2:
        return f"{years} years"
    return f"{days} days" if days < 28 else f"{days // 7} weeks"


def add_working_days(
    start: date, days: int, closed: Container[date], weekdays: frozenset[int] = MONDAY_TO_FRIDAY
) -> date:
    """The day that is `days` working days after `start` (before it when negative), `start` not counted.

    Zero gives `start` back, open or not. `closed` are days off, `weekdays` the open ones with Monday as 0.
    Raises ValueError when no weekday is open.
    """
    if not weekdays & frozenset(range(7)):
        raise ValueError("At least one weekday must be open.")
    step = timedelta(days=1 if days > 0 else -1)
    day, left = start, abs(days)
    while left:
        day += step
        if day.weekday() in weekdays and day not in closed:
            left -= 1
    return day


def lapse_day(last: date, days: int) -> date:
    """The last day a permit still stands, `days` calendar days after the last that counts.

    It is invalid from the next day on. The model code's usual number is 180 (IRC R105.5); the local authority
    decides both the number and what counts.
    """
    return last + timedelta(days=days)


def add_months(day: date, months: int) -> date:
    """The same day of the month so many calendar months on; the last of that month where it has no such day.

    31 January and one month is 28 February (29 in a leap year), and from there a month more is 28 March.
    """
    year, month = divmod(day.year * 12 + day.month - 1 + months, 12)
    return date(year, month + 1, min(day.day, monthrange(year, month + 1)[1]))


def same_day_in(day: date, year: int) -> date | None:
    """`day` in another year; None for 29 February where there is none."""
    if day.day > monthrange(year, day.month)[1]:
        return None
    return day.replace(year=year)


def question_year(day: date, not_before: date | None, today: date) -> tuple[str, tuple[str, ...]] | None:
    """A question about a day before the permit was issued or after today, and likely days as ISO text.

    It asks and does not refuse: the builder may be right. None when there is nothing to ask.
    """
    if not_before is not None and day < not_before:
        problem = f"{show_date(day)} is before the {own('permit')} was issued ({show_date(not_before)})."
    elif day > today:
        problem = f"{show_date(day)} is after today ({show_date(today)})."
    else:
        return None
    likely = _same_day_between(day, not_before, today)
    if not likely:
        return f"{problem} Is the day right?", ()
    return f"{problem} Did you mean {' or '.join(map(show_date, likely))}?", tuple(map(date.isoformat, likely))


ABOUT_A_YEAR = (320, 410)
"""days back between which a day is about a year ago"""


def question_a_year_off(day: date, today: date) -> tuple[str, tuple[str, ...]] | None:
    """A question about a day about a year ago, and the same day this year: the year is what is mistyped most.

    For what is written down within days as a rule. It asks and does not refuse.
    """
    if not ABOUT_A_YEAR[0] <= (today - day).days <= ABOUT_A_YEAR[1]:
        return None
    likely = _same_day_between(day, day + timedelta(days=ABOUT_A_YEAR[0]), today)
    meant = f"Did you mean {show_date(likely[0])}?" if likely else "Is the year right?"
    return f"{show_date(day)} is about a year ago. {meant}", tuple(map(date.isoformat, likely))


def _same_day_between(day: date, first: date | None, last: date) -> tuple[date, ...]:
    """The same day and month in the latest two years that fit, later one first."""
    earliest = first or same_day_in(last, last.year - 1) or last
    found = (same_day_in(day, year) for year in range(last.year, earliest.year - 1, -1))
    return tuple(other for other in found if other and earliest <= other <= last)[:2]
