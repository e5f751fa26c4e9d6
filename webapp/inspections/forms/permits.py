"""The form of a permit: its days, what code it goes by, and its rules for lapsing."""

from collections.abc import Collection, Mapping
from datetime import date, timedelta

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.parts import ask_year, code_of, past_day
from webapp.inspections.rules.facts import PermitFacts
from webapp.inspections.rules.kinds import ClockKind, Span
from webapp.inspections.rules.record import PermitForm, RuleForm
from webapp.values.dates import same_day_in
from webapp.values.own_words import own

FIELDS: Mapping[str, ClockKind] = {"idle": ClockKind.IDLE, "start": ClockKind.START, "fixed": ClockKind.FIXED}
"""first part of the names of fields -> the rule they are about"""
MOST = {Span.DAYS: 3650, Span.MONTHS: 120}
LONG_AGO = timedelta(days=548)
"""a permit issued a year and a half ago is asked about when nothing else says that it is as old as that"""


def read_permit(
    sent: Submitted, today: date, before: PermitFacts | None = None, hired: Collection[str] = ()
) -> PermitForm:
    """`before`: the permit as it stands; its days are not asked about again. `hired`: ids to choose from."""
    read = Reader(sent)
    name = read.text("name", f"What is the {own('permit')} called? Electrical permit, for one.", most=120)
    made = PermitForm(
        code=code_of(read, name),
        name=name,
        covers=read.text("covers"),
        number=read.text("number", most=60),
        asked_on=past_day(read, "asked_on", today),
        issued_on=past_day(read, "issued_on", today),
        started_on=past_day(read, "started_on", today),
        started_how=read.text("started_how", most=160),
        code_family=read.text("code_family", most=80),
        code_edition=read.text("code_edition", most=80),
        hired_id=int(read.one_of("hired", ("", *hired)) or 0) or None,
        closed_on=past_day(read, "closed_on", today),
        rules=tuple(rule for field, kind in FIELDS.items() if (rule := _rule(read, field, kind))),
    )
    _days_in_order(read, made)
    _days_asked_about(read, made, today, before)
    read.done()
    return made


def _rule(read: Reader, field: str, kind: ClockKind) -> RuleForm | None:
    """One rule; None when neither a number nor words were typed."""
    span = Span(read.one_of(f"{field}_span", list(Span), Span.DAYS.value))
    count = read.whole(f"{field}_count", least=1, most=MOST[span])
    words = read.text(f"{field}_words", most=400)
    source = read.text(f"{field}_source", most=120) or "my guess"
    return RuleForm(kind, count, span, words, source) if count or words else None


def _days_in_order(read: Reader, made: PermitForm) -> None:
    if made.asked_on and made.issued_on and made.issued_on < made.asked_on:
        sentence = "It cannot have been issued before it was asked for. Look at both days."
        read.wrong("issued_on", sentence, _later_year(made.issued_on, made.asked_on))
    if made.issued_on and made.closed_on and made.closed_on < made.issued_on:
        sentence = "It cannot have been closed before it was issued. Look at both days."
        read.wrong("closed_on", sentence, _later_year(made.closed_on, made.issued_on))


def _later_year(day: date, first: date) -> tuple[str, ...]:
    """The same day a year later, where that is in order."""
    later = same_day_in(day, day.year + 1)
    return (later.isoformat(),) if later and later >= first else ()


def _days_asked_about(read: Reader, made: PermitForm, today: date, before: PermitFacts | None) -> None:
    """Days that may well be a year off, and work begun before the permit: asked, not refused."""
    if read.errors or read.flag("days_right"):
        return
    old_issue, old_start = (before.issued_on, before.started_on) if before else (None, None)
    if made.issued_on and made.issued_on != old_issue:
        if made.asked_on:
            ask_year(read, "issued_on", made.issued_on, made.asked_on, "the day it was asked for")
        elif today - made.issued_on > LONG_AGO:
            ask_year(read, "issued_on", made.issued_on, today, "today")
    if made.started_on and made.issued_on and made.started_on != old_start:
        if made.started_on < made.issued_on:
            sentence = (
                f"Work would have begun before the {own('permit')} was issued. If it did, tick “The days are right”."
            )
            read.wrong("started_on", sentence, _later_year(made.started_on, made.issued_on))
        else:
            ask_year(read, "started_on", made.started_on, made.issued_on, "the day of issue")


def permit_state(permit: PermitFacts | None) -> FormState:
    if permit is None:
        return FormState.of(**{f"{field}_source": "my guess" for field in FIELDS})
    days = {name: getattr(permit, name) for name in ("asked_on", "issued_on", "started_on", "closed_on")}
    words = ("code", "name", "covers", "number", "started_how", "code_family", "code_edition")
    typed = {name: getattr(permit, name) for name in words}
    typed["hired"] = str(permit.hired_id or "")
    typed |= {name: day.isoformat() if day else "" for name, day in days.items()}
    of_kind = {rule.kind: rule for rule in permit.rules}
    for field, kind in FIELDS.items():
        rule = of_kind.get(kind)
        typed |= {
            f"{field}_count": str(rule.count or "") if rule else "",
            f"{field}_span": rule.span if rule else Span.DAYS.value,
            f"{field}_words": rule.words if rule else "",
            f"{field}_source": rule.source if rule else "my guess",
        }
    return FormState.of(**typed)
