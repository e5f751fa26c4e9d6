"""Phases, tasks with their starts and finishes, and what needs what."""

from datetime import date, time

from webapp.demo.actions.book import EVENING, MORNING, WHOLE, Book, moment
from webapp.demo.rules import plan_rows
from webapp.demo.rules.owing import needs_kept
from webapp.plan.models import Booked, Need, Phase, Task, TaskChange, TaskDanger
from webapp.plan.rules.kinds import NeedKind, TaskState
from webapp.readiness.actions.order import Move, move_inspection
from webapp.readiness.store import site

_STATES = {"done": TaskState.DONE, "started": TaskState.UNDER_WAY, "open": TaskState.NOT_STARTED}


def write_plan(book: Book) -> None:
    build_id = book.build.id
    phases = {
        row.id: Phase(build_id=build_id, position=row.order, title=row.title, purpose=row.purpose)
        for row in book.content.phases
    }
    book.keep("phase", phases)
    tasks = {row.id: _task(book, row, place) for place, row in enumerate(book.content.tasks, 1)}
    book.keep("task", tasks)
    for row in book.content.tasks:
        book.add(*(TaskDanger(task_id=book.id("task", row.id), danger=danger) for danger in row.dangers))
    for row in book.content.tasks:
        _write_moves(book, row)


def _task(book: Book, row: plan_rows.Task, position: int) -> Task:
    return Task(
        build_id=book.build.id,
        phase_id=book.id("phase", row.phase),
        position=position,
        title=row.title,
        kind=row.kind,
        who=row.who,
        hands=row.hands,
        weather=row.weather,
        low_min=row.low_min,
        likely_min=row.likely_min,
        high_min=row.high_min,
        wait_days=row.wait_days,
        wait_reason=row.wait_reason,
        one_go=row.one_go,
        state=_STATES[row.state],
        started_on=row.first_day,
        done_on=row.last_day if row.state == "done" else None,
    )


def write_booked(book: Book) -> None:
    """What comes on a day: helpers, a hired hand, a rented lift."""
    for row in book.content.booked:
        coming = Booked(
            build_id=book.build.id,
            task_id=book.id("task", row.task),
            what=row.what,
            day=row.day,
            window=row.window,
            cancel_by=row.cancel_by,
            cancel_days=row.cancel_days,
            note=row.note,
        )
        book.add(coming)


def _write_moves(book: Book, row: plan_rows.Task) -> None:
    task_id = book.id("task", row.id)
    if row.first_day:
        book.add(_move(task_id, TaskState.NOT_STARTED, TaskState.UNDER_WAY, row.first_day, MORNING))
    if row.state == "done" and row.last_day:
        book.add(_move(task_id, TaskState.UNDER_WAY, TaskState.DONE, row.last_day, EVENING))


def _move(task_id: int, was: TaskState, became: TaskState, day: date, at: time) -> TaskChange:
    return TaskChange(task_id=task_id, was=was.value, became=became.value, on_day=day, at=moment(day, at))


def write_needs(book: Book) -> None:
    """Everything the scenario says that something needs; what the record says by itself is not typed again."""
    made: dict[tuple[str, int, int, str, int, int], Need] = {}
    for row in needs_kept(book.content):
        ends = (*_end(book, row.what_kind, row.what), *_end(book, row.needs_kind, row.needs))
        made.setdefault(ends, _need(book, row, ends))
    book.add(*made.values())


def keep_breaches(book: Book) -> None:
    """Inspections moved knowingly past one that they come before, the way the builder does it; after all needs."""
    for row in book.content.reordered:
        found = site(book.session, book.build, row.day)
        move_inspection(book.session, found, book.id("inspection", row.inspection), Move(by=row.by, why=row.why))


def _need(book: Book, row: plan_rows.Need, ends: tuple[str, int, int, str, int, int]) -> Need:
    what_kind, what_id, what_surface, needs_kind, needs_id, needs_surface = ends
    return Need(
        build_id=book.build.id,
        what_kind=what_kind,
        what_id=what_id,
        what_surface_id=what_surface,
        needs_kind=needs_kind,
        needs_id=needs_id,
        needs_surface_id=needs_surface,
        strength=row.strength,
        lag_days=row.lag_days,
        reason=row.reason,
    )


def _end(book: Book, kind: str, name: str) -> tuple[str, int, int]:
    """Kind, id and surface (0 for none) of what the scenario names, such as `IREL@W` or `E-after`."""
    if kind == NeedKind.INSPECTION:
        inspection, _, surface = name.partition("@")
        return kind, book.id("inspection", inspection), 0 if surface == WHOLE else book.id("surface", surface)
    if kind == NeedKind.PICTURES:
        return kind, book.id("surface", name.partition("-")[0]), 0
    return kind, book.id(kind, name), 0
