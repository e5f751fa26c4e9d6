"""What the days so far make usual: hours, tasks worked on lately, what took the lost ones."""

from collections.abc import Mapping
from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.workdays.models import Workday, WorkEntry

LOOKED_BACK = 60


@kept_list
def own_days(session: Session, build_id: int) -> tuple[tuple[date, int], ...]:
    """Days with hours of my own and their minutes, the newest first."""
    wanted = (
        select(col(Workday.day), col(Workday.own_min))
        .where(col(Workday.build_id) == build_id, col(Workday.own_min) > 0)
        .order_by(col(Workday.day).desc(), col(Workday.id).desc())
        .limit(LOOKED_BACK)
    )
    return tuple((day, minutes) for day, minutes in rows(session, wanted))


@kept_list
def last_worked(session: Session, build_id: int) -> Mapping[int, date]:
    """By task, the last day it was worked on."""
    wanted = (
        select(col(WorkEntry.task_id), func.max(col(Workday.day)))
        .join(Workday, col(Workday.id) == col(WorkEntry.workday_id))
        .where(col(Workday.build_id) == build_id)
        .group_by(col(WorkEntry.task_id))
    )
    return {int(row[0]): row[1] for row in rows(session, wanted)}


@kept_list
def lost_days(session: Session, build_id: int) -> tuple[str, ...]:
    """What each lost day was lost to, the latest first; several notes of one day with the same words count once."""
    wanted = (
        select(col(Workday.day), col(Workday.stopped_by))
        .where(col(Workday.build_id) == build_id, col(Workday.lost))
        .order_by(col(Workday.day).desc(), col(Workday.id).desc())
    )
    return tuple(stopped_by for _, stopped_by in dict.fromkeys(tuple(row) for row in rows(session, wanted)))
