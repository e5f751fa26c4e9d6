"""The parts that come with a day: work, finished tasks, pictures, spend, shots."""

from collections.abc import Sequence
from datetime import date

from sqlmodel import Session

from webapp.footage import actions as footage
from webapp.money import actions as money
from webapp.money.actions import SpendForm
from webapp.plan import actions as plan
from webapp.plan.rules.kinds import TaskState
from webapp.plan.rules.moves import MAY_START
from webapp.plan.store import TaskFacts
from webapp.readiness import actions as readiness
from webapp.readiness.store import Site
from webapp.surfaces import actions as surfaces
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict, Way
from webapp.workdays.models import WorkdayPhoto, WorkdayShot, WorkdaySpend, WorkEntry
from webapp.workdays.rules.said import DayForm, Work
from webapp.workdays.store import own_entry_id


def add_work(session: Session, site: Site, workday_id: int, day: date, works: Sequence[Work]) -> None:
    """An entry for each task, which is under way from that day on if it was not. Finishing is asked afterwards."""
    for work in works:
        session.add(WorkEntry(workday_id=workday_id, task_id=work.task_id, minutes=work.minutes))
        _under_way(session, site.record.task[work.task_id], day)
    session.flush()


def _under_way(session: Session, task: TaskFacts, day: date) -> None:
    if task.state in MAY_START:
        plan.start_task(session, task.id, day)
    if task.started_on is not None and day < task.started_on:
        # A late note shows that it was begun earlier than was thought.
        plan.correct_days(session, task.id, day, task.done_on)


def finish_tasks(
    session: Session, site: Site, workday_id: int, day: date, works: Sequence[Work], as_worked: bool
) -> tuple[str, ...]:
    """Finish what is finished, through the gate; what closes a surface comes last, when all else of the day is written.

    Gives the titles that stay worked on because they may not be finished yet. Without `as_worked` that raises
    RuleBroken, with every reason of every task that is refused.
    """
    held: list[str] = []
    reasons: list[Reason] = []
    ways: list[Way] = []
    for task in _closing_last(site, [work.task_id for work in works if work.finished]):
        try:
            if task.state != TaskState.DONE:
                readiness.finish_task(session, site.build, task.id, day, site.today)
            _mark_finished(session, workday_id, task.id)
        except RuleBroken as refused:
            held.append(task.title)
            stops = f"Stops “{task.title}”."
            reasons += [
                Reason(one.sentence, f"{stops} {one.detail}".strip(), one.href, one.hard)
                for one in refused.verdict.reasons
            ]
            ways += [way for way in refused.ways_on if way not in ways]
    if held and not as_worked:
        raise RuleBroken(Verdict(tuple(reasons)), _heading(held), tuple(ways))
    return tuple(held)


def _heading(titles: Sequence[str]) -> str:
    if len(titles) == 1:
        return f"“{titles[0]}” may not be finished yet"
    return f"{len(titles)} tasks may not be finished yet"


def _closing_last(site: Site, task_ids: Sequence[int]) -> list[TaskFacts]:
    closing = {task_id for closers in site.record.closers.values() for task_id in closers}
    return [site.record.task[task_id] for task_id in sorted(task_ids, key=lambda one: one in closing)]


def _mark_finished(session: Session, workday_id: int, task_id: int) -> None:
    entry = own_entry(session, workday_id, task_id)
    entry.finished = True
    session.add(entry)
    session.flush()


def own_entry(session: Session, workday_id: int, task_id: int) -> WorkEntry:
    """My own work on a task that day; there is one for each task a day names."""
    return session.get_one(WorkEntry, own_entry_id(session, workday_id, task_id))


def add_pictures(session: Session, site: Site, workday_id: int, form: DayForm, there: frozenset[int]) -> None:
    """The day's pictures, each once, placed; the first fills the owed picture that was named."""
    slot_id, place = form.place.slot_id, form.place
    for photo_id in dict.fromkeys(form.photo_ids):
        if photo_id not in there:
            session.add(WorkdayPhoto(workday_id=workday_id, photo_id=photo_id))
        surfaces.place_picture(session, site.build.id, photo_id, place.surface_id, place.item_id, slot_id)
        slot_id = None
    session.flush()


def add_spend(session: Session, site: Site, workday_id: int, form: DayForm) -> None:
    for line in form.bought:
        spend = money.record_spend(
            session,
            site.build.id,
            SpendForm(
                day=form.words.day,
                what=line.what,
                total_cents=line.total_cents,
                kind=line.kind,
                supplier=line.supplier,
                receipt_photo_id=line.receipt_photo_id,
            ),
        )
        session.add(WorkdaySpend(workday_id=workday_id, spend_id=spend.row_id))
    session.flush()


def add_shots(session: Session, workday_id: int, form: DayForm, there: frozenset[int]) -> None:
    for shot_id in form.shot_ids:
        footage.film(session, shot_id, form.words.day, where=form.files_lie)
        if shot_id not in there:
            session.add(WorkdayShot(workday_id=workday_id, shot_id=shot_id))
    session.flush()
