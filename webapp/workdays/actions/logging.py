"""A day put on record, with everything that came with it, wholly or not at all."""

from dataclasses import dataclass
from typing import Any

from sqlmodel import Session

from webapp.core import clock
from webapp.readiness.rules.answers import freed
from webapp.readiness.store import Site, look_over
from webapp.workdays.actions.alone import come_back
from webapp.workdays.actions.parts import add_pictures, add_shots, add_spend, add_work, finish_tasks
from webapp.workdays.actions.people import name_helpers
from webapp.workdays.models import Workday
from webapp.workdays.rules.said import DayForm, DayWords

NOBODY: frozenset[int] = frozenset()


@dataclass(frozen=True, slots=True)
class Logged:
    """A day that is written. `freed`: keys of tasks that can start now and covers that may be closed now.

    `held_back`: titles of tasks kept as worked on, because they may not be finished yet.
    """

    workday_id: int
    freed: tuple[str, ...]
    held_back: tuple[str, ...] = ()


def columns_of(words: DayWords) -> dict[str, Any]:
    """Column name to value: the one place that knows how a day's words lie in its row."""
    return {
        "day": words.day,
        "own_min": words.hours.own,
        "helper_unpaid_min": words.hours.unpaid,
        "helper_paid_min": words.hours.paid,
        "hired_min": words.hours.hired,
        "weather": words.weather,
        "done": words.done,
        "stopped_by": words.stopped_by,
        "next_step": words.next_step,
        "filmed": words.filmed,
        "lost": words.lost,
    }


def log_day(session: Session, site: Site, form: DayForm) -> Logged:
    """Write a day and all that came with it.

    `site` is how the build stood before. Raises RuleBroken when a task may not be finished; then nothing of the day
    is left in the session, while pictures that were kept before this call stay kept.
    """
    with session.begin_nested():
        day = Workday(build_id=site.build.id, logged_at=clock.now(), **columns_of(form.words))
        session.add(day)
        session.flush()
        add_work(session, site, day.row_id, form.words.day, form.work)
        add_pictures(session, site, day.row_id, form, NOBODY)
        add_spend(session, site, day.row_id, form)
        add_shots(session, day.row_id, form, NOBODY)
        if form.people:
            name_helpers(session, site.build.id, day.row_id, form.people)
        held = finish_tasks(session, site, day.row_id, form.words.day, form.work, form.as_worked)
        if form.back:
            come_back(session, site.build.id)
    return Logged(day.row_id, what_it_freed(session, site), held)


def what_it_freed(session: Session, before: Site) -> tuple[str, ...]:
    after = look_over(session, before.build, before.today)
    return tuple(node.key for node in freed(before.network, after.network))
