"""What is odd about a visit as booked: asked about, never refused, since the office may have said otherwise.

A day before the permit was issued, one on which the office does not visit, one for which it is too late to ask, hours
outside its own, a year mistyped.
"""

import re
from collections.abc import Callable, Iterator
from dataclasses import dataclass
from datetime import date

from webapp.values.dates import show_date, show_day, show_long_day
from webapp.values.errors import BadInput

A_YEAR = 366
_SPAN = re.compile(r"(\d{1,2}[:.]\d\d)\s*(?:to|until|-|–)\s*(\d{1,2}[:.]\d\d)")
_HOUR = re.compile(r"([01]?\d|2[0-3]):[0-5]\d")


@dataclass(frozen=True, slots=True)
class Asking:
    """What a booking is read against. `comes_on` and `ask_by` are of its office; hours are "15:30" or empty."""

    permit: str
    issued_on: date | None
    comes_on: Callable[[date], bool]
    ask_by: Callable[[date], date]
    ask_hour: str
    from_time: str = ""
    until_time: str = ""
    office: str = ""

    @property
    def who(self) -> str:
        return self.office or "the office"


def window_hours(window: str) -> tuple[str, str] | None:
    """ "9:00 to 12:00" as ("09:00", "12:00"); None for words. Raises BadInput for hours that cannot be meant."""
    found = _SPAN.search(window)
    if found is None:
        return None
    first, last = (hour.replace(".", ":") for hour in found.groups())
    for hour in (first, last):
        if not _HOUR.fullmatch(hour):
            raise BadInput(f"There is no hour {hour}.")
    first, last = first.zfill(5), last.zfill(5)
    if first >= last:
        raise BadInput(f"{first} is not before {last}. Write it as 09:00 to 12:00.", (f"{last} to {first}",))
    return first, last


def _about_the_day(day: date, asked_on: date | None, about: Asking, today: date) -> Iterator[str]:
    if (day - today).days > A_YEAR:
        yield f"{show_date(day)} is more than a year off."
    if about.issued_on is None:
        yield f"{about.permit} is not issued yet."
    elif day < about.issued_on:
        yield f"{show_date(day)} is before {about.permit} was issued ({show_date(about.issued_on)})."
    if not about.comes_on(day):
        yield f"{show_long_day(day)} is no day on which {about.who} visits."
    last = about.ask_by(day)
    by = f"{show_day(last, today)} {about.ask_hour}".strip()
    if asked_on is None and last < today:
        yield f"It had to be asked for by {by}. That is past."
    elif asked_on is not None and asked_on > last:
        yield f"It had to be asked for by {by}; you asked on {show_day(asked_on, today)}."


def _about_asking(asked_on: date, about: Asking) -> Iterator[str]:
    if about.issued_on is not None and asked_on < about.issued_on:
        yield f"{show_date(asked_on)} is before {about.permit} was issued ({show_date(about.issued_on)})."


def _about_hours(hours: tuple[str, str], about: Asking) -> Iterator[str]:
    opens, closes = about.from_time, about.until_time
    if (opens and hours[0] < opens) or (closes and hours[1] > closes):
        yield f"{about.who[:1].upper()}{about.who[1:]} visits from {opens or '?'} to {closes or '?'}."


def odd(
    day: date | None, asked_on: date | None, hours: tuple[str, str] | None, about: Asking, today: date
) -> dict[str, str]:
    """By field, everything that is odd about it in one text."""
    told = {
        "day": " ".join(_about_the_day(day, asked_on, about, today)) if day else "",
        "asked_on": " ".join(_about_asking(asked_on, about)) if asked_on else "",
        "window": " ".join(_about_hours(hours, about)) if hours else "",
    }
    return {field: text for field, text in told.items() if text}
