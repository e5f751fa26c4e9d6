"""What is usual: hours to press instead of typing, own words to choose again, lost days by their reason."""

from collections import Counter
from collections.abc import Iterable, Sequence
from datetime import date

SATURDAY = 5
LOOKED_BACK = 12
"""days of one sort that say what is usual"""
MOST_USUAL = 3
MOST_OWN_WORDS = 3
LONGEST_CHOICE = 24
NO_REASON = "No reason noted"


def usual_minutes(days: Iterable[tuple[date, int]], today: date) -> tuple[int, ...]:
    """My own minutes of days like this one, the most usual first: evenings of a week apart from Saturdays and Sundays.

    `days` come newest first. Where no day of this sort is on record, the others speak for it.
    """
    listed = tuple(days)
    alike = [minutes for day, minutes in listed if (day.weekday() >= SATURDAY) == (today.weekday() >= SATURDAY)]
    counted = Counter((alike or [minutes for _, minutes in listed])[:LOOKED_BACK])
    return tuple(minutes for minutes, _ in counted.most_common(MOST_USUAL))


def reason_of(stopped_by: str) -> str:
    """What took a day, without the words after it: `Goods: the straps are short` was lost to goods."""
    return stopped_by.partition(": ")[0].strip() or NO_REASON


def by_reason(said: Iterable[str]) -> tuple[tuple[str, int], ...]:
    """Reasons as they were spelled last, and how many days each took; the most days first."""
    counted: Counter[str] = Counter()
    spelled: dict[str, str] = {}
    for one in said:
        reason = reason_of(one)
        spelled.setdefault(reason.casefold(), f"{reason[:1].upper()}{reason[1:]}")
        counted[reason.casefold()] += 1
    return tuple((spelled[reason], days) for reason, days in counted.most_common())


def own_reasons(said: Iterable[str], known: Sequence[str]) -> tuple[str, ...]:
    """The builder's own words for what took a day, to choose again; the latest first, long ones left to typing."""
    usual = {reason.casefold() for reason in (*known, NO_REASON)}
    found = dict.fromkeys(reason for reason, _ in by_reason(said) if reason.casefold() not in usual)
    return tuple(reason for reason in found if len(reason) <= LONGEST_CHOICE)[:MOST_OWN_WORDS]
