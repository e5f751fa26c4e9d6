"""Putting a mistyped fee right. What it said before stays readable with its permit."""

from sqlmodel import Session

from webapp.core import clock
from webapp.inspections import store
from webapp.inspections.models import Fee, PermitChange
from webapp.inspections.rules.facts import FeeFacts
from webapp.inspections.rules.record import NewFee, fee_label
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.money import show_money
from webapp.values.verdict import Reason, Verdict


def correct_fee(session: Session, build_id: int, fee_id: int, new: NewFee, why: str, currency: str) -> int:
    """Gives how many parts changed. Raises RuleBroken for one that is paid: its line of spend is put right instead."""
    before = store.get_fee(session, build_id, fee_id)
    if before.paid_on is not None:
        reason = Reason(f"It was paid on {show_date(before.paid_on)}. Put its line of spend right instead.")
        raise RuleBroken(Verdict((reason,)), heading="Not changed")
    row = session.get_one(Fee, fee_id)
    changed = 0
    was, became = (_parts(each, currency) for each in (before, new))
    for name in ("amount_cents", "why", "due_on", "stops_visits"):
        now = getattr(new, name)
        if getattr(before, name) == now:
            continue
        change = PermitChange(
            permit_id=before.permit_id,
            field=fee_label(fee_id),
            was=was[name],
            became=became[name],
            why=why,
            at=clock.now(),
        )
        session.add(change)
        setattr(row, name, now)
        changed += 1
    session.add(row)
    return changed


def _parts(fee: NewFee | FeeFacts, currency: str) -> dict[str, str]:
    """Each part of a fee in words."""
    return {
        "amount_cents": show_money(fee.amount_cents, currency),
        "why": fee.why or "no reason",
        "due_on": f"due {show_date(fee.due_on)}" if fee.due_on else "no day",
        "stops_visits": "no visits until paid" if fee.stops_visits else "stops nothing",
    }
