"""A day put right. What it said before stays readable, and what was dated by it follows."""

from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.footage import actions as footage
from webapp.footage.store import get_shot
from webapp.money import actions as money
from webapp.money.actions import SpendForm
from webapp.money.store import get_spend
from webapp.plan import actions as plan
from webapp.plan import store as plan_store
from webapp.readiness import actions as readiness
from webapp.readiness.store import Site
from webapp.values.dates import show_date
from webapp.values.duration import show_minutes
from webapp.values.words import join_words
from webapp.workdays import store
from webapp.workdays.actions.logging import Logged, columns_of, what_it_freed
from webapp.workdays.actions.parts import add_pictures, add_shots, add_spend, add_work, finish_tasks, own_entry
from webapp.workdays.actions.people import name_helpers
from webapp.workdays.models import Workday, WorkdayChange
from webapp.workdays.rules.said import DayForm, DayWords, Work
from webapp.workdays.store.people import day_people

NOTHING = "nothing"


def amend_day(session: Session, site: Site, workday_id: int, form: DayForm) -> Logged:
    """Put a day right; pictures, spend and shots in the form are added to those that are there.

    A task that was finished that day stays finished: it is reopened on its own page, which asks why. Raises NotFound,
    and RuleBroken as `log_day` does.
    """
    before = store.get_day(session, site.build.id, workday_id)
    there = frozenset(_own_work(session, workday_id))
    with session.begin_nested():
        _amend_words(session, workday_id, before.words, form.words)
        _amend_people(session, site.build.id, workday_id, form)
        _amend_work(session, site, workday_id, form)
        if before.words.day != form.words.day:
            _follow(session, site, workday_id, before.words.day, form.words.day)
        add_pictures(session, site, workday_id, form, frozenset(store.day_photo_ids(session, workday_id)))
        add_spend(session, site, workday_id, form)
        add_shots(session, workday_id, form, frozenset(store.shot_ids(session, workday_id)))
        held = _finish(session, site, workday_id, form, there)
    return Logged(workday_id, what_it_freed(session, site), held)


def said(words: DayWords) -> dict[str, str]:
    """What a day says, by the name each part has on its page."""
    hours = words.hours
    parts = {
        "Day": show_date(words.day),
        "My hours": show_minutes(hours.own) if hours.own else "",
        "Unpaid help": show_minutes(hours.unpaid) if hours.unpaid else "",
        "Paid help": show_minutes(hours.paid) if hours.paid else "",
        "Hired hands": show_minutes(hours.hired) if hours.hired else "",
        "Weather": words.weather,
        "What got done": words.done,
        "What stopped me": words.stopped_by,
        "Next first step": words.next_step,
        "Footage": words.filmed,
        "Lost day": "yes" if words.lost else "no",
    }
    return {name: value or NOTHING for name, value in parts.items()}


def _note(session: Session, workday_id: int, field: str, was: str, became: str) -> None:
    session.add(WorkdayChange(workday_id=workday_id, field=field, was=was, became=became, at=clock.now()))


def _amend_words(session: Session, workday_id: int, was: DayWords, becomes: DayWords) -> None:
    after = said(becomes)
    for field, words in said(was).items():
        if words != after[field]:
            _note(session, workday_id, field, words, after[field])
    row = session.get_one(Workday, workday_id)
    for name, value in columns_of(becomes).items():
        setattr(row, name, value)
    session.add(row)
    session.flush()


def _amend_people(session: Session, build_id: int, workday_id: int, form: DayForm) -> None:
    was = day_people(session, workday_id)
    name_helpers(session, build_id, workday_id, form.people)
    became = day_people(session, workday_id)
    if was != became:
        _note(session, workday_id, "Who helped", join_words(was) or NOTHING, join_words(became) or NOTHING)


def _own_work(session: Session, workday_id: int) -> dict[int, Work]:
    entries = store.list_entries(session, workday_id)
    return {one.task_id: Work(one.task_id, one.minutes, one.finished) for one in entries if one.who == "self"}


def _amend_work(session: Session, site: Site, workday_id: int, form: DayForm) -> None:
    """Work that is new, told differently or taken out; finishing is left to the gate."""
    before = _own_work(session, workday_id)
    titles = {task_id: site.record.task[task_id].title for task_id in before}
    named = {work.task_id: work for work in form.work}
    for task_id, was in before.items():
        becomes = named.get(task_id)
        if becomes is None and not was.finished:
            _note(session, workday_id, "Work", f"{titles[task_id]}: {was.words()}", f"{titles[task_id]}: taken out")
            session.delete(own_entry(session, workday_id, task_id))
        elif becomes is not None and becomes.minutes != was.minutes:
            told = Work(task_id, becomes.minutes, was.finished)
            words = (f"{titles[task_id]}: {was.words()}", f"{titles[task_id]}: {told.words()}")
            _note(session, workday_id, "Work", *words)
            own_entry(session, workday_id, task_id).minutes = becomes.minutes
    session.flush()
    new = [work for work in form.work if work.task_id not in before]
    add_work(session, site, workday_id, form.words.day, new)


def _finish(session: Session, site: Site, workday_id: int, form: DayForm, there: frozenset[int]) -> tuple[str, ...]:
    """Ask the gate for what is finished only now; of tasks that were `there` before it is noted what was said."""
    before = _own_work(session, workday_id)
    newly = [work for work in form.work if work.finished and not before[work.task_id].finished]
    held = finish_tasks(session, site, workday_id, form.words.day, newly, form.as_worked)
    for task_id, now in _own_work(session, workday_id).items():
        if now.finished and not before[task_id].finished and task_id in there:
            title = site.record.task[task_id].title
            _note(session, workday_id, "Work", f"{title}: {before[task_id].words()}", f"{title}: {now.words()}")
    return held


def _follow(session: Session, site: Site, workday_id: int, was: date, becomes: date) -> None:
    """Whatever took its date from this day moves with it, each keeping its old date in its own history.

    Raises RuleBroken when a surface closed that day was not seen yet on the new one.
    """
    build_id = site.build.id
    for entry in store.list_entries(session, workday_id):
        task = plan_store.get_task(session, build_id, entry.task_id)
        started = becomes if task.started_on == was else task.started_on
        if entry.finished and task.done_on == was:
            readiness.correct_done_day(session, site, task.id, becomes)
        else:
            plan.correct_days(session, task.id, started, task.done_on)
    for spend_id in store.spend_ids(session, workday_id):
        line = get_spend(session, build_id, spend_id)
        if line.day == was:
            moved = SpendForm(
                day=becomes,
                what=line.what,
                total_cents=line.total_cents,
                kind=line.kind,
                supplier=line.supplier,
                tax_cents=line.tax_cents,
                value_cents=line.value_cents,
                phase_id=line.phase_id,
                task_id=line.task_id,
                note=line.note,
            )
            money.amend_spend(session, build_id, spend_id, moved, why="The day it came with was amended.")
    for shot_id in store.shot_ids(session, workday_id):
        shot = get_shot(session, build_id, shot_id)
        if shot.filmed_on == was:
            footage.film(session, shot_id, becomes, shot.where_it_lies, shot.files)
    session.flush()
