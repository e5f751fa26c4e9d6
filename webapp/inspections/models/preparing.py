"""Tables of what to have ready, what to look over, and what was said besides."""

from datetime import date, datetime

from sqlmodel import Field

import webapp.papers.models  # noqa: F401 the tables that a foreign key of here points to have to be known
from webapp.core.tables import Table, one_of
from webapp.inspections.rules.kinds import AdviceForm, CheckState, CheckUse


class AskedItem(Table, table=True):
    """Something to have ready: mine, from a handout, or asked for by the inspector at an earlier visit."""

    __tablename__ = "inspections_asked_item"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id")
    visit_id: int | None = Field(default=None, foreign_key="inspections_visit.id")
    words: str = Field(max_length=300)
    source: str = Field(default="my own", max_length=120)
    """"asked by inspector", "my authority's handout", "my own" ..."""
    asked_on: date
    stops: bool = False
    """whether it stops the next visit of this kind until done"""
    done_on: date | None = None
    dropped_on: date | None = None


class CheckPoint(Table, table=True):
    """One point the builder looks over before a visit: on the readiness sheet, or on the self-check list of a trade."""

    __tablename__ = "inspections_check_point"
    __table_args__ = (one_of("use", CheckUse),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    use: str
    trade: str = Field(default="", max_length=40)
    """empty: any visit"""
    inspection_id: int | None = Field(default=None, foreign_key="inspections_inspection.id", index=True)
    """only before this inspection"""
    asked_id: int | None = Field(default=None, foreign_key="inspections_asked_item.id")
    """an inspector asked for it once"""
    position: int
    words: str = Field(max_length=300)
    source: str = Field(max_length=200)
    ended_on: date | None = None
    ended_why: str = ""


class CheckTick(Table, table=True):
    """What the builder saw of one point, for one visit or one surface. The last one written counts."""

    __tablename__ = "inspections_check_tick"
    __table_args__ = (one_of("state", CheckState),)
    point_id: int = Field(foreign_key="inspections_check_point.id", index=True)
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    visit_id: int | None = Field(default=None, foreign_key="inspections_visit.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id")
    state: str
    note: str = ""
    on_day: date
    at: datetime


class Advice(Table, table=True):
    """Something said by somebody whose word counts: on which day, in which role, about which place. No names."""

    __tablename__ = "inspections_advice"
    __table_args__ = (one_of("form", AdviceForm),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    day: date
    who: str = Field(max_length=80)
    """the role: "inspector (building)", "counter clerk" """
    words: str
    form: str = AdviceForm.SAID.value
    inspection_id: int | None = Field(default=None, foreign_key="inspections_inspection.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id")
    used_for: str = ""
    paper_id: int | None = Field(default=None, foreign_key="papers_paper.id")
    ended_on: date | None = None
    """the day it was taken back or found wrong"""
    ended_why: str = ""
    recorded_at: datetime


class AdviceChange(Table, table=True):
    """What was on record of a piece of advice before."""

    __tablename__ = "inspections_advice_change"
    advice_id: int = Field(foreign_key="inspections_advice.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
