"""Public holidays of a country or a part of it, by the `holidays` library: loaded when asked for, kept by year."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date
from functools import cache
from importlib import import_module
from typing import Any


@cache
def _library() -> Any:
    """Loading it and one country takes a third of a second: only who typed a calendar waits for it."""
    return import_module("holidays")


@cache
def supported() -> Mapping[str, tuple[str, ...]]:
    """Country (ISO 3166-1, two letters) -> its parts that have holidays of their own (ISO 3166-2, second half)."""
    return {country: tuple(parts) for country, parts in _library().list_supported_countries().items()}


def known(code: str) -> bool:
    """Whether there is a calendar for "US" or "US-OR"."""
    country, _, part = code.partition("-")
    return country in supported() and (not part or part in supported()[country])


@cache
def holidays_in(code: str, year: int) -> Mapping[date, str]:
    """Day -> its name, in English where the library has it; nothing for a code it does not know."""
    if not known(code):
        return {}
    country, _, part = code.partition("-")
    found = _library().country_holidays(country, subdiv=part or None, years=year, language="en_US")
    return {day: name for day, name in sorted(found.items()) if day.year == year}


@dataclass(frozen=True, slots=True)
class PublicHolidays:
    """The public holidays of a calendar, as a collection of days."""

    code: str

    def __contains__(self, day: object) -> bool:
        return isinstance(day, date) and day in holidays_in(self.code, day.year)
