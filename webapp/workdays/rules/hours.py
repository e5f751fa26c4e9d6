"""Whose hands, how long. The four kinds are kept apart: nothing here adds one to another."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import date, timedelta

from webapp.values.dates import show_date
from webapp.values.duration import DAY_MINUTES, show_minutes


@dataclass(frozen=True, slots=True)
class Hours:
    """Minutes of one day or of several, by whose hands. Own minutes are those of one person."""

    own: int = 0
    unpaid: int = 0
    paid: int = 0
    hired: int = 0

    def kinds(self) -> tuple[tuple[str, int], ...]:
        """Each kind that has any, in words, with its minutes."""
        named = (("my own", self.own), ("unpaid help", self.unpaid), ("paid help", self.paid), ("hired", self.hired))
        return tuple((name, minutes) for name, minutes in named if minutes)

    def words(self) -> tuple[str, ...]:
        """`7 h my own`, `9 h unpaid help`; one for each kind that has any."""
        return tuple(f"{show_minutes(minutes)} {name}" for name, minutes in self.kinds())


def together(days: Iterable[Hours]) -> Hours:
    """Kind by kind."""
    own = unpaid = paid = hired = 0
    for day in days:
        own, unpaid, paid, hired = own + day.own, unpaid + day.unpaid, paid + day.paid, hired + day.hired
    return Hours(own, unpaid, paid, hired)


def week_of(day: date) -> date:
    """The Monday of its week (weeks begin on Monday: ISO 8601-1:2019, 3.1.1.23, from memory)."""
    return day - timedelta(days=day.weekday())


def own_question(minutes: int, already: int, day: date) -> str:
    """A sentence when one person's hours of one day, with what its other notes hold, go over a day; else empty."""
    if minutes + already <= DAY_MINUTES:
        return ""
    noted = f"{show_minutes(already)} are noted for {show_date(day)} already. " if already else ""
    return f"{noted}That makes {show_minutes(minutes + already)} of your own in one day, and a day has 24."


def people_question(minutes: int) -> str:
    """A sentence when hours of one kind of helper need more than one person; empty when one could have done them."""
    people = -(-minutes // DAY_MINUTES)
    if people < 2:
        return ""
    return f"{show_minutes(minutes)} in one day take at least {people} people. If that is right, tick the line below."


def split_question(split: int, own: int) -> str:
    """A sentence when the tasks add up to more of my own time than the day has; the rest of a day may stay unsplit."""
    if split <= own:
        return ""
    return f"The tasks add up to {show_minutes(split)}; the day has {show_minutes(own)} of your own."
