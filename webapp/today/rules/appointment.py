"""The line from now over the last day to ask to the visit itself, drawn 350 wide."""

from dataclasses import dataclass
from datetime import date

from webapp.values.words import plural

LEFT, RIGHT, LEAST = 6, 344, 84


@dataclass(frozen=True, slots=True)
class Dimension:
    """`ask_x` is None once the visit is asked for, or when it is too late to ask; `says` is the drawing in words."""

    ask_x: int | None
    first: str
    second: str
    says: str

    @property
    def first_middle(self) -> int:
        return (LEFT + (self.ask_x or RIGHT)) // 2

    @property
    def second_middle(self) -> int:
        return ((self.ask_x or LEFT) + RIGHT) // 2


def _days(days: int) -> str:
    return plural(days, "day") if days else "today"


def dimension(today: date, ask_by: date | None, visit: date) -> Dimension:
    """`ask_by` is None once the visit is asked for."""
    whole = (visit - today).days
    if ask_by is None or ask_by < today:
        return Dimension(None, _days(whole), "", f"From now to the visit: {_days(whole)}.")
    first, second = (ask_by - today).days, (visit - ask_by).days
    share = (RIGHT - LEFT) * first // whole if whole else 0
    at = LEFT + min(max(share, LEAST), RIGHT - LEFT - LEAST)
    left = f"{_days(first)} to ask" if first else "ask today"
    return Dimension(at, left, _days(second), f"From now, {left}; the visit comes {_days(second)} after that.")
