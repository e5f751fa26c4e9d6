"""The forms of what was said besides: quickly on the phone, put right later, taken back."""

from collections.abc import Mapping
from datetime import date

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.rules.facts import AdviceFacts
from webapp.inspections.rules.kinds import AdviceForm
from webapp.inspections.rules.record import NewAdvice
from webapp.values.dates import parse_day


def _past(read: Reader, name: str, today: date) -> date:
    day = read.parsed(name, lambda text: parse_day(text, today), "On which day?")
    if day is not None and day > today:
        read.wrong(name, "This day has not come yet.", (today.isoformat(),))
    return day or today


def read_advice(
    sent: Submitted, today: date, surfaces: Mapping[str, int], inspections: Mapping[str, int]
) -> tuple[NewAdvice, str]:
    """What was said, and why it is put right. A role typed beside the usual ones counts before them."""
    read = Reader(sent)
    words = read.text("words", "Write what was said, in their words.")
    typed = read.text("who_else", most=80)
    who = typed or read.text("who", most=80)
    if not who:
        read.wrong("who_else", "Who said it? The role, not the name: inspector, counter clerk.")
    form = read.one_of("form", list(AdviceForm), AdviceForm.SAID.value)
    surface, inspection = read.one_of("surface", surfaces), read.one_of("inspection", inspections)
    made = NewAdvice(
        day=_past(read, "day", today),
        who=who,
        words=words,
        form=form,
        inspection_id=inspections.get(inspection),
        surface_id=surfaces.get(surface),
        used_for=read.text("used_for"),
    )
    why = read.text("why", most=400)
    read.done()
    return made, why


def read_ended(sent: Submitted, today: date, advice: AdviceFacts) -> tuple[date, str]:
    """The day it was taken back, and by whom or how."""
    read = Reader(sent)
    on = _past(read, "ended_on", today)
    if "ended_on" not in read.errors and on < advice.day:
        read.wrong("ended_on", "It was said later than that.", (today.isoformat(),))
    why = read.text("ended_why", "Who took it back, or what showed that it was wrong?", most=400)
    read.done()
    return on, why


def advice_state(advice: AdviceFacts, today: date) -> FormState:
    return FormState.of(
        day=advice.day.isoformat(),
        who=advice.who,
        words=advice.words,
        form=advice.form,
        surface=str(advice.surface_id or ""),
        inspection=str(advice.inspection_id or ""),
        used_for=advice.used_for,
        ended_on=today.isoformat(),
    )
