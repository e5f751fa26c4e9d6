"""Everything on record between two days, as facts a draft is made from: a fixed number of queries."""

from collections.abc import Iterator, Sequence
from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.episodes.rules.facts import DoneTask, Hours, PutRight, SeenResult, SpanFacts, SpanShot, Spent
from webapp.episodes.store.pictures import span_pictures
from webapp.footage.models import Shot
from webapp.inspections import store as inspections
from webapp.inspections.rules.corrections import clearing
from webapp.inspections.rules.facts import CorrectionFacts, ResultFacts
from webapp.inspections.rules.kinds import CorrectionForm, ResultKind, ResultState
from webapp.inspections.rules.results import current_result, evidence_words
from webapp.money.models import Spend
from webapp.plan.models import Phase, Task
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts
from webapp.surfaces.store import list_surfaces
from webapp.workdays.models import Workday, WorkEntry


def span_facts(session: Session, build: BuildFacts, from_day: date, to_day: date) -> SpanFacts:
    """What was done, seen, put right, worked, paid and filmed from `from_day` to `to_day`, both included."""
    results = inspections.list_results(session, build.id)
    places = {wall.id: wall.name for wall in list_surfaces(session, build.id)}
    names = {each.id: each.name for each in inspections.list_inspections(session, build.id)}
    corrections = inspections.list_corrections(session, build.id)
    span = (from_day, to_day)
    return SpanFacts(
        from_day,
        to_day,
        done=_done(session, build, span),
        results=tuple(_seen(build, results, names, places, span)),
        corrections=tuple(_put_right(build, corrections, results, places, span)),
        hours=_hours(session, build, span),
        spent=_spent(session, build, span),
        shots=_shots(session, build, span),
        pictures=span_pictures(session, build.id, from_day, to_day),
    )


Span = tuple[date, date]


def _done(session: Session, build: BuildFacts, span: Span) -> tuple[DoneTask, ...]:
    """Tasks done and still done, phase by phase, in the order they were done."""
    statement = (
        select(col(Task.title), col(Phase.title), col(Task.done_on), col(Task.id))
        .join(Phase, col(Phase.id) == col(Task.phase_id))
        .where(
            col(Task.build_id) == build.id,
            col(Task.state) == TaskState.DONE.value,
            col(Task.done_on).between(*span),
        )
        .order_by(col(Phase.position), col(Phase.id), col(Task.done_on), col(Task.position), col(Task.id))
    )
    return tuple(
        DoneTask(title, phase, done_on, f"{build.base}/tasks/{task_id}")
        for title, phase, done_on, task_id in rows(session, statement)
    )


def list_work(session: Session, build_id: int, from_day: date, to_day: date) -> tuple[tuple[str, str], ...]:
    """Kind and title of each task finished or worked on between two days, in the builder's order."""
    span = (from_day, to_day)
    worked = (
        select(col(WorkEntry.task_id))
        .join(Workday, col(Workday.id) == col(WorkEntry.workday_id))
        .where(col(Workday.build_id) == build_id, col(Workday.day).between(*span))
    )
    finished = (col(Task.state) == TaskState.DONE.value) & col(Task.done_on).between(*span)
    statement = (
        select(col(Task.kind), col(Task.title))
        .join(Phase, col(Phase.id) == col(Task.phase_id))
        .where(col(Task.build_id) == build_id, finished | col(Task.id).in_(worked))
        .order_by(col(Phase.position), col(Task.position), col(Task.id))
    )
    return tuple((kind, title) for kind, title in rows(session, statement))


def _seen(
    build: BuildFacts, results: Sequence[ResultFacts], names: dict[int, str], places: dict[int, str], span: Span
) -> Iterator[SeenResult]:
    """Current results of the span. One stands while no later visit of its inspection said otherwise of its place."""
    for result in results:
        if result.state != ResultState.CURRENT or not span[0] <= result.day <= span[1]:
            continue
        own = [each for each in results if each.inspection_id == result.inspection_id]
        last = current_result(own, result.surface_id)
        yield SeenResult(
            inspection=names[result.inspection_id],
            place=places.get(result.surface_id or 0, ""),
            kind=result.kind,
            day=result.day,
            part=result.part,
            paper=evidence_words(result),
            stands=not _is_taken_back(result, last),
            href=f"{build.base}/visits/{result.visit_id}",
        )


_GOOD = {ResultKind.PASSED, ResultKind.SMALL_ITEMS, ResultKind.PART_PASSED}


def _is_taken_back(result: ResultFacts, last: ResultFacts | None) -> bool:
    """Whether something good was said and what counts now is not as good. A fail that passed later is its own story."""
    if last is None or last.id == result.id or result.kind not in _GOOD:
        return False
    return last.kind not in _GOOD


def _put_right(
    build: BuildFacts,
    corrections: Sequence[CorrectionFacts],
    results: Sequence[ResultFacts],
    places: dict[int, str],
    span: Span,
) -> Iterator[PutRight]:
    """Corrections done in the span, and those written in it that are still open. Only what was said by its end counts
    as seen."""
    by_id = {result.id: result for result in results}
    known = [result for result in results if result.day <= span[1]]
    for one in corrections:
        written = by_id[one.result_id]
        if one.done_on is not None and one.done_on > span[1]:
            continue
        done = one.done_on is not None and one.done_on >= span[0]
        cleared = clearing(one, known)
        if cleared and cleared.on and cleared.on > span[1]:
            cleared = None
        is_open = one.done_on is None and cleared is None and span[0] <= written.day <= span[1]
        if not (done or (is_open and written.state == ResultState.CURRENT)):
            continue
        yield PutRight(
            number=one.number,
            words=one.words,
            place=places.get(one.surface_id or 0, ""),
            said_only=one.form == CorrectionForm.SAID,
            written_on=written.day,
            done_on=one.done_on,
            seen_by=cleared.by if cleared else "",
            seen_on=cleared.on if cleared else None,
            href=f"{build.base}/corrections/{one.id}",
        )


def _hours(session: Session, build: BuildFacts, span: Span) -> Hours:
    minutes = ("own_min", "helper_unpaid_min", "helper_paid_min", "hired_min")
    statement = select(
        func.count(func.distinct(col(Workday.day))),
        *(func.coalesce(func.sum(col(getattr(Workday, name))), 0) for name in minutes),
    ).where(col(Workday.build_id) == build.id, col(Workday.day).between(*span))
    days, own, unpaid, paid, hired = rows(session, statement)[0]
    return Hours(days, own, unpaid, paid, hired, f"{build.base}/workdays")


def _spent(session: Session, build: BuildFacts, span: Span) -> Spent:
    statement = select(func.coalesce(func.sum(col(Spend.total_cents)), 0), func.count(col(Spend.id)))
    found = rows(session, statement.where(col(Spend.build_id) == build.id, col(Spend.day).between(*span)))
    cents, lines = found[0]
    return Spent(cents, lines, build.currency, f"{build.base}/spend")


def _shots(session: Session, build: BuildFacts, span: Span) -> tuple[SpanShot, ...]:
    statement = (
        select(col(Shot.what), col(Shot.filmed_on), col(Shot.id))
        .where(col(Shot.build_id) == build.id, col(Shot.state) == "filmed", col(Shot.filmed_on).between(*span))
        .order_by(col(Shot.filmed_on), col(Shot.id))
    )
    return tuple(
        SpanShot(what, filmed_on, f"{build.base}/footage/{shot_id}")
        for what, filmed_on, shot_id in rows(session, statement)
    )
