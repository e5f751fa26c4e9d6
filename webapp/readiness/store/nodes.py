"""The nodes of the one graph: each says how it stands, whom it waits for, and where it is settled."""

import functools
from collections.abc import Iterable, Iterator
from datetime import date

from sqlmodel import Session

from webapp.core.database import remembered
from webapp.inspections.rules.corrections import clearing, clears_in_short
from webapp.inspections.rules.facts import CorrectionFacts, InspectionFacts, VisitFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionState, Outcome, ResultKind
from webapp.inspections.rules.results import Standing
from webapp.plan.rules.kinds import TaskState, Weather, Who
from webapp.plan.store import BuildFacts, TaskFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.network import Node, WaitsFor
from webapp.readiness.store.covered_nodes import change_nodes, covering_nodes
from webapp.readiness.store.hired_nodes import hired_nodes
from webapp.readiness.store.lost import lost_nodes
from webapp.readiness.store.owed_nodes import (
    basis_nodes,
    count_nodes,
    cover_nodes,
    offset_nodes,
    question_nodes,
    shot_nodes,
    slot_nodes,
)
from webapp.readiness.store.planned import Planned, planned
from webapp.readiness.store.record import Record
from webapp.values.dates import show_day, show_short_day
from webapp.values.duration import show_minutes
from webapp.values.money import show_money
from webapp.values.own_words import own

HANDS = {Who.SELF: "alone", Who.HELPER: "with a helper", Who.HIRED: "hired"}


def _task_nodes(parts: Planned, base: str) -> Iterator[Node]:
    for rank, task in enumerate(parts.tasks):
        yield Node(
            key=keys.task(task.id),
            kind="task",
            title=task.title,
            settled=task.state == TaskState.DONE,
            settled_on=task.done_on,
            waits_for=_hands(task),
            detail=task_detail(task),
            href=f"{base}/tasks/{task.id}",
            minutes=task.likely_min,
            phase_id=task.phase_id,
            surface_ids=parts.task_surfaces.get(task.id, ()),
            hands=task.hands,
            who=task.who,
            weather=task.weather,
            started=task.state == TaskState.UNDER_WAY,
            one_go=task.one_go,
            rank=rank,
            ready_says=f"Go on: {task.title}" if task.state == TaskState.UNDER_WAY else "",
        )


def task_nodes(session: Session, build: BuildFacts) -> tuple[Node, ...]:
    """A node for each task, made anew only when something of the plan was written: they are nearly all there is."""
    return remembered(
        session, ("task nodes", build), lambda: tuple(_task_nodes(planned(session, build.id), build.base))
    )


def _hands(task: TaskFacts) -> WaitsFor:
    if task.who == Who.HIRED:
        return WaitsFor.HIRED
    return WaitsFor.HELPER if task.who == Who.HELPER or task.hands > 1 else WaitsFor.ME


def task_detail(task: TaskFacts) -> str:
    """ "2½ h, alone, needs a dry day" """
    return _detail(task.likely_min, task.hands, task.who, task.weather, task.one_go)


@functools.cache
def _detail(minutes: int, hands: int, who: str, weather: str, one_go: bool) -> str:
    parts = [show_minutes(minutes), "two pairs of hands" if hands > 1 and who == Who.SELF else HANDS[Who(who)]]
    if weather == Weather.DRY:
        parts.append("needs a dry day")
    if one_go:
        parts.append("in one go")
    return ", ".join(parts)


def permit_nodes(record: Record, base: str) -> Iterator[Node]:
    for rank, permit in enumerate(record.permits):
        asked = permit.asked_on
        yield Node(
            key=keys.permit(permit.id),
            kind="permit",
            title=f"{permit.name} issued",
            settled=permit.issued_on is not None,
            settled_on=permit.issued_on,
            waits_for=WaitsFor.INSPECTOR if asked else WaitsFor.ME,
            detail=f"Asked for {show_day(asked)}." if asked else "Not asked for yet.",
            href=f"{base}/permits/{permit.code}",
            rank=rank,
            ready_says="" if asked else f"Ask for the {own('permit')}: {permit.name}",
        )


def fee_nodes(record: Record, build: BuildFacts) -> Iterator[Node]:
    permits = {permit.id: permit for permit in record.permits}
    for fee in record.fees:
        stops = "no visits until paid" if fee.stops_visits else "stops nothing"
        yield Node(
            key=keys.fee(fee.id),
            kind="fee",
            title=f"Pay the fee, {show_money(fee.amount_cents, build.currency)}",
            settled=fee.paid_on is not None,
            settled_on=fee.paid_on,
            waits_for=WaitsFor.MONEY,
            detail=f"{permits[fee.permit_id].name}: {stops}.",
            href=f"{build.base}/fees/{fee.id}",
            until=fee.due_on,
            rank=-1,
        )


def inspection_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    for rank, inspection in enumerate(record.inspections):
        for place, found in record.standings[inspection.id].items():
            where = record.surface[place].code if place else ""
            title = f"{inspection.name}, {where}" if where else inspection.name
            let_go = record.word_on(inspection.id, place)
            # What the inspector wants to see again keeps the visit owed, whatever else was passed.
            passed = found.passed and not any(one.clears_by == ClearsBy.REVISIT for one in found.owed)
            waits_for, until, detail, says = _visit_waits(record, inspection, place, title, today)
            yield Node(
                key=keys.inspection(inspection.id, place),
                kind="inspection",
                title=title,
                settled=passed or let_go is not None,
                settled_on=found.day if passed else (let_go.on_day if let_go else None),
                waits_for=waits_for,
                detail=detail,
                href=_settled_at(found, f"{base}/results", f"{base}/inspections/{inspection.code}"),
                until=until,
                surface_ids=(place,) if place else (),
                rank=rank,
                ready_says=says,
            )


def unseen_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    """Surfaces written down after the whole building had passed: seen again, or the inspector's word that he saw it."""
    for rank, one in enumerate(record.inspections):
        for surface in record.surfaces if one.holds_cover and not one.surface_ids else ():
            if not record.unseen(one, surface.id):
                continue
            found, let_go = record.standings[one.id][None], record.word_on(one.id, surface.id)
            on = f" {show_day(found.day, today)}" if found.day else ""
            passed = f"Passed on the whole building{on}, before this surface was written down."
            yield Node(
                key=keys.inspection(one.id, surface.id),
                kind="inspection",
                title=f"{one.name}, {surface.code}",
                settled=let_go is not None,
                settled_on=let_go.on_day if let_go else None,
                detail=f"{passed} Did the inspector see it too? Then record their word.",
                href=f"{base}/inspections/{one.code}",
                surface_ids=(surface.id,),
                rank=rank,
                ready_says=f"Ask for the visit: {one.name}, {surface.code}",
            )


def _settled_at(found: Standing, results: str, sheet: str) -> str:
    """Where a pass by word gets its card or report, else the sheet of the inspection."""
    return f"{results}/{found.word.id}?do=paper" if found.word else sheet


def next_visit(record: Record, inspection_id: int) -> VisitFacts | None:
    """The visit that is planned or asked for, if any: the earliest one not held yet."""
    ahead = {Outcome.PLANNED, Outcome.ASKED}
    return next((visit for visit in record.visits_of.get(inspection_id, ()) if visit.outcome in ahead), None)


def _visit_waits(
    record: Record, inspection: InspectionFacts, place: int | None, title: str, today: date
) -> tuple[WaitsFor, date | None, str, str]:
    """Whom the visit waits for, until when, where it stands in words, and what to do at the root."""
    found = record.standings[inspection.id][place]
    stood = found.words[:1].upper() + found.words[1:]
    so_far = f"{stood} {show_day(found.day, today)}." if found.day else "Not looked at yet."
    if found.before:
        said = f"{found.before.kind[:1].upper()}{found.before.kind[1:]}"
        so_far = f"{said} {show_day(found.before.day, today)}, before a change."
    again = (
        " again" if found.passed or found.before or found.kind in {ResultKind.FAILED, ResultKind.PART_PASSED} else ""
    )
    if found.word:
        said = f"{found.words[:1].upper()}{found.words[1:]}"
        return WaitsFor.HIRED, None, f"{said}, {show_day(found.word.day, today)}.", f"Card or report: {title}"
    visit = next_visit(record, inspection.id)
    if visit is None or visit.outcome == Outcome.PLANNED:
        planned = f" Planned for {show_day(visit.day, today)}, not asked for yet." if visit and visit.day else ""
        return WaitsFor.ME, None, so_far + planned, f"Ask for the visit: {title}{again}"
    if visit.day and visit.day < today:
        return WaitsFor.ME, None, f"The visit was on {show_day(visit.day, today)}.", f"Record the result: {title}"
    on_day = f" for {show_day(visit.day, today)}{', ' + visit.window if visit.window else ''}" if visit.day else ""
    return WaitsFor.INSPECTOR, visit.day, f"{so_far} Visit asked for{on_day}.", f"Visit: {title}"


def correction_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    results = {result.id: result for result in record.results}
    for one in record.corrections:
        cleared = clearing(one, record.results_of.get(one.inspection_id, ()))
        done = one.clears_by == ClearsBy.REVISIT and one.state in {CorrectionState.DONE, CorrectionState.SENT}
        let_go = record.lifted.get(keys.correction(one.id)) if one.surface_id else None
        said = " Said, not written." if one.form.startswith("said") else ""
        yield Node(
            key=keys.correction(one.id),
            kind="correction",
            title=one.words,
            settled=bool(cleared) or done or let_go is not None,
            settled_on=cleared.on if cleared else one.done_on or (let_go.on_day if let_go else None),
            waits_for=_correction_waits(one),
            detail=f"Correction, {show_short_day(results[one.result_id].day, today)}.{said} {clears_in_short(one)}",
            href=f"{base}/corrections/{one.id}",
            minutes=one.likely_min,
            surface_ids=(one.surface_id,) if one.surface_id else (),
            rank=one.number,
        )


def _correction_waits(one: CorrectionFacts) -> WaitsFor:
    return WaitsFor.INSPECTOR if one.state == CorrectionState.SENT else WaitsFor.ME


def asked_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    kinds = {inspection.id: inspection for inspection in record.inspections}
    for rank, item in enumerate(record.asked):
        kind = kinds[item.inspection_id]
        yield Node(
            key=keys.asked(item.id),
            kind="asked",
            title=item.words,
            settled=not item.open or keys.asked(item.id) in record.lifted,
            settled_on=item.done_on or item.dropped_on,
            detail=f"{item.source[:1].upper()}{item.source[1:]}, {show_day(item.asked_on, today)}.",
            href=f"{base}/inspections/{kind.code}#ready",
            surface_ids=(item.surface_id,) if item.surface_id else (),
            rank=rank,
        )


def all_nodes(record: Record, tasks: Iterable[Node], build: BuildFacts, today: date) -> list[Node]:
    """Every node of one build; those of its `tasks` are made already."""
    base = build.base
    found = [
        *tasks,
        *permit_nodes(record, base),
        *fee_nodes(record, build),
        *inspection_nodes(record, base, today),
        *unseen_nodes(record, base, today),
        *correction_nodes(record, base, today),
        *asked_nodes(record, base, today),
        *question_nodes(record, base, today),
        *shot_nodes(record, base),
        *slot_nodes(record, base),
        *count_nodes(record, base),
        *offset_nodes(record, base),
        *basis_nodes(record, base),
        *cover_nodes(record, base),
        *covering_nodes(record, base, today),
        *change_nodes(record, base, today),
        *hired_nodes(record, base, today),
    ]
    return [*found, *lost_nodes(record, base, {node.key for node in found})]
