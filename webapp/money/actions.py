"""Writing down what was spent, and putting it right without losing what stood there before."""

from dataclasses import dataclass, replace
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.money import store
from webapp.money.models import Spend, SpendChange
from webapp.money.rules.lines import what_is_odd
from webapp.plan import store as plan
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.money import show_amount
from webapp.values.verdict import Reason, Verdict

NOT_SAID = "not said"


@dataclass(frozen=True, slots=True)
class SpendForm:
    """One line of spend as typed. Cents; negative for a refund; a gift is 0 paid with a value."""

    day: date
    what: str
    total_cents: int
    kind: str = "into the building"
    supplier: str = ""
    tax_cents: int = 0
    value_cents: int | None = None
    phase_id: int | None = None
    task_id: int | None = None
    receipt_photo_id: int | None = None
    note: str = ""


def _check(form: SpendForm) -> None:
    odd = what_is_odd(form.kind, form.total_cents, form.tax_cents, form.value_cents)
    if odd:
        raise RuleBroken(Verdict(tuple(Reason(sentence) for sentence in odd.values())))


def record_spend(session: Session, build_id: int, form: SpendForm) -> Spend:
    """A new line. Raises RuleBroken when it cannot be true (a gift that cost something, more tax than was paid)."""
    _check(form)
    spend = Spend(
        build_id=build_id,
        day=form.day,
        what=form.what,
        supplier=form.supplier,
        kind=form.kind,
        total_cents=form.total_cents,
        tax_cents=form.tax_cents,
        value_cents=form.value_cents,
        phase_id=form.phase_id,
        task_id=form.task_id,
        receipt_photo_id=form.receipt_photo_id,
        note=form.note,
        at=clock.now(),
    )
    session.add(spend)
    session.flush()
    return spend


def amend_spend(session: Session, build_id: int, spend_id: int, form: SpendForm, why: str) -> int:
    """Put a line right; each part that changed keeps what it was. Returns how many parts changed.

    A form without a picture keeps the one that is there.
    """
    _check(form)
    before = store.get_spend(session, build_id, spend_id)
    spend = session.get_one(Spend, spend_id)
    form = replace(form, receipt_photo_id=form.receipt_photo_id or spend.receipt_photo_id, task_id=spend.task_id)
    said = _said_before(spend, before.phase)
    becomes = _said_now(session, build_id, form)
    at, changed = clock.now(), 0
    for name, (label, was) in said.items():
        if getattr(spend, name) == getattr(form, name):
            continue
        change = SpendChange(spend_id=spend_id, field=label, was=was, became=becomes[name], why=why, at=at)
        session.add(change)
        setattr(spend, name, getattr(form, name))
        changed += 1
    session.add(spend)
    session.flush()
    return changed


def _said_before(spend: Spend, phase: str) -> dict[str, tuple[str, str]]:
    """Column to its name on the page and its value in words."""
    words = _words(spend)
    labels = {
        "day": "Day",
        "what": "What for",
        "supplier": "From whom",
        "kind": "Kind",
        "total_cents": "Paid",
        "tax_cents": "Tax in it",
        "value_cents": "Worth",
        "phase_id": "Phase",
        "receipt_photo_id": "Receipt",
        "note": "Note",
    }
    words["phase_id"] = phase or NOT_SAID
    return {name: (label, words[name]) for name, label in labels.items()}


def _said_now(session: Session, build_id: int, form: SpendForm) -> dict[str, str]:
    words = _words(form)
    words["phase_id"] = NOT_SAID
    if form.phase_id is not None:
        words["phase_id"] = plan.get_phase(session, build_id, form.phase_id).title
    return words


def _words(line: Spend | SpendForm) -> dict[str, str]:
    return {
        "day": show_date(line.day),
        "what": line.what,
        "supplier": line.supplier or NOT_SAID,
        "kind": line.kind,
        "total_cents": show_amount(line.total_cents),
        "tax_cents": show_amount(line.tax_cents),
        "value_cents": NOT_SAID if line.value_cents is None else show_amount(line.value_cents),
        "receipt_photo_id": f"picture {line.receipt_photo_id}" if line.receipt_photo_id else "no picture",
        "note": line.note or "none",
    }
