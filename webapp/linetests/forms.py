"""What the forms of tests on lines send."""

from collections.abc import Callable, Mapping
from datetime import date, datetime

from webapp.core.forms import FormState, Reader, Submitted, Upload
from webapp.linetests.actions import End, Start
from webapp.linetests.rules.hours import minutes_between, parse_hour
from webapp.linetests.rules.kinds import TestKind, TestOutcome
from webapp.linetests.rules.published import VALUES, published
from webapp.linetests.store import TestFacts
from webapp.values.dates import parse_day
from webapp.values.errors import BadInput

Keep = Callable[[Upload], int]
Ids = Mapping[str, int]
"""what a form may send, to the id of its row"""
SEEN = tuple(each.value for each in TestOutcome if each != TestOutcome.RUNNING)


def _past(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput("That day is still to come.", (today.isoformat(),))
    return day


def _start(read: Reader, today: date, lines: Ids, places: Ids, keep: Keep) -> dict[str, object]:
    kind = read.one_of("kind", [each.value for each in TestKind], required="Choose how it is tried.")
    offer = published(read.one_of("offer", [one.key for one in VALUES]))
    line = read.one_of("line", lines.keys())
    surface = read.one_of("surface", places.keys())
    wanted = read.text("wanted", most=160) or (offer.wanted if offer else "")
    source = read.text("wanted_source", most=160) or (offer.source if offer and wanted == offer.wanted else "")
    return {
        "kind": kind,
        "what": read.text("what", "Which line, room or stretch? A few words will do.", most=160),
        "day": read.parsed("day", lambda text: _past(text, today), "On which day did it begin?"),
        "start_time": read.parsed("start_time", parse_hour, "At what hour did it begin?"),
        "start_reading": read.text("start_reading", "What did it show, or how full was it?", most=60),
        "wanted": wanted,
        "wanted_source": source,
        "line_id": lines.get(line),
        "surface_id": places.get(surface),
        "start_photo_id": read.file("start_photo", keep),
        "note": read.text("note"),
    }


def read_start(sent: Submitted, today: date, lines: Ids, places: Ids, keep: Keep) -> Start:
    """A test as it begins. Raises BadForm; a sent picture is kept anyway."""
    read = Reader(sent)
    values = _start(read, today, lines, places, keep)
    read.done()
    return Start(**values)  # type: ignore[arg-type]


def _end(read: Reader, today: date, keep: Keep, day: date | None, start_time: str) -> dict[str, object]:
    values: dict[str, object] = {
        "end_day": read.parsed("end_day", lambda text: _past(text, today), "On which day did it end?"),
        "end_time": read.parsed("end_time", parse_hour, "At what hour did it end?"),
        "end_reading": read.text("end_reading", "What does it show now?", most=60),
        "outcome": read.one_of("outcome", SEEN, required="Say what you saw."),
        "end_photo_id": read.file("end_photo", keep),
        "note": read.text("note"),
    }
    end_day, end_time = values["end_day"], values["end_time"]
    if day and start_time and isinstance(end_day, date) and isinstance(end_time, str):
        if end_day < day:
            read.wrong("end_day", "That is before the day it began.")
        elif minutes_between(day, start_time, end_day, end_time) < 0:
            read.wrong("end_time", f"It began at {start_time} that day. Was it the day after?")
    return values


def read_end(sent: Submitted, today: date, test: TestFacts, keep: Keep) -> End:
    """How a test ended. Raises BadForm; a sent picture is kept anyway."""
    read = Reader(sent)
    values = _end(read, today, keep, test.day, test.start_time)
    read.done()
    return End(**values)  # type: ignore[arg-type]


def read_amended(
    sent: Submitted, today: date, test: TestFacts, lines: Ids, places: Ids, keep: Keep
) -> tuple[Start, End | None, str]:
    """A test put right: its start, its end when it has one, and why. Raises BadForm."""
    read = Reader(sent)
    start = _start(read, today, lines, places, keep)
    end = None
    if test.outcome != TestOutcome.RUNNING:
        day, hour = start["day"], start["start_time"]
        known = day if isinstance(day, date) else None
        end = _end(read, today, keep, known, hour if isinstance(hour, str) else "")
    why = read.text("why", "Why does it change? It stays beside what stood there.", most=400)
    read.done()
    return Start(**start), End(**end) if end else None, why  # type: ignore[arg-type]


def read_taken_back(sent: Submitted, today: date) -> tuple[date, str]:
    """The day and the reason a test counts no more."""
    read = Reader(sent)
    on = read.parsed("on", lambda text: _past(text, today), "Since which day?")
    why = read.text("why", "Why does it count no more?", most=400)
    read.done()
    return on or today, why


def blank(today: date, now: datetime, line: str = "", surface: str = "", kind: str = "", what: str = "") -> FormState:
    """A test put on now."""
    return FormState.of(
        day=today.isoformat(), start_time=f"{now:%H:%M}", line=line, surface=surface, kind=kind, what=what
    )


def ending(today: date, now: datetime) -> FormState:
    return FormState.of(end_day=today.isoformat(), end_time=f"{now:%H:%M}", on=today.isoformat())


def filled(test: TestFacts) -> FormState:
    """The form as the test stands on record."""
    return FormState.of(
        kind=test.kind,
        what=test.what,
        line=str(test.line_id or ""),
        surface=str(test.surface_id or ""),
        wanted=test.wanted,
        wanted_source=test.wanted_source,
        day=test.day.isoformat(),
        start_time=test.start_time,
        start_reading=test.start_reading,
        end_day=test.end_day.isoformat() if test.end_day else "",
        end_time=test.end_time,
        end_reading=test.end_reading,
        outcome=test.outcome,
        note=test.note,
    )
