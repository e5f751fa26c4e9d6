"""The links of the one graph: what the builder typed, and what follows from the record without being typed.

Nobody has to type that an open correction stops the closing of its wall, or that an unpaid fee stops the next visit.
"""

from collections.abc import Iterable, Iterator
from dataclasses import replace

from webapp.inspections.rules.kinds import ClearsBy
from webapp.plan.rules.graph import Link, downstream_of_each
from webapp.plan.rules.kinds import NeedKind, Strength
from webapp.readiness.rules import keys
from webapp.readiness.rules.letting import word_holds
from webapp.readiness.store.covered_nodes import change_links, covering_links
from webapp.readiness.store.hired_nodes import hired_links
from webapp.readiness.store.planned import between_tasks, grouped, wait
from webapp.readiness.store.record import Record
from webapp.surfaces.rules.kinds import QuestionKind
from webapp.surfaces.store import LiftedFacts

STOPPING_QUESTIONS = {QuestionKind.DANGER, QuestionKind.CODE}
INSULATION = "insulation"


def named(kind: str, row_id: int, surface_id: int, record: Record) -> tuple[str, ...]:
    """The nodes a typed need speaks of: one, or every owed picture of a surface, or each surface of an inspection."""
    if kind == NeedKind.PICTURES:
        return tuple(keys.slot(slot.id) for slot in record.slots if slot.surface_id == row_id)
    if kind == NeedKind.INSPECTION:
        places = record.standings.get(row_id, {})
        return tuple(
            keys.inspection(row_id, place) for place in places if not surface_id or place in {surface_id, None}
        )
    return (f"{kind}:{row_id}",)


def typed_links(record: Record) -> Iterator[Link]:
    """What the builder said that something needs."""
    yield from record.task_links
    for need in record.needs:
        if between_tasks(need):
            continue
        days = wait(need, record.task)
        for waiter in named(need.what_kind, need.what_id, need.what_surface_id, record):
            for needed in named(need.needs_kind, need.needs_id, need.needs_surface_id, record):
                yield Link(waiter, needed, need.strength == Strength.HARD, days, need.reason)


def lost_links(record: Record, known: set[str]) -> Iterator[Link]:
    """A need whose other end is gone still stops: what it asked for was never said to be unnecessary."""
    for need in record.needs:
        if need.needs_kind != NeedKind.TASK and keys.need(need.id) in known:
            for waiter in named(need.what_kind, need.what_id, need.what_surface_id, record):
                yield Link(waiter, keys.need(need.id), need.strength == Strength.HARD, reason=need.reason)


def visit_links(record: Record) -> Iterator[Link]:
    """A visit needs its permit, fees that stop visits, what was asked for, and its own corrections done first."""
    stopping = grouped((fee.permit_id, fee) for fee in record.fees if fee.stops_visits)
    asked = grouped((item.inspection_id, item) for item in record.asked if item.stops)
    for inspection in record.inspections:
        for place in inspection.places:
            key = keys.inspection(inspection.id, place)
            yield Link(key, keys.permit(inspection.permit_id))
            for fee in stopping.get(inspection.permit_id, ()):
                yield Link(key, keys.fee(fee.id), reason="no visits until paid")
            for item in asked.get(inspection.id, ()):
                if item.surface_id in {place, None}:
                    yield Link(key, keys.asked(item.id), reason="asked by the inspector")
            for one in record.corrections_of.get(inspection.id, ()):
                if one.clears_by == ClearsBy.REVISIT and one.surface_id in {place, None}:
                    yield Link(key, keys.correction(one.id), reason="to be put right before the re-visit")


def inspection_cover_links(record: Record) -> Iterator[Link]:
    """What the authority still has to see or hear before a surface is closed."""
    every = tuple(record.surface)
    for inspection in record.inspections:
        if inspection.holds_cover:
            for place in inspection.places:
                for surface_id in (place,) if place else every:
                    seen_at = surface_id if record.unseen(inspection, surface_id) else place
                    yield Link(keys.cover(surface_id), keys.inspection(inspection.id, seen_at))
    for item in record.asked:
        if item.stops and item.surface_id:
            yield Link(keys.cover(item.surface_id), keys.asked(item.id), reason="asked by the inspector")


def correction_cover_links(record: Record) -> Iterator[Link]:
    """What was to be put right before a surface is closed, and whether it was seen again where it had to be."""
    every = tuple(record.surface)
    for inspection in record.inspections:
        unnamed = inspection.surface_ids or (every if inspection.holds_cover else ())
        for one in record.corrections_of.get(inspection.id, ()):
            for surface_id in (one.surface_id,) if one.surface_id else unnamed:
                yield Link(keys.cover(surface_id), keys.correction(one.id))
        for place, found in record.standings[inspection.id].items():
            # What is put right and not seen again is owed, also where the inspection as such holds nothing.
            if place and any(one.clears_by == ClearsBy.REVISIT for one in found.owed):
                yield Link(keys.cover(place), keys.inspection(inspection.id, place))


def evidence_cover_links(record: Record) -> Iterator[Link]:
    """What the builder still owes before a surface is closed: answers, pictures, shots, counts."""
    for question in record.questions:
        if question.surface_id:
            hard = question.kind in STOPPING_QUESTIONS
            yield Link(keys.cover(question.surface_id), keys.question(question.id), hard)
    for slot in record.slots:
        yield Link(keys.cover(slot.surface_id), keys.slot(slot.id), slot.strength == "must")
    for shot in record.shots:
        for surface_id in record.shot_surfaces.get(shot.id, ()):
            yield Link(keys.cover(surface_id), keys.shot(shot.id), shot.strength == "must")
    for surface in record.surfaces:
        yield Link(keys.cover(surface.id), keys.basis(surface.id))
        if surface.needs_count:
            yield Link(keys.cover(surface.id), keys.count(surface.id))
        yield Link(keys.cover(surface.id), keys.offsets(surface.id))


def step_links(record: Record) -> Iterator[Link]:
    """A shot goes before its task; pictures before insulation go before the insulation."""
    for shot in record.shots:
        if shot.task_id is not None:
            yield Link(keys.task(shot.task_id), keys.shot(shot.id), shot.strength == "must", reason="film it first")
    before = grouped((slot.surface_id, slot) for slot in record.slots if slot.picture_set == "before")
    for task in record.tasks:
        if task.kind == INSULATION:
            for surface_id in record.task_surfaces.get(task.id, ()):
                for slot in before.get(surface_id, ()):
                    hard = slot.strength == "must"
                    yield Link(keys.task(task.id), keys.slot(slot.id), hard, reason="hidden by the insulation")


def _comes_between(links: Iterable[Link], record: Record) -> set[tuple[str, str]]:
    """Closing task and a need of its surface that itself waits for that task, so that another one closes at last.

    Where every closing task has to come before such a need, none can close after it: that circle stays, to be seen.
    """
    shared = [
        {keys.task(task) for task in closers if task in record.task}
        for surface_id, closers in record.closers.items()
        if len(closers) > 1 and record.surface[surface_id].covered_on is None
    ]
    if not shared:
        return set()
    after = downstream_of_each(set().union(*shared), (link for link in links if link.hard))
    return {
        (closer, later)
        for own in shared
        for closer in own
        for later in after[closer]
        if not all(later in after[other] for other in own)
    }


def joined_with_closers(links: Iterable[Link], record: Record) -> Iterator[Link]:
    """A surface and the tasks that close it share their needs: none may go before what the others wait for.

    But a closing task takes over no need that waits for itself: a visit between two layers stops the second and the
    surface, not the first.
    """
    links = list(links)
    yield from links
    closing = {keys.task(task) for closers in record.closers.values() for task in closers}
    closing |= {keys.cover(surface_id) for surface_id in record.closers}
    needs = grouped((link.waiter, link) for link in links if link.waiter in closing)
    between = _comes_between(links, record)
    for surface_id, closers in record.closers.items():
        cover = keys.cover(surface_id)
        own = {keys.task(task) for task in closers}
        for closer in own:
            for link in needs.get(cover, ()):
                if link.needs not in own and (closer, link.needs) not in between:
                    yield replace(link, waiter=closer)
            for link in needs.get(closer, ()):
                if link.needs not in own:
                    yield replace(link, waiter=cover)


def _let_go(record: Record, lines: Iterable[LiftedFacts]) -> set[tuple[str, str]]:
    """Waiter and need of what was let go on a surface: neither its closing nor who closes it asks again."""
    return {
        (waiter, line.node_key)
        for line in lines
        for waiter in (
            keys.cover(line.surface_id),
            *(keys.task(task) for task in record.closers.get(line.surface_id, ())),
        )
    }


def _of_the_whole_building(record: Record) -> Iterator[LiftedFacts]:
    """The authority's word on one surface about what holds every surface: it frees this one and no other."""
    results = {
        keys.inspection(one.id, None): record.results_of.get(one.id, ())
        for one in record.inspections
        if not one.surface_ids
    }
    corrections = {
        keys.correction(one.id) for found in record.corrections_of.values() for one in found if not one.surface_id
    }
    for line in record.let_go:
        said = results.get(line.node_key)
        if line.node_key in corrections or (said is not None and word_holds(line.on_day, line.at, said, None)):
            yield line


def _lifted(record: Record) -> set[tuple[str, str]]:
    """Pairs that the authority's word took out; a task that closes two surfaces waits until it was said of both."""
    lines = tuple(_of_the_whole_building(record))
    said = {(line.surface_id, line.node_key) for line in lines}
    held = {
        (keys.task(task), line.node_key)
        for line in lines
        for surface_id, closers in record.closers.items()
        for task in closers
        if (surface_id, line.node_key) not in said
    }
    return _let_go(record, lines) - held


def all_links(record: Record, known: set[str]) -> list[Link]:
    """Every link between nodes that are there; each pair once, as strong and as long as its strongest."""
    made = [
        *typed_links(record),
        *lost_links(record, known),
        *visit_links(record),
        *inspection_cover_links(record),
        *correction_cover_links(record),
        *evidence_cover_links(record),
        *step_links(record),
        *covering_links(record),
        *change_links(record),
        *hired_links(record),
    ]
    strongest: dict[tuple[str, str], Link] = {}
    for link in joined_with_closers(made, record):
        pair = (link.waiter, link.needs)
        if link.waiter in known and link.needs in known and link.waiter != link.needs:
            held = strongest.get(pair)
            if held is None or (link.hard, link.lag_days) > (held.hard, held.lag_days):
                strongest[pair] = link if link.reason or held is None else replace(link, reason=held.reason)
    skipped = _let_go(record, record.let_go)
    lifted = _lifted(record)
    return [link for pair, link in strongest.items() if pair not in (lifted if link.hard else skipped)]
