"""The forms of an extension: asking for it, and what was said to it."""

from collections.abc import Collection
from datetime import date, timedelta

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.fields import Keep
from webapp.inspections.forms.parts import RIGHT, past_day
from webapp.inspections.rules.clocks import ExtensionFacts
from webapp.inspections.rules.record import AnswerForm, ExtensionForm
from webapp.plan.guard import Here
from webapp.values.dates import parse_day, same_day_in, show_date
from webapp.values.money import parse_money
from webapp.values.own_words import own

GRANTED, REFUSED = "granted", "refused"
LONGEST = timedelta(days=800)
"""an extension by more than two years is asked about"""


def read_extension(sent: Submitted, here: Here, issued_on: date | None) -> ExtensionForm:
    """The day it was asked for (empty until it was), why, and a fee where one is taken."""
    read = Reader(sent)
    asked = past_day(read, "asked_on", here.today)
    if asked and issued_on and asked < issued_on:
        later = same_day_in(asked, asked.year + 1)
        likely = (later.isoformat(),) if later and issued_on <= later <= here.today else ()
        sentence = f"The {own('permit')} was issued on {show_date(issued_on)}; more time is asked for after that."
        read.wrong("asked_on", sentence, likely)
    why = read.text("why", most=1000)
    cents = read.parsed("fee", lambda text: parse_money(text, here.build.currency))
    if cents is not None and cents <= 0:
        read.wrong("fee", "A fee is more than nothing. Leave it empty when none is taken.")
    due = read.parsed("fee_due", lambda text: parse_day(text, here.today))
    if due and cents is None:
        read.wrong("fee", "How much is it? Or leave its day empty.")
    read.done()
    return ExtensionForm(asked, why, cents, due)


def extension_state(extension: ExtensionFacts | None, today: date) -> FormState:
    if extension is None:
        return FormState.of()
    return FormState.of(
        asked_on=extension.asked_on.isoformat() if extension.asked_on else "",
        why=extension.why,
        answer={None: "", True: GRANTED, False: REFUSED}[extension.granted],
        answered_on=(extension.answered_on or today).isoformat(),
        until_day=extension.until_day.isoformat() if extension.until_day else "",
        words=extension.words,
        paper_id=str(extension.paper_id or ""),
    )


def read_extension_answer(
    sent: Submitted, today: date, asked_on: date | None, lapses: date | None, papers: Collection[str], keep: Keep
) -> AnswerForm:
    """`lapses`: the last day by the permit's own rules, which an extension has to outlast to be of any use."""
    read = Reader(sent)
    answer = read.one_of("answer", (GRANTED, REFUSED), required="Was it granted or refused?")
    on = past_day(read, "answered_on", today)
    if on is None and "answered_on" not in read.errors:
        read.wrong("answered_on", "On which day was that said?")
    if on and asked_on and on < asked_on:
        read.wrong("answered_on", f"It was asked for on {show_date(asked_on)}; the answer came after that.")
    until = read.parsed("until_day", lambda text: parse_day(text, today))
    if answer == GRANTED:
        _until(read, until, lapses, today)
    paper = read.one_of("paper_id", ("", *papers))
    words, photo_id = read.text("words", most=400), read.file("letter", keep)
    read.done()
    return AnswerForm(
        granted=answer == GRANTED,
        answered_on=on or today,
        until_day=until,
        words=words,
        paper_id=int(paper) if paper else None,
        photo_id=photo_id,
        asked_on=on,
    )


def _until(read: Reader, until: date | None, lapses: date | None, today: date) -> None:
    """The last day it stands: later than it would anyway, and not years away by a slip."""
    if "until_day" in read.errors:
        return
    if until is None:
        read.wrong("until_day", "Until which day, as the letter says?")
    elif lapses and until <= lapses:
        later = same_day_in(until, until.year + 1)
        likely = (later.isoformat(),) if later and later > lapses else ()
        already = f"By its rules it stands until {show_date(lapses)} already"
        read.wrong("until_day", f"{already}, so this would give it no time. Is the day right?", likely)
    elif until - max(lapses or today, today) > LONGEST and not read.flag("days_right"):
        read.wrong("until_day", f"That is more than two years away. If it is right, tick “{RIGHT}”.")
