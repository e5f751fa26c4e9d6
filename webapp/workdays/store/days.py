"""Days as frozen facts, one query for each kind of thing."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ScalarSelect, case, func, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.core.tables import Sent
from webapp.plan.models import Task
from webapp.values.errors import NotFound
from webapp.workdays.models import Workday, WorkdayChange, WorkdayPhoto, WorkdayShot, WorkdaySpend, WorkEntry
from webapp.workdays.rules.hours import Hours
from webapp.workdays.rules.said import DayWords

NO_DAY = "There is no such day in this build."
LONGEST_PAGE = 60


@dataclass(frozen=True, slots=True)
class DayFacts:
    """One day as it stands. `logged_at` is UTC."""

    id: int
    words: DayWords
    logged_at: datetime


@dataclass(frozen=True, slots=True)
class DayLine:
    """One day in a list: its words and how many things came with it."""

    id: int
    words: DayWords
    worked: int
    finished: int
    pictures: int


@dataclass(frozen=True, slots=True)
class EntryFacts:
    """Work of one pair of hands on one task; `minutes` is None where the day's time was not split."""

    task_id: int
    title: str
    state: str
    who: str
    minutes: int | None
    finished: bool


@dataclass(frozen=True, slots=True)
class ChangeFacts:
    """What a part of the day said before it was amended."""

    field: str
    was: str
    became: str
    at: datetime


_DAY = ("id", "day", "own_min", "helper_unpaid_min", "helper_paid_min", "hired_min")
_WORDS = ("weather", "done", "stopped_by", "next_step", "filmed", "lost")
_COLUMNS = tuple(getattr(Workday, name) for name in (*_DAY, *_WORDS))


def _words(day: date, own: int, unpaid: int, paid: int, hired: int, *words: Any) -> DayWords:
    return DayWords(day, Hours(own, unpaid, paid, hired), *words)


def get_day(session: Session, build_id: int, workday_id: int) -> DayFacts:
    wanted = select(*_COLUMNS, col(Workday.logged_at)).where(
        col(Workday.id) == workday_id, col(Workday.build_id) == build_id
    )
    for number, *words, logged_at in rows(session, wanted):
        return DayFacts(number, _words(*words), logged_at)
    raise NotFound(NO_DAY)


def _count(table: Any, *where: Any) -> ScalarSelect[Any]:
    of_day = select(func.count()).where(col(table.workday_id) == col(Workday.id), *where)
    return of_day.correlate(Workday).scalar_subquery()


def list_days(session: Session, build_id: int, before: date | None = None) -> tuple[DayLine, ...]:
    """The newest days first, at most LONGEST_PAGE and one more; `before` leaves out that day and all after it.

    One query.
    """
    tasks = select(func.count(col(WorkEntry.task_id).distinct())).where(col(WorkEntry.workday_id) == col(Workday.id))
    wanted = (
        select(
            *_COLUMNS,
            tasks.correlate(Workday).scalar_subquery(),
            _count(WorkEntry, col(WorkEntry.finished)),
            _count(WorkdayPhoto),
        )
        .where(col(Workday.build_id) == build_id)
        .order_by(col(Workday.day).desc(), col(Workday.id).desc())
        .limit(LONGEST_PAGE + 1)
    )
    if before is not None:
        wanted = wanted.where(col(Workday.day) < before)
    size = len(_COLUMNS)
    return tuple(DayLine(row[0], _words(*row[1:size]), *row[size:]) for row in rows(session, wanted))


@kept_list
def list_days_named(session: Session, build_id: int) -> tuple[tuple[int, date], ...]:
    """Id and day of each workday, the latest first; read again only after a day was written."""
    statement = select(col(Workday.id), col(Workday.day)).where(col(Workday.build_id) == build_id)
    ordered = statement.order_by(col(Workday.day).desc(), col(Workday.id).desc())
    return tuple((row[0], row[1]) for row in rows(session, ordered))


def list_hours(session: Session, build_id: int, first: date, last: date) -> tuple[tuple[date, Hours], ...]:
    """Hours of every note from `first` to `last`, both counted: for sums of whole weeks."""
    names = ("day", "own_min", "helper_unpaid_min", "helper_paid_min", "hired_min")
    wanted = select(*(col(getattr(Workday, name)) for name in names)).where(
        col(Workday.build_id) == build_id, col(Workday.day) >= first, col(Workday.day) <= last
    )
    return tuple((day, Hours(*minutes)) for day, *minutes in rows(session, wanted))


def noted_minutes(session: Session, build_id: int, day: date, but: int | None = None) -> int:
    """My own minutes that other notes of this day hold already."""
    wanted = select(func.coalesce(func.sum(col(Workday.own_min)), 0)).where(
        col(Workday.build_id) == build_id, col(Workday.day) == day
    )
    if but is not None:
        wanted = wanted.where(col(Workday.id) != but)
    return int(rows(session, wanted)[0][0])


def list_entries(session: Session, workday_id: int) -> tuple[EntryFacts, ...]:
    """Work of the day in the order it was written."""
    wanted = (
        select(
            col(WorkEntry.task_id),
            col(Task.title),
            col(Task.state),
            col(WorkEntry.who),
            col(WorkEntry.minutes),
            col(WorkEntry.finished),
        )
        .join(Task, col(Task.id) == col(WorkEntry.task_id))
        .where(col(WorkEntry.workday_id) == workday_id)
        .order_by(col(WorkEntry.id))
    )
    return tuple(EntryFacts(*row) for row in rows(session, wanted))


@dataclass(frozen=True, slots=True)
class TookFacts:
    """Work on one task on one day. `minutes` None: worked on, and nobody said how the day was split between several.

    Where it was the only one of its day, all my hours of that day are its own.
    """

    workday_id: int
    day: date
    who: str
    minutes: int | None


def list_took(session: Session, build_id: int, task_id: int) -> tuple[TookFacts, ...]:
    """All work on a task, the latest day first."""
    other = aliased(WorkEntry)
    alone = (
        select(func.count()).where(col(other.workday_id) == col(Workday.id)).correlate(Workday).scalar_subquery() == 1
    )
    minutes = func.coalesce(col(WorkEntry.minutes), case((alone, col(Workday.own_min))))
    wanted = (
        select(col(Workday.id), col(Workday.day), col(WorkEntry.who), minutes)
        .join(Workday, col(Workday.id) == col(WorkEntry.workday_id))
        .where(col(Workday.build_id) == build_id, col(WorkEntry.task_id) == task_id)
        .order_by(col(Workday.day).desc(), col(WorkEntry.id).desc())
    )
    return tuple(TookFacts(*row) for row in rows(session, wanted))


def own_entry_id(session: Session, workday_id: int, task_id: int) -> int:
    """My own work on a task that day; there is one entry for each task a day names."""
    wanted = select(col(WorkEntry.id)).where(
        col(WorkEntry.workday_id) == workday_id, col(WorkEntry.task_id) == task_id, col(WorkEntry.who) == "self"
    )
    for row in rows(session, wanted):
        return int(row[0])
    raise NotFound("This day does not name that task.")


def list_changes(session: Session, workday_id: int) -> tuple[ChangeFacts, ...]:
    """What the day said before, the latest change first."""
    names = ChangeFacts.__dataclass_fields__
    wanted = select(*(col(getattr(WorkdayChange, name)) for name in names))
    wanted = wanted.where(col(WorkdayChange.workday_id) == workday_id).order_by(col(WorkdayChange.id).desc())
    return tuple(ChangeFacts(*row) for row in rows(session, wanted))


def _ids(session: Session, table: Any, column: str, workday_id: int) -> tuple[int, ...]:
    wanted = select(col(getattr(table, column))).where(col(table.workday_id) == workday_id).order_by(col(table.id))
    return tuple(row[0] for row in rows(session, wanted))


def day_photo_ids(session: Session, workday_id: int) -> tuple[int, ...]:
    return _ids(session, WorkdayPhoto, "photo_id", workday_id)


def spend_ids(session: Session, workday_id: int) -> tuple[int, ...]:
    return _ids(session, WorkdaySpend, "spend_id", workday_id)


def shot_ids(session: Session, workday_id: int) -> tuple[int, ...]:
    return _ids(session, WorkdayShot, "shot_id", workday_id)


def sent_answer(session: Session, sent_id: str) -> str | None:
    """The path answered when this id came before, whatever came with it."""
    for row in rows(session, select(col(Sent.answer)).where(col(Sent.id) == sent_id)):
        return str(row[0])
    return None
