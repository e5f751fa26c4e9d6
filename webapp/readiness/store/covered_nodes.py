"""The nodes of what went otherwise than planned: what was covered by mistake stops its surface until the authority
spoke of it since, a change from what was approved until it is answered."""

from collections.abc import Iterator
from datetime import date

from webapp.inspections.rules.facts import SETTLING, PlanChangeFacts
from webapp.inspections.rules.kinds import ChangeAnswer
from webapp.plan.rules.graph import Link
from webapp.readiness.rules import keys
from webapp.readiness.rules.mistaken import needs_a_word, said_day, spoken_since, work_title
from webapp.readiness.rules.network import Node, WaitsFor
from webapp.readiness.rules.wording import inside
from webapp.readiness.store.record import Record
from webapp.surfaces.rules.kinds import CoverStepKind, LiftedBy
from webapp.surfaces.store import CoverFacts
from webapp.values.dates import show_day


def _lifted_on(record: Record, cover: CoverFacts) -> date | None:
    """The day of the authority's own word about this surface, if it was written down since."""
    said = (
        line.on_day
        for line in record.let_go
        if line.surface_id == cover.surface_id and line.by == LiftedBy.AUTHORITY and line.at > cover.at
    )
    return min(said, default=None)


def _was_asked(record: Record, cover: CoverFacts) -> bool:
    return any(step.cover_id == cover.id and step.kind == CoverStepKind.ASKED for step in record.cover_steps)


def covering_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    for cover in record.coverings:
        code = record.surface[cover.surface_id].code
        result = spoken_since(cover.at, cover.surface_id, record.results)
        said_on = said_day(result, _lifted_on(record, cover))
        asked = _was_asked(record, cover)
        yield Node(
            key=keys.covering(cover.id),
            kind="covering",
            title=f"Covered by mistake: {cover.extent or 'all of it'}",
            settled=said_on is not None or not needs_a_word(cover.owed_keys),
            settled_on=said_on,
            waits_for=WaitsFor.INSPECTOR if asked else WaitsFor.ME,
            detail=f"{show_day(cover.covered_on, today)}. No result names {code} since.",
            href=f"{base}/coverings/{cover.id}",
            surface_ids=(cover.surface_id,),
            ready_says="" if asked else work_title(code, word=True),
        )


def covering_links(record: Record) -> Iterator[Link]:
    """The surface waits for the word, and until the inspector was asked the word waits for the work of asking."""
    for cover in record.coverings:
        key = keys.covering(cover.id)
        yield Link(keys.cover(cover.surface_id), key, reason="covered by mistake")
        if cover.task_id is not None and not _was_asked(record, cover):
            yield Link(key, keys.task(cover.task_id), reason="covered by mistake")


def change_nodes(record: Record, base: str, today: date) -> Iterator[Node]:
    for change in record.changes:
        waits_for, detail, says = _change_waits(change, today)
        yield Node(
            key=keys.change(change.id),
            kind="change",
            title=f"Change: {inside(change.what)}",
            settled=change.settled,
            settled_on=change.answered_on if change.answer in SETTLING else None,
            waits_for=waits_for,
            detail=detail,
            href=f"{base}/changes/{change.id}",
            surface_ids=change.surface_ids,
            rank=change.id,
            ready_says=says,
        )


def _change_waits(change: PlanChangeFacts, today: date) -> tuple[WaitsFor, str, str]:
    """Whom an open change waits for, where it stands, and what to do at the root."""
    if change.answer == ChangeAnswer.REFUSED:
        day = f" {show_day(change.answered_on, today)}" if change.answered_on else ""
        return WaitsFor.ME, f"Refused{day}. Move it back, or ask again.", f"Move it back or ask again: {change.what}"
    if change.asked_on is not None:
        asked = f"Asked {show_day(change.asked_on, today)}. {change.who_agrees[:1].upper()}{change.who_agrees[1:]}"
        return WaitsFor.INSPECTOR, f"{asked} has to agree.", ""
    return (
        WaitsFor.ME,
        f"Not asked yet. {change.who_agrees[:1].upper()}{change.who_agrees[1:]} has to agree.",
        (f"Ask about the change: {change.what}"),
    )


def change_links(record: Record) -> Iterator[Link]:
    for change in record.changes:
        for surface_id in change.surface_ids:
            yield Link(keys.cover(surface_id), keys.change(change.id), reason="changed after it was approved")
