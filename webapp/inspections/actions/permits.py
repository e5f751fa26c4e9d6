"""Permits: written down, put right with what they said before kept, and their rules for lapsing."""

from datetime import date
from typing import Any

from sqlalchemy import delete
from sqlmodel import Session, col

from webapp.core import clock
from webapp.hired.store import hired_choices
from webapp.inspections import store
from webapp.inspections.models import Permit, PermitChange, PermitRule
from webapp.inspections.rules.facts import PermitFacts
from webapp.inspections.rules.kinds import ClockKind
from webapp.inspections.rules.record import PermitForm, RuleForm
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.own_words import own
from webapp.values.verdict import Reason, Verdict
from webapp.values.words import plural

_LABELS = {
    "code": "Short name",
    "name": "Name",
    "covers": "Covers",
    "number": "Number",
    "asked_on": "Asked for on",
    "issued_on": "Issued on",
    "started_on": "Work began on",
    "started_how": "How it began",
    "code_family": "Code",
    "code_edition": "Edition",
    "hired_id": "Held by",
    "closed_on": "Closed on",
}
_RULE_LABELS = {
    ClockKind.START: "If work has not begun",
    ClockKind.IDLE: "After the last approved visit",
    ClockKind.FIXED: "Whole life",
}


def refuse_taken(taken: bool, code: str, what: str) -> None:
    if taken:
        raise RuleBroken(Verdict((Reason(f"There is another {what} with the short name {code}."),)))


def said_so(value: object) -> str:
    """A value as it reads among what was changed."""
    if isinstance(value, date):
        return show_date(value)
    if isinstance(value, bool):
        return "yes" if value else "no"
    return "none" if value is None or value == "" else str(value)


def add_permit(session: Session, build_id: int, form: PermitForm) -> Permit:
    """Raises RuleBroken when the short name is taken."""
    refuse_taken(
        any(each.code == form.code for each in store.list_permits(session, build_id)), form.code, own("permit")
    )
    permit = Permit(build_id=build_id, **{name: getattr(form, name) for name in _LABELS})
    session.add(permit)
    session.flush()
    _write_rules(session, permit.row_id, form.rules)
    return permit


def edit_permit(session: Session, build_id: int, code: str, form: PermitForm, why: str = "") -> int:
    """Put a permit right; each part that changed keeps what it was. Returns how many changed."""
    before = store.get_permit(session, build_id, code)
    others = (each for each in store.list_permits(session, build_id) if each.id != before.id)
    refuse_taken(any(each.code == form.code for each in others), form.code, own("permit"))
    held_by: dict[Any, str] = {int(key): trade for key, trade in hired_choices(session, build_id)} | {None: "me"}
    called = {"hired_id": held_by}
    changes = [
        (
            label,
            *(
                said_so(called.get(name, {}).get(value, value))
                for value in (getattr(before, name), getattr(form, name))
            ),
        )
        for name, label in _LABELS.items()
        if getattr(before, name) != getattr(form, name)
    ]
    changes += _rule_changes(before, form)
    for label, was, became in changes:
        note_permit_change(session, before.id, label, was, became, why)
    permit = session.get_one(Permit, before.id)
    for name in _LABELS:
        setattr(permit, name, getattr(form, name))
    session.add(permit)
    _write_rules(session, before.id, form.rules)
    return len(changes)


def note_permit_change(session: Session, permit_id: int, field: str, was: str, became: str, why: str = "") -> None:
    change = PermitChange(permit_id=permit_id, field=field, was=was, became=became, why=why, at=clock.now())
    session.add(change)


def _rule_changes(before: PermitFacts, form: PermitForm) -> list[tuple[str, str, str]]:
    old = {rule.kind: rule_words(rule.count, rule.span, rule.words, rule.source) for rule in before.rules}
    new = {rule.kind: rule_words(rule.count, rule.span, rule.words, rule.source) for rule in form.rules}
    pairs = [(label, old.get(kind, ""), new.get(kind, "")) for kind, label in _RULE_LABELS.items()]
    return [(label, said_so(was), said_so(became)) for label, was, became in pairs if was != became]


def rule_words(count: int | None, span: str, words: str, source: str) -> str:
    """A rule in one line: "180 days, as it says on the back (my permit)"."""
    parts = (plural(count, span.removesuffix("s")) if count else "number not known", words)
    return f"{', '.join(part for part in parts if part)} ({source})"


def _write_rules(session: Session, permit_id: int, rules: tuple[RuleForm, ...]) -> None:
    """The rules as typed; what they were stands among the permit's changes."""
    session.flush()
    session.connection().execute(delete(PermitRule).where(col(PermitRule.permit_id) == permit_id))
    for rule in rules:
        session.add(
            PermitRule(
                permit_id=permit_id,
                kind=rule.kind.value,
                count=rule.count,
                span=rule.span.value,
                words=rule.words,
                source=rule.source,
            )
        )
    session.flush()
