"""Tables of changes from what was approved."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.inspections.rules.kinds import ChangeAnswer


class PlanChange(Table, table=True):
    """A change from what was approved: what, why, who must agree, what they said."""

    __tablename__ = "inspections_plan_change"
    __table_args__ = (one_of("answer", ChangeAnswer),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    on_day: date
    """the day it was decided or made: results and pictures of before show the old state"""
    what: str = Field(max_length=300)
    why: str = ""
    who_agrees: str = Field(default="the authority", max_length=120)
    asked_on: date | None = None
    answer: str = ChangeAnswer.NONE.value
    answered_on: date | None = None
    answer_words: str = ""
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    """picture of the paper that answers"""
    at: datetime


class PlanChangeItem(Table, table=True):
    """A hidden thing that a change moved or took away, in its old state; the thing itself names its new one."""

    __tablename__ = "inspections_plan_change_item"
    __table_args__ = (UniqueConstraint("change_id", "item_id"),)
    change_id: int = Field(foreign_key="inspections_plan_change.id", index=True)
    item_id: int = Field(foreign_key="surfaces_item.id", index=True)


class PlanChangeSurface(Table, table=True):
    """A surface that a change touches: its closing waits for the answer."""

    __tablename__ = "inspections_plan_change_surface"
    __table_args__ = (UniqueConstraint("change_id", "surface_id"),)
    change_id: int = Field(foreign_key="inspections_plan_change.id", index=True)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)


class Reopened(Table, table=True):
    """An inspection owed anew of a surface because of a change: what was said before it is history."""

    __tablename__ = "inspections_reopened"
    __table_args__ = (UniqueConstraint("change_id", "inspection_id", "surface_id"),)
    change_id: int = Field(foreign_key="inspections_plan_change.id", index=True)
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)


class PlanChangeHistory(Table, table=True):
    """What a change was said to be before."""

    __tablename__ = "inspections_plan_change_history"
    change_id: int = Field(foreign_key="inspections_plan_change.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
