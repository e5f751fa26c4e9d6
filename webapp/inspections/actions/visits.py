"""Booking a visit, moving it, calling it off, putting its day right; paying a fee that came of one."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.models import Fee, Result, Visit, VisitChange
from webapp.inspections.rules.facts import VisitFacts
from webapp.inspections.rules.kinds import Outcome
from webapp.money.actions import SpendForm, record_spend
from webapp.values.dates import show_date, show_long_day
from webapp.values.errors import RuleBroken
from webapp.values.money import show_amount
from webapp.values.verdict import Reason, Verdict

AHEAD = (Outcome.PLANNED, Outcome.ASKED)
HELD = (Outcome.CAME, Outcome.NOT_READY, Outcome.NO_ENTRY)


def note_change(session: Session, visit_id: int, field: str, was: str, became: str, why: str = "") -> None:
    """Keep what a visit said before; says nothing when nothing changed."""
    if was != became:
        change = VisitChange(visit_id=visit_id, field=field, was=was, became=became, why=why, at=clock.now())
        session.add(change)


def day_words(day: date | None) -> str:
    return show_long_day(day) if day else "no day"


def unpaid_stops(session: Session, build_id: int, permit_id: int) -> tuple[Reason, ...]:
    """The fees that keep every visit under a permit from being asked for."""
    return tuple(
        Reason(
            f"A fee of {show_amount(fee.amount_cents)} is unpaid, and no visit is taken until it is.",
            fee.why,
            href=f"fees/{fee.id}",
        )
        for fee in store.list_fees(session, build_id)
        if fee.permit_id == permit_id and fee.stops_visits and fee.paid_on is None
    )


def _may_ask(session: Session, build_id: int, inspection_id: int, base: str) -> None:
    permit_id = store.get_inspection_by_id(session, build_id, inspection_id).permit_id
    reasons = unpaid_stops(session, build_id, permit_id)
    if reasons:
        led = tuple(Reason(each.sentence, each.detail, f"{base}/{each.href}") for each in reasons)
        raise RuleBroken(Verdict(led), heading="The visit cannot be asked for yet")


def book_visit(
    session: Session,
    build_id: int,
    inspection_id: int,
    day: date | None,
    asked_on: date | None = None,
    window: str = "",
    note: str = "",
    base: str = "",
    **more: str | bool,
) -> Visit:
    """A visit, planned or asked for. `base` is the build's path, so that a refusal leads to the fee; `more` are the
    columns of MORE.

    Raises RuleBroken while an unpaid fee keeps the visits of its permit from being asked for.
    """
    if asked_on is not None:
        _may_ask(session, build_id, inspection_id, base)
    visit = Visit(
        build_id=build_id,
        inspection_id=inspection_id,
        asked_on=asked_on,
        day=day,
        window=window,
        note=note,
        outcome=(Outcome.ASKED if asked_on else Outcome.PLANNED).value,
    )
    for name in MORE.keys() & more.keys():
        setattr(visit, name, more[name])
    session.add(visit)
    session.flush()
    return visit


def _ahead(session: Session, build_id: int, visit_id: int) -> tuple[VisitFacts, Visit]:
    before = store.get_visit(session, build_id, visit_id)
    if before.outcome not in AHEAD:
        sentence = f"This visit is over ({before.outcome}). Its day is put right on its own sheet."
        raise RuleBroken(Verdict((Reason(sentence),)), heading="Not moved")
    return before, session.get_one(Visit, visit_id)


def move_visit(
    session: Session,
    build_id: int,
    visit_id: int,
    day: date | None,
    asked_on: date | None,
    window: str,
    why: str = "",
    base: str = "",
    **more: str | bool,
) -> None:
    """Another day, window, or now asked for; `more` as for a new one. What was booked before stays readable."""
    before, visit = _ahead(session, build_id, visit_id)
    if asked_on is not None and before.asked_on is None:
        _may_ask(session, build_id, before.inspection_id, base)
    outcome = (Outcome.ASKED if asked_on else Outcome.PLANNED).value
    note_change(session, visit_id, "day", day_words(before.day), day_words(day), why)
    note_change(session, visit_id, "window", before.window or "none", window or "none", why)
    note_change(session, visit_id, "asked on", day_words(before.asked_on), day_words(asked_on), why)
    visit.day, visit.asked_on, visit.window, visit.outcome = day, asked_on, window, outcome
    for name, value in more.items():
        note_change(session, visit_id, MORE[name], _said(getattr(before, name)), _said(value), why)
        setattr(visit, name, value)
    session.add(visit)


MORE = {"who_there": "must be there", "asked_how": "asked how", "remote": "by video"}


def _said(value: str | bool) -> str:
    return ("yes" if value else "no") if isinstance(value, bool) else value or "none"


def cancel_visit(session: Session, build_id: int, visit_id: int, reason: str) -> None:
    """Call a visit off. It stays in the history; no fee comes of it unless one is written down."""
    before, visit = _ahead(session, build_id, visit_id)
    note_change(session, visit_id, "outcome", before.outcome, Outcome.CANCELLED.value, reason)
    visit.outcome, visit.reason = Outcome.CANCELLED.value, reason
    session.add(visit)


def correct_visit_day(session: Session, build_id: int, visit_id: int, day: date, why: str = "") -> None:
    """Put right the day of a visit that was held. Its results follow; each keeps what it was."""
    before = store.get_visit(session, build_id, visit_id)
    if before.outcome not in HELD:
        sentence = "This visit has not been held. Move it instead."
        raise RuleBroken(Verdict((Reason(sentence),)), heading="The day was not changed")
    move_results(session, before, day, why)
    visit = session.get_one(Visit, visit_id)
    visit.day = day
    session.add(visit)


def move_results(session: Session, before: VisitFacts, day: date, why: str) -> None:
    """Let a visit's results follow its day, and keep what the visit and each of them said."""
    note_change(session, before.id, "day", day_words(before.day), day_words(day), why)
    for facts in store.list_results_of(session, before.inspection_id):
        if facts.visit_id != before.id:
            continue
        note_change(session, before.id, f"day of result {facts.id}", show_date(facts.day), show_date(day), why)
        result = session.get_one(Result, facts.id)
        result.day = day
        session.add(result)


def pay_fee(
    session: Session, build_id: int, fee_id: int, paid_on: date, receipt_photo_id: int | None = None, to: str = ""
) -> None:
    """Pay a fee: it becomes a line of spend under fees, with its receipt, and its stop is gone.

    Raises RuleBroken when it is paid already.
    """
    fee = store.get_fee(session, build_id, fee_id)
    if fee.paid_on is not None:
        reason = Reason(f"This fee was paid on {show_date(fee.paid_on)}.")
        raise RuleBroken(Verdict((reason,)), heading="Not paid twice")
    line = SpendForm(
        day=paid_on,
        what=f"Fee: {fee.why}" if fee.why else "Fee after a visit",
        total_cents=fee.amount_cents,
        kind="fees",
        supplier=to,
        receipt_photo_id=receipt_photo_id,
    )
    row = session.get_one(Fee, fee_id)
    row.spend_id = record_spend(session, build_id, line).row_id
    row.paid_on = paid_on
    session.add(row)
