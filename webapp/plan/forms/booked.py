"""What comes on a day, as typed."""

import re
from collections.abc import Collection
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.plan.actions.booked import NewBooked
from webapp.plan.rules.kinds import BookedState
from webapp.values.dates import parse_day, show_date

_HOUR = re.compile(r"([01]?\d|2[0-3]):[0-5]\d")
A_YEAR = 366


def read_booked(sent: Submitted, today: date, task_ids: Collection[int]) -> NewBooked:
    """Raises BadForm; a day that is past or more than a year off is asked about."""
    read = Reader(sent)
    what = read.text("what", "What comes? “Concrete truck”, for one.", most=120)
    task = read.one_of("task", ("", *map(str, task_ids)))
    day = read.parsed("day", lambda text: parse_day(text, today))
    if day is not None and not -A_YEAR < (day - today).days < A_YEAR and not read.flag("day_right"):
        sentence = f"{show_date(day)} is more than a year off. If it is right, tick “The day is right”."
        read.wrong("day", sentence)
    hour = read.text("cancel_by")
    if hour and not _HOUR.fullmatch(hour):
        read.wrong("cancel_by", "Write an hour such as 07:00.", ("07:00",))
    new = NewBooked(
        what=what,
        task_id=int(task) if task else None,
        day=day,
        window=read.text("window", most=40),
        cancel_by=hour.zfill(5) if hour else "",
        cancel_days=read.whole("cancel_days", most=30) or 0,
        note=read.text("note", most=300),
    )
    read.done()
    return new


def read_booked_state(sent: Submitted) -> BookedState:
    read = Reader(sent)
    state = read.one_of("to", [each.value for each in BookedState], BookedState.BOOKED.value)
    read.done()
    return BookedState(state)
