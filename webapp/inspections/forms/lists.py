"""The forms of a permit and of an inspection."""

import re
from collections.abc import Mapping
from datetime import date

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.rules.checks import TRADES
from webapp.inspections.rules.facts import InspectionFacts, PermitFacts
from webapp.inspections.rules.record import InspectionForm, PermitForm
from webapp.values.dates import parse_day
from webapp.values.own_words import own
from webapp.values.words import plain_slug

_CODE = re.compile(r"[A-Z0-9]{1,12}")
_HOUR = re.compile(r"([01]?\d|2[0-3]):[0-5]\d")


def _code(read: Reader, name: str) -> str:
    """The short name in addresses; made from the name where none is typed."""
    typed = read.text("code").upper() or plain_slug(name).replace("-", "").upper()[:12]
    if typed and not _CODE.fullmatch(typed):
        read.wrong("code", "Up to twelve letters and digits without spaces, such as ELE.")
    return typed


def read_permit(sent: Submitted, today: date) -> PermitForm:
    read = Reader(sent)

    def day(name: str) -> date | None:
        found = read.parsed(name, lambda text: parse_day(text, today))
        if found is not None and found > today:
            read.wrong(name, "This day has not come yet. Leave it empty until it has.")
        return found

    name = read.text("name", f"What is the {own('permit')} called? Electrical permit, for one.", most=120)
    made = PermitForm(
        code=_code(read, name),
        name=name,
        covers=read.text("covers"),
        number=read.text("number", most=60),
        asked_on=day("asked_on"),
        issued_on=day("issued_on"),
        lapse_days=read.whole("lapse_days", least=1, most=3650),
        lapse_rule=read.text("lapse_rule"),
        rule_source=read.text("rule_source", most=120) or "my guess",
        closed_on=day("closed_on"),
    )
    if made.asked_on and made.issued_on and made.issued_on < made.asked_on:
        read.wrong("issued_on", "It cannot have been issued before it was asked for. Look at both days.")
    read.done()
    return made


def permit_state(permit: PermitFacts | None) -> FormState:
    if permit is None:
        return FormState.of(lapse_days="", rule_source="my guess")
    days = {name: getattr(permit, name) for name in ("asked_on", "issued_on", "closed_on")}
    return FormState.of(
        code=permit.code,
        name=permit.name,
        covers=permit.covers,
        number=permit.number,
        lapse_days="" if permit.lapse_days is None else str(permit.lapse_days),
        lapse_rule=permit.lapse_rule,
        rule_source=permit.rule_source,
        **{name: day.isoformat() if day else "" for name, day in days.items()},
    )


def read_inspection(sent: Submitted, permits: Mapping[str, int], surfaces: Mapping[str, int]) -> InspectionForm:
    read = Reader(sent)
    name = read.text("name", f"What is the {own('inspection')} called here?", most=120)
    permit = read.one_of("permit", permits.keys(), required=f"Under which {own('permit')} is it?")
    chosen = read.many_of("surfaces", surfaces.keys())
    notice = read.whole("notice_days", least=0, most=60)
    ask_by = read.text("ask_by") or "15:30"
    if not _HOUR.fullmatch(ask_by):
        read.wrong("ask_by", "Write an hour such as 15:30.", ("15:30",))
    code = _code(read, name)
    must_be_ready, who = read.text("must_be_ready"), read.text("who", most=80) or "inspector"
    before_what, source = read.text("before_what", most=120), read.text("source", most=120) or "my guess"
    trade, who_there = read.one_of("trade", ("", *TRADES)), read.text("who_there", most=120)
    read.done()
    return InspectionForm(
        permit_id=permits[permit],
        code=code,
        name=name,
        surface_ids=tuple(surfaces[each] for each in chosen),
        must_be_ready=must_be_ready,
        notice_days=1 if notice is None else notice,
        ask_by=ask_by.zfill(5),
        who=who,
        before_what=before_what,
        source=source,
        holds_cover=read.flag("holds_cover"),
        renews_permit=read.flag("renews_permit"),
        trade=trade,
        who_there=who_there,
    )


def inspection_state(inspection: InspectionFacts | None) -> FormState:
    if inspection is None:
        return FormState.of(notice_days="1", ask_by="15:30", source="my guess", holds_cover="yes", renews_permit="yes")
    made = FormState.of(
        name=inspection.name,
        code=inspection.code,
        permit=str(inspection.permit_id),
        must_be_ready=inspection.must_be_ready,
        notice_days=str(inspection.notice_days),
        ask_by=inspection.ask_by,
        who=inspection.who,
        before_what=inspection.before_what,
        source=inspection.source,
        holds_cover="yes" if inspection.holds_cover else "",
        renews_permit="yes" if inspection.renews_permit else "",
        trade=inspection.trade,
        who_there=inspection.who_there,
    )
    return FormState(dict(made.typed) | {"surfaces": tuple(map(str, inspection.surface_ids))})
