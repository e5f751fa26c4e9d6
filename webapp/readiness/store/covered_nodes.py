"""The nodes of what was covered by mistake: each stops its surface until the authority spoke of it since."""

from collections.abc import Iterator
from datetime import date

from webapp.plan.rules.graph import Link
from webapp.readiness.rules import keys
from webapp.readiness.rules.mistaken import needs_a_word, said_day, spoken_since, work_title
from webapp.readiness.rules.network import Node, WaitsFor
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
