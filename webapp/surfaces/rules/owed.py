"""When an owed picture counts as taken."""

from datetime import date
from enum import StrEnum


class SlotState(StrEnum):
    """How a picture slot stands. Only a filled one is settled."""

    OWED = "owed"
    DATE_UNKNOWN = "filled, date unknown"
    TAKEN_TOO_LATE = "taken after it was closed"
    FILLED = "filled"


def taken_day(taken_at: str | None) -> date | None:
    """The day of a capture time such as "2026-05-09T17:48:00"; None while it is unknown."""
    return date.fromisoformat(taken_at[:10]) if taken_at else None


def slot_state(filled: bool, taken_at: str | None, covered_on: date | None = None) -> SlotState:
    """How a slot stands. `taken_at` is the picture's capture time, `covered_on` the day the surface was closed.

    A picture of unknown date proves nothing about what was open, nor does one taken on a later day than the closing.
    """
    if not filled:
        return SlotState.OWED
    day = taken_day(taken_at)
    if day is None:
        return SlotState.DATE_UNKNOWN
    if covered_on is not None and day > covered_on:
        return SlotState.TAKEN_TOO_LATE
    return SlotState.FILLED
