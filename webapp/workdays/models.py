"""Tables of workdays. Times in whole minutes."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of

WORKERS = ("self", "unpaid helper", "paid helper", "hired")
TOLD_ENDS = ("", "back", "told again")


class Workday(Table, table=True):
    """One day on the build, by the day it happened; a day may have several notes."""

    __tablename__ = "workdays_workday"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    day: date = Field(index=True)
    own_min: int = 0
    helper_unpaid_min: int = 0
    helper_paid_min: int = 0
    hired_min: int = 0
    weather: str = Field(default="", max_length=40)
    done: str = ""
    stopped_by: str = ""
    next_step: str = ""
    filmed: str = ""
    """footage in words: what, and where the files lie"""
    lost: bool = False
    """nothing could be done that day; `stopped_by` says why"""
    logged_at: datetime


class WorkEntry(Table, table=True):
    """Minutes of one day on one task."""

    __tablename__ = "workdays_work_entry"
    __table_args__ = (one_of("who", WORKERS), UniqueConstraint("workday_id", "task_id", "who"))
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    task_id: int = Field(foreign_key="plan_task.id", index=True)
    who: str = "self"
    minutes: int | None = None
    """None: worked on, time not split"""
    finished: bool = False


class WorkdayPhoto(Table, table=True):
    """A picture that came with a day."""

    __tablename__ = "workdays_photo"
    __table_args__ = (UniqueConstraint("workday_id", "photo_id"),)
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    photo_id: int = Field(foreign_key="photos_photo.id")


class WorkdaySpend(Table, table=True):
    """A line of spend that came with a day."""

    __tablename__ = "workdays_spend"
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    spend_id: int = Field(foreign_key="money_spend.id", unique=True)


class WorkdayShot(Table, table=True):
    """A shot filmed that day."""

    __tablename__ = "workdays_shot"
    __table_args__ = (UniqueConstraint("workday_id", "shot_id"),)
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    shot_id: int = Field(foreign_key="footage_shot.id")


class WorkdayChange(Table, table=True):
    """What a day said before it was amended."""

    __tablename__ = "workdays_change"
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    at: datetime


class Told(Table, table=True):
    """Somebody was told where I am and when I am back. One of a build stands open at a time."""

    __tablename__ = "workdays_told"
    __table_args__ = (one_of("ended_how", TOLD_ENDS),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    day: date = Field(index=True)
    whom: str = Field(max_length=80)
    back_by: str = Field(max_length=5)
    """hour of that day, `19:00`"""
    task_id: int | None = Field(default=None, foreign_key="plan_task.id", index=True)
    told_at: datetime
    ended_at: datetime | None = None
    ended_how: str = ""


class Person(Table, table=True):
    """Somebody who helps, by the name used on site. Private; named to nobody before they said yes."""

    __tablename__ = "workdays_person"
    __table_args__ = (UniqueConstraint("build_id", "name"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    name: str = Field(max_length=80)
    said_yes_on: date | None = None
    """the day they said yes to being named in public; None: not asked, no, or taken back"""


class WorkdayPerson(Table, table=True):
    """Who helped on a day."""

    __tablename__ = "workdays_day_person"
    __table_args__ = (UniqueConstraint("workday_id", "person_id"),)
    workday_id: int = Field(foreign_key="workdays_workday.id", index=True)
    person_id: int = Field(foreign_key="workdays_person.id", index=True)
