"""What the forms of the plan send, read field by field."""

import re
from collections.abc import Collection
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.plan.actions import NewBuild, PlannedTask, TypedNeed
from webapp.plan.rules.dangers import Danger
from webapp.plan.rules.kinds import WORK_KINDS, LengthUnit, Strength, Weather, Who
from webapp.plan.store import TaskFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.duration import parse_hours
from webapp.values.errors import BadInput
from webapp.values.estimate import Estimate
from webapp.values.own_words import GENERAL

MOST_MINUTES = 2000 * 60
"""A year of full days: more than one task can honestly be guessed at."""
STILL_TO_COME = "That day is still to come. Write the day it happened."
_CODE = re.compile(r"[A-Za-z]{3}", re.ASCII)


def read_build(sent: Submitted, names: Collection[str], lots: Collection[str] = ()) -> NewBuild:
    """`names` are those of the other builds: two of one name could not be told apart. `lots`: ids to choose from."""
    reader = Reader(sent)
    name = reader.text("name", "Give the build a name; it heads every sheet.", most=80)
    if name.casefold() in {other.casefold() for other in names}:
        reader.wrong("name", f"There is a build called “{name}” already. Give this one another name.")
    what = reader.text("what", most=300)
    unit = reader.one_of("length_unit", tuple(LengthUnit), LengthUnit.FEET_INCHES)
    currency = reader.parsed("currency", _currency, "Write the three letters of the currency, such as USD.")
    lot_id, new_lot = _read_lot(reader, lots)
    reader.done()
    return NewBuild(name, what, unit, currency or "USD", lot_id, new_lot)


def _read_lot(reader: Reader, lots: Collection[str]) -> tuple[int | None, str]:
    """The lot chosen, or the name of another one, which comes first when both were given."""
    chosen, new = reader.one_of("lot", ("", *lots)), reader.text("new_lot", most=80)
    return (int(chosen) if chosen and not new else None), new


def read_lot(sent: Submitted, lots: Collection[str]) -> tuple[int | None, str]:
    reader = Reader(sent)
    found = _read_lot(reader, lots)
    reader.done()
    return found


def _currency(text: str) -> str:
    if not _CODE.fullmatch(text):
        raise BadInput("A currency is three letters, such as USD, CAD, EUR or GBP.")
    return text.upper()


def read_phase(sent: Submitted) -> tuple[str, str]:
    """Title and purpose."""
    reader = Reader(sent)
    title = reader.text("title", "Give the phase a name, such as “Ceiling joists and furring”.", most=120)
    purpose = reader.text("purpose", most=300)
    reader.done()
    return title, purpose


def _read_task(reader: Reader) -> PlannedTask:
    title = reader.text("title", "Write what is to be done, such as “Hang the board, north”.", most=200)
    kind = reader.one_of("kind", WORK_KINDS, required="Choose the kind of work; it brings the usual caution with it.")
    who = reader.one_of("who", tuple(Who), Who.SELF)
    low, likely, high = _read_estimate(reader)
    return PlannedTask(
        title=title,
        kind=kind,
        who=who,
        hands=_read_hands(reader, who),
        weather=reader.one_of("weather", tuple(Weather), Weather.ANY),
        low_min=low,
        likely_min=likely,
        high_min=high,
        wait_days=reader.whole("wait_days", most=400) or 0,
        wait_reason=reader.text("wait_reason", most=200),
        one_go=reader.flag("one_go"),
        note=reader.text("note"),
        dangers=reader.many_of("danger", tuple(Danger)),
    )


def read_task(sent: Submitted) -> PlannedTask:
    reader = Reader(sent)
    planned = _read_task(reader)
    reader.done()
    return planned


def _read_hands(reader: Reader, who: str) -> int:
    hands = reader.whole("hands", least=1, most=20)
    if hands is None:
        return 2 if who == Who.HELPER else 1
    if who == Who.HELPER and hands < 2:
        reader.wrong("hands", "With a helper there are at least two of you.", ("2",))
    if who == Who.SELF and hands > 1:
        reader.wrong("hands", "Alone is one pair of hands. Choose “With a helper”, or write 1.", ("1",))
    return hands


def _read_estimate(reader: Reader) -> tuple[int, int, int]:
    """Three guesses in minutes; when they are out of order the sentence stands beside the one that is off."""
    hours = partial(parse_hours, most_minutes=MOST_MINUTES)
    guesses = {
        "low": reader.parsed("low", hours, "Guess low: hours if all goes well."),
        "likely": reader.parsed("likely", hours, "Guess the likely hours."),
        "high": reader.parsed("high", hours, "Guess high: hours if it goes badly."),
    }
    low, likely, high = guesses["low"], guesses["likely"], guesses["high"]
    if low is None or likely is None or high is None:
        return 0, 0, 0
    try:
        Estimate.of(low, likely, high)
    except BadInput as bad:
        reader.wrong("low" if low > likely else "high", bad.sentence)
    return low, likely, high


def read_edit(
    sent: Submitted, task: TaskFacts, phase_ids: Collection[int], today: date
) -> tuple[PlannedTask, int, date | None]:
    """What is said of the task, its phase, and the day it was started (only where it has one)."""
    reader = Reader(sent)
    planned = _read_task(reader)
    phase = reader.one_of("phase_id", tuple(map(str, phase_ids)), str(task.phase_id))
    started = _read_past(reader, "started_on", today) if task.started_on else None
    if started and task.done_on and task.done_on < started:
        reader.wrong("started_on", f"It was done on {show_date(task.done_on)}; it cannot have been started later.")
    reader.done()
    return planned, int(phase), started


def _read_past(reader: Reader, name: str, today: date) -> date | None:
    day = reader.parsed(name, partial(parse_day, today=today), "Write the day. Reopen the task if it is not done.")
    if day and day > today:
        reader.wrong(name, STILL_TO_COME)
    return day


def read_on(sent: Submitted, today: date) -> date:
    """The day it happened; an empty field means today."""
    reader = Reader(sent)
    day = _read_past(reader, "on", today) if sent.text("on") else today
    reader.done()
    return day or today


def read_why(sent: Submitted) -> str:
    reader = Reader(sent)
    why = reader.text("why", "Say why it is reopened; the sentence stays with the task.", most=500)
    reader.done()
    return why


def read_phase_id(sent: Submitted) -> int | None:
    """The phase whose tasks were offered, sent along unseen; None when it is not a number."""
    text = sent.text("phase")
    return int(text) if text.isdecimal() and len(text) < 19 else None


def read_need(sent: Submitted, task_id: int, task_ids: Collection[int]) -> TypedNeed:
    """`task_ids` are those of the phase that was offered."""
    reader = Reader(sent)
    needs = reader.one_of("needs_id", tuple(map(str, task_ids)), required="Choose the task that comes first.")
    strength = reader.one_of("strength", tuple(Strength), Strength.HARD)
    lag = reader.whole("lag_days", most=400) or 0
    reason = reader.text("reason", most=300)
    reader.done()
    return TypedNeed(what_id=task_id, needs_id=int(needs), strength=strength, lag_days=lag, reason=reason)


def read_own_words(sent: Submitted) -> dict[str, tuple[str, str]]:
    """Studbay's word to (one, many) as this builder says them; a word left empty is not in it."""
    reader = Reader(sent)
    words = {}
    for word, _ in GENERAL:
        one, many = reader.text(f"one-{word}", most=40), reader.text(f"many-{word}", most=40)
        if one and not many:
            reader.wrong(f"many-{word}", f"And more than one {one}? Write that too.")
        if many and not one:
            reader.wrong(f"one-{word}", f"And one of the {many}? Write that too.")
        if one and many:
            words[word] = (one, many)
    reader.done()
    return words
