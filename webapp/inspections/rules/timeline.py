"""The time of one permit as a dimension line, drawn 350 wide: from the day that counts, over now, to the last day."""

from dataclasses import dataclass
from datetime import date

from webapp.values.dates import days_between, show_short_day
from webapp.values.words import plural

LEFT, RIGHT = 6, 344
ROOM = 104
"""least width on each side of now that its labels need: nearer to an end it is drawn as near as that"""


@dataclass(frozen=True, slots=True)
class Timeline:
    """`now_x` and `ask_x` are None where there is no such mark, or no room for it; `says` is the drawing in words."""

    now_x: int | None
    ask_x: int | None
    gone: str
    left: str
    first: str
    last: str
    says: str

    @property
    def gone_middle(self) -> int:
        return (LEFT + (self.now_x or RIGHT)) // 2

    @property
    def left_middle(self) -> int:
        return ((self.now_x or LEFT) + RIGHT) // 2


def timeline(counting: date, today: date, lapses: date, ask_by: date | None) -> Timeline | None:
    """None where the last day is not after the day that counts."""
    whole = days_between(counting, lapses)
    if whole <= 0:
        return None
    first, last = show_short_day(counting, today), show_short_day(lapses, today)
    gone, left = days_between(counting, today), days_between(today, lapses)
    if left < 0:
        return Timeline(None, None, f"{plural(whole, 'day')}, over", "", first, last, f"It ran from {first} to {last}.")

    def at(day: date) -> int:
        return LEFT + (RIGHT - LEFT) * max(0, days_between(counting, day)) // whole

    now = min(max(at(today), LEFT + ROOM), RIGHT - ROOM)
    asked = ask_by is not None and ask_by >= today and RIGHT - at(ask_by) >= 8 and at(ask_by) - now >= 8
    left_words = f"{plural(left, 'day')} left" if left else "today"
    says = f"From {first}, {plural(max(gone, 0), 'day')} gone; {left_words} to {last}."
    return Timeline(
        now, at(ask_by) if asked and ask_by else None, plural(max(gone, 0), "day"), left_words, first, last, says
    )
