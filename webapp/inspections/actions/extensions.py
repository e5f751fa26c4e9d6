"""More time asked for in writing: asked, answered, taken back, each step kept; with its fee where there is one."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections.actions.permits import note_permit_change
from webapp.inspections.models import Fee, PermitExtension
from webapp.inspections.rules.clocks import ExtensionFacts
from webapp.inspections.rules.facts import PermitFacts
from webapp.inspections.rules.record import AnswerForm, ExtensionForm
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict


def _refuse(sentence: str) -> None:
    raise RuleBroken(Verdict((Reason(sentence),)), heading="Not written down")


def ask_extension(session: Session, build_id: int, permit: PermitFacts, form: ExtensionForm) -> PermitExtension:
    """Raises RuleBroken for a permit that was never issued or is closed, and while another one has no answer."""
    if permit.issued_on is None:
        _refuse(f"This {own('permit')} was not issued yet, so there is no time to make longer.")
    if permit.closed_on is not None:
        _refuse(f"This {own('permit')} was closed on {show_date(permit.closed_on)}.")
    if any(each.open for each in permit.extensions):
        _refuse("One is asked for already and has no answer. Write down what was said to it, or take it back.")
    row = PermitExtension(permit_id=permit.id, asked_on=form.asked_on, why=form.why, at=clock.now())
    if form.fee_cents:
        row.fee_id = _fee(session, build_id, permit, form.fee_cents, form.fee_due)
    session.add(row)
    session.flush()
    return row


def _fee(session: Session, build_id: int, permit: PermitFacts, cents: int, due: date | None) -> int:
    fee = Fee(build_id=build_id, permit_id=permit.id, amount_cents=cents, why=f"extension of {permit.name}", due_on=due)
    session.add(fee)
    session.flush()
    return fee.row_id


def amend_extension(
    session: Session, build_id: int, permit: PermitFacts, before: ExtensionFacts, form: ExtensionForm
) -> None:
    """The day it was asked for and the reason, put right; a fee that was learned of later."""
    row = session.get_one(PermitExtension, before.id)
    _keep(session, permit.id, "Extension asked for on", _day(before.asked_on), _day(form.asked_on))
    _keep(session, permit.id, "Reason for the extension", before.why or "none", form.why or "none")
    row.asked_on, row.why = form.asked_on, form.why
    if form.fee_cents and before.fee_id is None:
        row.fee_id = _fee(session, build_id, permit, form.fee_cents, form.fee_due)
    session.add(row)


def answer_extension(session: Session, permit: PermitFacts, before: ExtensionFacts, form: AnswerForm) -> None:
    """What was said to it. An answer put right keeps what stood there. Raises RuleBroken for one taken back."""
    if before.withdrawn_on is not None:
        _refuse(f"You took this back on {show_date(before.withdrawn_on)}. Ask for another one.")
    row = session.get_one(PermitExtension, before.id)
    _keep(session, permit.id, "Extension", answer_words(before.granted, before.until_day), _form_words(form))
    row.granted, row.answered_on, row.words = form.granted, form.answered_on, form.words
    row.until_day = form.until_day if form.granted else None
    row.paper_id = form.paper_id or row.paper_id
    row.photo_id = form.photo_id or row.photo_id
    if form.asked_on and row.asked_on is None:
        row.asked_on = form.asked_on
    session.add(row)


def withdraw_extension(session: Session, permit: PermitFacts, before: ExtensionFacts, on: date) -> None:
    """Not wanted any more; it stays in the history and moves no clock."""
    if before.withdrawn_on is not None:
        return
    row = session.get_one(PermitExtension, before.id)
    row.withdrawn_on = on
    session.add(row)
    _keep(session, permit.id, "Extension", answer_words(before.granted, before.until_day), "withdrawn")


def answer_words(granted: bool | None, until: date | None) -> str:
    if granted is None:
        return "no answer"
    return f"granted until {_day(until)}" if granted else "refused"


def _form_words(form: AnswerForm) -> str:
    return answer_words(form.granted, form.until_day)


def _day(day: date | None) -> str:
    return show_date(day) if day else "no day"


def _keep(session: Session, permit_id: int, field: str, was: str, became: str) -> None:
    if was != became:
        note_permit_change(session, permit_id, field, was, became)
