"""How offices' days read."""

from collections.abc import Collection

from webapp.inspections.rules.booking import ClosedFacts
from webapp.values.dates import WEEKDAYS
from webapp.values.words import join_words


def closed_words(closed: ClosedFacts) -> str:
    """ "Closed, every office: moving house" """
    says = "It works on this day all the same" if closed.open else "Closed"
    whose = ", every office" if closed.office_id is None else ""
    return f"{says}{whose}{f': {closed.why}' if closed.why else ''}"


def weekday_words(days: Collection[int]) -> str:
    """`Tuesday and Thursday`, `Monday to Friday`, `every day`; Monday is 0."""
    found = sorted(days)
    if len(found) == len(WEEKDAYS):
        return "every day"
    if len(found) > 2 and found == list(range(found[0], found[-1] + 1)):
        return f"{WEEKDAYS[found[0]]} to {WEEKDAYS[found[-1]]}"
    return join_words([WEEKDAYS[day] for day in found])
