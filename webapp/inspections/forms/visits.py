"""The forms around a visit: booking it, its day, that nothing was looked at, a fee that follows."""

from collections.abc import Mapping
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.inspections.forms.fields import Keep, read_paper
from webapp.inspections.rules.far import question_far
from webapp.inspections.rules.record import NewAsked, NewFee, NotLookedAt
from webapp.plan.guard import Here
from webapp.values.dates import parse_day, question_year
from webapp.values.money import parse_money

DAY_RIGHT = "The day is right"


def day_held(
    read: Reader,
    today: date,
    issued_on: date | None,
    booked_on: date | None = None,
    asked_on: date | None = None,
    required: str = "On which day was it?",
) -> date | None:
    """The day of a visit held. One before its permit, after today or far from what was booked is questioned until
    `day_right` is ticked.
    """
    day = read.parsed("day", lambda text: parse_day(text, today), required)
    question = question_year(day, issued_on, today) or question_far(day, booked_on, asked_on, today) if day else None
    if question and not read.flag("day_right"):
        sentence, likely = question
        read.wrong("day", f"{sentence} If it is right, tick “{DAY_RIGHT}”.", likely)
    return day


def read_asked_besides(read: Reader) -> tuple[NewAsked, ...]:
    words = read.text("asked", most=300)
    return (NewAsked(words, read.flag("asked_stops")),) if words else ()


def read_fee(read: Reader, here: Here) -> NewFee | None:
    amount = read.parsed("fee", lambda text: parse_money(text, here.build.currency))
    due = read.parsed("fee_due", lambda text: parse_day(text, here.today))
    why, stops = read.text("fee_why", most=160), read.flag("fee_stops")
    if amount is None:
        return None
    if amount <= 0:
        read.wrong("fee", "A fee is more than nothing. Leave it empty when none was asked.")
    return NewFee(amount, why, due, stops)


def read_not_ready(
    sent: Submitted, here: Here, issued_on: date | None, keep: Keep, hired: Mapping[str, str]
) -> NotLookedAt:
    """A visit that looked at nothing, with what was missing, a fee and a slip where there are any."""
    read = Reader(sent)
    day = day_held(read, here.today, issued_on)
    no_entry = read.one_of("outcome", ("not ready", "no entry"), "not ready") == "no entry"
    reason = read.text("reason", "Why was nothing looked at? A few words: no ladder, nobody home.", most=200)
    missing = tuple(part.strip() for part in read.text("missing", most=600).replace("\n", ",").split(","))
    asked = tuple(NewAsked(words[:300]) for words in missing if words)
    fee = read_fee(read, here)
    on = read_paper(read, keep, hired)
    read.done()
    told = (on.evidence, on.photo_id, on.signed_by, on.hired_id)
    return NotLookedAt(day or here.today, no_entry, reason, asked, fee, *told)


def read_right_day(sent: Submitted, today: date, issued_on: date | None) -> tuple[date, str]:
    """The day a visit really was, and why it stood wrong."""
    read = Reader(sent)
    day = day_held(read, today, issued_on)
    why = read.text("why", most=400)
    read.done()
    return day or today, why
