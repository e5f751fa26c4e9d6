"""Days that are asked about, since a slip of the year is easily typed and moves a permit's clock."""

from datetime import date

from webapp.values.dates import show_date

FAR = 180
"""days from the day a visit was booked for, from which the day it was held is asked about: a slip of the year is 365"""
LONG_AGO = 330


def question_far(
    day: date, booked_on: date | None, asked_on: date | None, today: date
) -> tuple[str, tuple[str, ...]] | None:
    """A question about a day that is far from what was booked, and the likely one. It asks and does not refuse."""
    if asked_on is not None and day < asked_on:
        likely = (booked_on.isoformat(),) if booked_on and booked_on <= today else ()
        return f"{show_date(day)} is before the visit was asked for ({show_date(asked_on)}). Is the year right?", likely
    if booked_on is not None and abs((day - booked_on).days) >= FAR:
        likely = (booked_on.isoformat(),) if booked_on <= today else ()
        return f"{show_date(day)} is far from the day it was booked for ({show_date(booked_on)}).", likely
    if booked_on is None and (today - day).days >= LONG_AGO:
        return f"{show_date(day)} is long ago. Is the year right?", ()
    return None
