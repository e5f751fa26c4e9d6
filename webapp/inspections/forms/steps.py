"""The small forms: a step of a correction, its words, a fee's payment, a line to have ready."""

from dataclasses import dataclass
from datetime import date

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.fields import Keep
from webapp.inspections.forms.visits import read_fee
from webapp.inspections.rules.corrections import loosens
from webapp.inspections.rules.facts import CorrectionFacts, FeeFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, CorrectionState
from webapp.inspections.rules.record import NewAsked, NewFee
from webapp.plan.guard import Here
from webapp.values.dates import parse_day, show_date
from webapp.values.duration import field_hours, parse_hours
from webapp.values.money import field_amount


@dataclass(frozen=True, slots=True)
class Step:
    """One step of a correction: the day, who said so, how, and a picture where there is one."""

    on: date
    who: str
    words: str
    photo_id: int | None


@dataclass(frozen=True, slots=True)
class CorrectionWords:
    words: str
    place: str
    form: CorrectionForm
    rule_cited: str
    clears_by: ClearsBy
    photo_id: int | None
    who_said: str
    likely_min: int | None


def _past_day(read: Reader, name: str, today: date) -> date:
    day = read.parsed(name, lambda text: parse_day(text, today), "On which day?")
    if day is not None and day > today:
        read.wrong(name, "This day has not come yet.", (today.isoformat(),))
    return day or today


def read_step(sent: Submitted, today: date, keep: Keep, correction: CorrectionFacts, said_on: date, do: str) -> Step:
    """`said_on`: the day of its result; nothing about it can have happened before."""
    read = Reader(sent)
    on = _past_day(read, "on", today)
    if "on" not in read.errors:
        _refuse_order(read, correction, on, said_on, do)
    step = Step(on, read.text("who", most=80), read.text("said", most=400), read.file("picture", keep))
    read.done()
    return step


def _refuse_order(read: Reader, correction: CorrectionFacts, on: date, said_on: date, do: str) -> None:
    if on < said_on:
        read.wrong(
            "on", f"It was said on {show_date(said_on)}. Nothing was done about it before.", (said_on.isoformat(),)
        )
    if do != "clear":
        return
    done = correction.done_on
    if done is not None and on < done:
        read.wrong("on", f"It was done on {show_date(done)}. It cannot be cleared before.", (done.isoformat(),))
    own = correction.clears_by == ClearsBy.OWN_WORD
    if own and correction.state == CorrectionState.OPEN and not read.flag("is_done"):
        read.wrong("is_done", "It is not done yet. Tick that it is done, or wait until it is.")


def read_correction_words(sent: Submitted, correction: CorrectionFacts, keep: Keep) -> CorrectionWords:
    """`correction` as it stands: to clear it in a laxer way, somebody must have said so."""
    read = Reader(sent)
    made = CorrectionWords(
        words=read.text("words", "Write what was said, in the inspector's words."),
        place=read.text("place", most=200),
        form=CorrectionForm(read.one_of("form", list(CorrectionForm), CorrectionForm.WRITTEN.value)),
        rule_cited=read.text("rule", most=200),
        clears_by=ClearsBy(read.one_of("clears", list(ClearsBy), ClearsBy.REVISIT.value)),
        photo_id=read.file("before", keep),
        who_said=read.text("who_said", most=120),
        likely_min=read.parsed("likely", parse_hours),
    )
    if loosens(correction.clears_by, made.clears_by) and not made.who_said:
        read.wrong("who_said", "Who said that it may be cleared so? The inspector, the office: who, and how.")
    read.done()
    return made


def correction_state(correction: CorrectionFacts, today: date) -> FormState:
    """The forms of a correction as it stands now."""
    return FormState.of(
        on=today.isoformat(),
        words=correction.words,
        place=correction.place,
        form=correction.form,
        rule=correction.rule_cited,
        clears=correction.clears_by,
        likely=field_hours(correction.likely_min) if correction.likely_min else "",
    )


def read_payment(sent: Submitted, today: date, keep: Keep) -> Step:
    """The day a fee was paid, to whom, and the receipt."""
    read = Reader(sent)
    on = _past_day(read, "paid_on", today)
    step = Step(on, read.text("paid_to", most=120), "", read.file("receipt", keep))
    read.done()
    return step


def read_asked(sent: Submitted) -> NewAsked:
    read = Reader(sent)
    words = read.text("asked", "What is to be ready?", most=300)
    by_inspector = read.flag("by_inspector")
    made = NewAsked(words, read.flag("asked_stops"), None, "asked by inspector" if by_inspector else "my own")
    read.done()
    return made


def read_fee_again(sent: Submitted, here: Here) -> tuple[NewFee, str]:
    """A fee as it should have been written down, and how the mistake came about."""
    read = Reader(sent)
    if not sent.text("fee"):
        read.wrong("fee", "How much is it? One that was never asked for stays, with the reason beside it.")
    fee = read_fee(read, here)
    why = read.text("why", "How did the mistake come about? It is shown beside what it said before.", most=400)
    read.done()
    return fee or NewFee(0), why


def fee_state(fee: FeeFacts, today: date) -> FormState:
    """Both forms of a fee: paying it, and putting it right."""
    return FormState.of(
        paid_on=today.isoformat(),
        fee=field_amount(fee.amount_cents),
        fee_due=fee.due_on.isoformat() if fee.due_on else "",
        fee_why=fee.why,
        fee_stops="yes" if fee.stops_visits else "",
    )
