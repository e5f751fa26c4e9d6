"""A visit to come, as booked: its day and hours, who is there, whether by video, when and how it was asked for."""

from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.inspections.rules.asking import Asking, odd, window_hours
from webapp.values.dates import parse_day

RIGHT = "It is right so"


@dataclass(frozen=True, slots=True)
class Booking:
    """Without a day it is only owed; without `asked_on` only planned."""

    day: date | None
    asked_on: date | None
    window: str
    note: str = ""
    who_there: str = ""
    asked_how: str = ""
    remote: bool = False


def read_booking(sent: Submitted, today: date, about: Asking) -> Booking:
    """Raises BadForm; what is odd about its day, hours or asking is asked about until `booking_right` is ticked."""
    read = Reader(sent)
    day = read.parsed("day", lambda text: parse_day(text, today))
    asked_on = read.parsed("asked_on", lambda text: parse_day(text, today))
    if asked_on is not None and asked_on > today:
        read.wrong("asked_on", "This is the day on which you asked; leave it empty until you have.")
    if day is not None and day < today:
        read.wrong("day", "A visit to come is today or later. What was held is written down on its own sheet.")
    if day is not None and asked_on is not None and asked_on > day:
        read.wrong("asked_on", "It cannot have been asked for after the visit. Look at both days.")
    hours = read.parsed("window", window_hours)
    booking = Booking(
        day=day,
        asked_on=asked_on,
        window=read.text("window", most=40),
        note=read.text("note"),
        who_there=read.text("who_there", most=120),
        asked_how=read.text("asked_how", most=160),
        remote=read.flag("remote"),
    )
    if not read.errors and not read.flag("booking_right"):
        for field, text in odd(day, asked_on, hours, about, today).items():
            read.wrong(field, f"{text} If it is right, tick “{RIGHT}”.")
    read.done()
    return booking
