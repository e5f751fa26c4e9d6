"""Permits, the visits owed under them, what came of each, corrections, what was asked for, fees."""

from webapp.demo.actions.book import EVENING, NIGHT, Book, moment
from webapp.demo.rules import plan_rows
from webapp.demo.rules.offices import closed_days, code_of, office_of, offices, own_notice
from webapp.demo.rules.visits import ASKED, CORRECTION_PICTURES, WITHDRAWN, holds_cover, renews_permit, window_of
from webapp.inspections.models import (
    AskedItem,
    ClosedDay,
    Correction,
    CorrectionChange,
    Fee,
    Inspection,
    InspectionSurface,
    Office,
    Permit,
    PermitRule,
    Result,
    Visit,
)
from webapp.inspections.rules.kinds import ClockKind, CorrectionState, Evidence, Outcome


def write_permits(book: Book) -> None:
    book.keep("permit", {row.id: _permit(book, row) for row in book.content.permits})
    for ruled in book.content.permits:
        book.add(
            PermitRule(
                permit_id=book.id("permit", ruled.id),
                kind=ClockKind.IDLE.value,
                count=ruled.lapse_days,
                words=f"{ruled.lapse_rule}. Extension: {ruled.extension_rule}",
                source=ruled.rule_source,
            )
        )
    write_offices(book)
    book.keep("inspection", {row.id: _inspection(book, row) for row in book.content.inspections})
    for row in book.content.inspections:
        for code in row.surfaces:
            surface_id = book.maybe("surface", code)
            if surface_id:
                book.add(InspectionSurface(inspection_id=book.id("inspection", row.id), surface_id=surface_id))


def _permit(book: Book, row: plan_rows.Permit) -> Permit:
    family, edition = code_of(row.id, {fact.key: fact.value for fact in book.content.build})
    return Permit(
        build_id=book.build.id,
        code=row.id,
        name=row.name,
        asked_on=row.asked_day,
        issued_on=row.issued_day,
        code_family=family,
        code_edition=edition,
    )


def write_offices(book: Book) -> None:
    """One for each trade's inspector, as the calendar tells of them, and the day on which all are closed."""
    book.keep(
        "office",
        {
            each.trade: Office(
                build_id=book.build.id,
                name=each.name,
                weekdays=",".join(str(day) for day in each.weekdays),
                from_time=each.from_time,
                until_time=each.until_time,
                notice_days=each.notice_days,
                ask_by=each.ask_by,
                cancel_by=each.cancel_by,
                source="authority's handout",
            )
            for each in offices(book.content.calendar)
        },
    )
    for trade, line, why in closed_days(book.content.calendar):
        if line.day is not None:
            office_id = book.maybe("office", trade)
            book.add(ClosedDay(build_id=book.build.id, office_id=office_id, day=line.day, why=why))


def _inspection(book: Book, row: plan_rows.Inspection) -> Inspection:
    return Inspection(
        build_id=book.build.id,
        permit_id=book.id("permit", row.permit),
        position=row.order_here,
        code=row.id,
        name=row.name,
        must_be_ready=row.must_be_ready,
        office_id=book.maybe("office", office_of(row)),
        notice_days=own_notice(row, book.content.calendar),
        who=row.who,
        before_what=row.before_what,
        source=row.source,
        holds_cover=holds_cover(row),
        renews_permit=renews_permit(row),
    )


def write_visits(book: Book) -> None:
    book.keep("visit", {row.id: _visit(book, row) for row in book.content.visits})
    book.keep("result", {row.id: _result(book, row) for row in book.content.results})
    _amend_results(book)
    book.keep("correction", {row.id: _correction(book, row) for row in book.content.corrections})
    _write_steps(book)
    _write_asked(book)


def _visit(book: Book, row: plan_rows.Visit) -> Visit:
    window, note = window_of(row.my_note)
    return Visit(
        build_id=book.build.id,
        inspection_id=book.id("inspection", row.inspection),
        asked_on=row.asked_day,
        day=row.day,
        window=window,
        outcome=row.outcome,
        reason=row.outcome_reason,
        note=note,
    )


def _result(book: Book, row: plan_rows.Result) -> Result:
    on_paper = row.evidence != Evidence.MY_NOTE
    return Result(
        visit_id=book.id("visit", row.visit),
        inspection_id=book.id("inspection", row.inspection),
        surface_id=book.maybe("surface", row.surface),
        kind=row.result,
        day=row.day,
        part=row.note if row.result == "part passed" else "",
        evidence=row.evidence,
        photo_id=book.id("photo", row.paper) if on_paper else None,
        recorded_at=moment(row.day, EVENING),
    )


def _amend_results(book: Book) -> None:
    """The mistyped one and the one taken back by letter: both stay, each with who changed it and why."""
    stands_in = {row.note.removeprefix("replaces "): row.id for row in book.content.results if "replaces " in row.note}
    for row in book.content.results:
        if row.state == "current":
            continue
        result = book.session.get_one(Result, book.id("result", row.id))
        result.state, result.changed_by, result.changed_why = row.state, row.changed_by, row.note
        result.changed_on = row.day
        if row.id in stands_in:
            result.replaced_by_id = book.id("result", stands_in[row.id])
        if row.id in WITHDRAWN:
            letter = next(paper for paper in book.content.papers if paper.id == WITHDRAWN[row.id])
            result.changed_on, result.changed_who = letter.day, "the building department"
            result.changed_photo_id = book.id("photo", letter.id)
        book.add(result)


def _correction(book: Book, row: plan_rows.Correction) -> Correction:
    before, after = CORRECTION_PICTURES.get(row.id, ("", ""))
    return Correction(
        build_id=book.build.id,
        result_id=book.id("result", row.result),
        surface_id=book.maybe("surface", row.surface),
        item_id=book.maybe("item", row.item),
        number=int(row.id.removeprefix("K")),
        words=row.words,
        form=row.form,
        rule_cited="" if row.rule == "none given" else row.rule,
        clears_by=row.clears_by,
        state=row.state,
        done_on=row.done_day,
        cleared_on=row.cleared_day,
        cleared_by="me" if row.cleared_day else "",
        before_photo_id=book.maybe("photo", before),
        after_photo_id=book.maybe("photo", after),
        note=row.note,
    )


def _write_steps(book: Book) -> None:
    for row in book.content.corrections:
        if row.done_day:
            book.add(
                CorrectionChange(
                    correction_id=book.id("correction", row.id),
                    was=CorrectionState.OPEN.value,
                    became=row.state,
                    on_day=row.cleared_day or row.done_day,
                    why=row.note,
                    at=moment(row.done_day, NIGHT),
                )
            )


def _write_asked(book: Book) -> None:
    days = {row.id: row.day for row in book.content.visits}
    for each in ASKED:
        book.add(
            AskedItem(
                build_id=book.build.id,
                inspection_id=book.id("inspection", each.inspection),
                surface_id=book.maybe("surface", each.surface),
                visit_id=book.id("visit", each.visit),
                words=each.words,
                source="asked by inspector",
                asked_on=days[each.visit],
                stops=each.stops,
                done_on=book.done_day(each.done),
            )
        )


def write_fees(book: Book) -> None:
    """A fee that followed a visit, paid with the line of spend that has the same paper trail."""
    permit_of = {row.id: row.permit for row in book.content.inspections}
    for visit in book.content.visits:
        if not visit.fee_cents:
            continue
        paid = next(row for row in book.content.spend if row.kind == "fees" and row.total_cents == visit.fee_cents)
        book.add(
            Fee(
                build_id=book.build.id,
                permit_id=book.id("permit", permit_of[visit.inspection]),
                visit_id=book.id("visit", visit.id),
                amount_cents=visit.fee_cents,
                why=f"{Outcome(visit.outcome).value}: {visit.outcome_reason}",
                stops_visits=True,
                paid_on=paid.day,
                spend_id=book.id("spend", paid.id),
            )
        )
