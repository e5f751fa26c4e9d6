"""The form of an inspection."""

from collections.abc import Mapping

from webapp.core.forms import FormState, Reader, Submitted
from webapp.inspections.forms.parts import code_of, hour
from webapp.inspections.rules.checks import TRADES
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.record import InspectionForm
from webapp.values.own_words import own


def read_inspection(
    sent: Submitted, permits: Mapping[str, int], surfaces: Mapping[str, int], offices: Mapping[str, int]
) -> InspectionForm:
    """`permits`, `surfaces`, `offices`: what is chosen -> its id. Notice and hour are empty where the office's hold."""
    read = Reader(sent)
    name = read.text("name", f"What is the {own('inspection')} called here?", most=120)
    permit = read.one_of("permit", permits.keys(), required=f"Under which {own('permit')} is it?")
    chosen = read.many_of("surfaces", surfaces.keys())
    notice = read.whole("notice_days", least=0, most=60)
    office = read.one_of("office", ("", *offices))
    ask_by = hour(read, "ask_by")
    code = code_of(read, name)
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
        office_id=offices.get(office),
        notice_days=notice,
        ask_by=ask_by,
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
        return FormState.of(source="my guess", holds_cover="yes", renews_permit="yes")
    made = FormState.of(
        name=inspection.name,
        code=inspection.code,
        permit=str(inspection.permit_id),
        must_be_ready=inspection.must_be_ready,
        office=str(inspection.office_id or ""),
        notice_days="" if inspection.notice_days is None else str(inspection.notice_days),
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
