"""What the forms of money send."""

from collections.abc import Callable
from datetime import date

from webapp.core.forms import FormState, Reader, Submitted, Upload
from webapp.money.actions import SpendForm
from webapp.money.rules.lines import KINDS, what_is_odd
from webapp.money.store import SpendFacts
from webapp.plan.guard import Here
from webapp.values.dates import parse_day, question_year
from webapp.values.errors import BadInput
from webapp.values.money import parse_money

Keep = Callable[[Upload], int]


def _day_spent(text: str, today: date) -> date:
    day = parse_day(text, today)
    question = question_year(day, None, today)
    if question:
        raise BadInput(*question)
    return day


def read_spend(sent: Submitted, here: Here, phases: dict[str, int], keep: Keep) -> SpendForm:
    """A line of spend. `phases` maps what the form may send to ids. Raises BadForm; a sent picture is kept anyway."""
    read = Reader(sent)
    currency = here.build.currency
    day = read.parsed("day", lambda text: _day_spent(text, here.today), "On which day was it paid?")
    what = read.text("what", "What was it for? A few words will do.", most=200)
    supplier = read.text("supplier", most=120)
    total = read.parsed("total", lambda text: parse_money(text, currency), "How much was paid? 0 for a gift.")
    tax = read.parsed("tax", lambda text: parse_money(text, currency)) or 0
    value = read.parsed("value", lambda text: parse_money(text, currency))
    kind = read.one_of("kind", KINDS, required="Choose what kind of spend it is.")
    phase = read.one_of("phase", phases.keys())
    receipt = read.file("receipt", keep)
    note = read.text("note")
    if not read.errors and total is not None:
        for name, sentence in what_is_odd(kind, total, tax, value).items():
            read.wrong(name, sentence)
    read.done()
    assert day is not None and total is not None  # noqa: S101 (done() has raised otherwise)
    return SpendForm(day, what, total, kind, supplier, tax, value, phases.get(phase), None, receipt, note)


def read_why(sent: Submitted) -> str:
    """The reason given for putting a line right; may be empty."""
    return sent.text("why")[:400]


def blank(today: date) -> FormState:
    return FormState.of(day=today.isoformat(), kind=KINDS[0])


def filled(line: SpendFacts) -> FormState:
    """The form as the line stands now."""
    return FormState.of(
        day=line.day.isoformat(),
        what=line.what,
        supplier=line.supplier,
        total=_typed(line.total_cents),
        tax=_typed(line.tax_cents) if line.tax_cents else "",
        value="" if line.value_cents is None else _typed(line.value_cents),
        kind=line.kind,
        phase="" if line.phase_id is None else str(line.phase_id),
        note=line.note,
    )


def _typed(cents: int) -> str:
    """As a person types it: plain digits and a plain minus."""
    return f"{'-' if cents < 0 else ''}{abs(cents) // 100}.{abs(cents) % 100:02d}"
