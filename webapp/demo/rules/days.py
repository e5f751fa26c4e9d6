"""Days of the scenario: offsets from one Saturday, and the words for a day inside a sentence."""

import re
from collections.abc import Callable
from datetime import date, timedelta

SayDay = Callable[[date], str]

_SATURDAY = 5
BEGUN = -264
"""the Monday of build week 1"""
_DAY_IN_WORDS = re.compile(r"\{d:(-?\d+)\}")


def demo_today(today: date) -> date:
    """The latest Saturday on or before `today`: day 0 of the scenario.

    The scenario was written for a Saturday, and its visits, working hours and inspectors' days name weekdays
    ("Wednesday, if it stands"). Counting from the real today would put the Wednesday visit on a Friday, and letting
    the days after the Saturday pass would leave it behind; so the demo's clock is held at the Saturday.
    """
    return today - timedelta(days=(today.weekday() - _SATURDAY) % 7)


def day_at(saturday: date, offset: int) -> date:
    """The date `offset` days from day 0; negative is past."""
    return saturday + timedelta(days=offset)


def spell_days(sentence: str, saturday: date, say_day: SayDay) -> str:
    """Put the words of a date wherever the sentence has an offset such as `{d:-46}`."""
    return _DAY_IN_WORDS.sub(lambda found: say_day(day_at(saturday, int(found[1]))), sentence)
