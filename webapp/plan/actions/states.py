"""A task started, done, reopened; each change leaves a line with what was before."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.plan import store
from webapp.plan.models import Task, TaskChange
from webapp.plan.rules.kinds import TaskState
from webapp.plan.rules.moves import why_not_finish, why_not_reopen, why_not_start
from webapp.values.dates import show_date
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.verdict import Reason, Verdict


def start_task(session: Session, task_id: int, on: date) -> None:
    """Under way. The day it was first started stays if it is started again."""
    task = _row(session, task_id)
    _refuse("Not started", why_not_start(task.title, task.state))
    _change(session, task, TaskState.UNDER_WAY, on)
    task.started_on = task.started_on or on


def finish(session: Session, task_id: int, on: date) -> None:
    """Done, without asking whether it may be: only who has judged the gate calls this (readiness)."""
    task = _row(session, task_id)
    _refuse("Not done", why_not_finish(task.title, task.state, task.started_on, on))
    _change(session, task, TaskState.DONE, on)
    task.started_on = task.started_on or on
    task.done_on = on


def reopen_task(session: Session, task_id: int, on: date, why: str) -> None:
    """Not done any more. The day it was done stays in its history, and what waited for it waits again."""
    task = _row(session, task_id)
    _refuse("Not reopened", why_not_reopen(task.title, task.state, why))
    _change(session, task, TaskState.REOPENED, on, why)
    task.done_on = None


def correct_days(session: Session, task_id: int, started_on: date | None, done_on: date | None, why: str = "") -> None:
    """Put right the days it was started and done. What they were before stays readable.

    Only `readiness` changes the day it was done: a surface may have been closed by it.
    """
    task = _row(session, task_id)
    before, after = _days(task.started_on, task.done_on), _days(started_on, done_on)
    if before == after:
        return
    session.add(
        TaskChange(task_id=task_id, was=before, became=after, why=why.strip() or "days put right", at=clock.now())
    )
    task.started_on, task.done_on = started_on, done_on


def note_surfaces(session: Session, task_id: int, was: str, became: str) -> None:
    """Keep readable which surfaces it worked on and closed before; `surfaces` calls this, whose table it is."""
    if was != became:
        session.add(TaskChange(task_id=task_id, was=was, became=became, why="surfaces chosen", at=clock.now()))


def _days(started_on: date | None, done_on: date | None) -> str:
    started = f"started {show_date(started_on)}" if started_on else "not started"
    return f"{started}, done {show_date(done_on)}" if done_on else started


def _change(session: Session, task: Task, state: TaskState, on: date, why: str = "") -> None:
    was = f"{task.state} on {show_date(task.done_on)}" if task.done_on else task.state
    session.add(
        TaskChange(task_id=task.row_id, was=was, became=state.value, on_day=on, why=why.strip(), at=clock.now())
    )
    task.state = state.value


def _row(session: Session, task_id: int) -> Task:
    task = session.get(Task, task_id)
    if task is None:
        raise NotFound(store.NO_TASK)
    return task


def _refuse(heading: str, sentence: str) -> None:
    if sentence:
        raise RuleBroken(Verdict((Reason(sentence),)), heading=heading)
