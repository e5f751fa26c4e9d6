"""Tables of offices, permits, their clocks and fees."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

import webapp.hired.models
import webapp.papers.models  # noqa: F401 the tables that a foreign key of here points to have to be known
from webapp.core.tables import Table, one_of
from webapp.inspections.rules.kinds import ClockKind, Span


class Office(Table, table=True):
    """Who visits, when, and how to ask: the authority's own days and hours, as the builder learned them."""

    __tablename__ = "inspections_office"
    __table_args__ = (UniqueConstraint("build_id", "name"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    name: str = Field(max_length=80)
    weekdays: str = Field(default="1,2,3,4,5", max_length=13)
    """ISO numbers of the days on which it visits"""
    from_time: str = Field(default="", max_length=5)
    until_time: str = Field(default="", max_length=5)
    notice_days: int = 1
    """working days"""
    ask_by: str = Field(default="15:30", max_length=5)
    cancel_by: str = Field(default="", max_length=5)
    """hour up to which a visit can be called off without a fee"""
    cancel_days: int = 0
    """working days before the visit on which that hour falls"""
    calendar: str = Field(default="", max_length=12)
    """country and part of it whose public holidays are days off, ISO 3166 ("US-OR"); empty: none"""
    reach: str = Field(default="", max_length=160)
    """how to ask, private"""
    source: str = Field(default="my guess", max_length=120)


class ClosedDay(Table, table=True):
    """Days on which an office does not work, or works against its calendar. Without an office: all of them."""

    __tablename__ = "inspections_closed_day"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    office_id: int | None = Field(default=None, foreign_key="inspections_office.id", index=True)
    day: date
    until_day: date | None = None
    open: bool = False
    """it works on this public holiday"""
    why: str = Field(default="", max_length=120)


class OfficeChange(Table, table=True):
    """What was on record of an office before: a day off that was taken out, or its own days and hours."""

    __tablename__ = "inspections_office_change"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    office_id: int | None = Field(default=None, foreign_key="inspections_office.id", index=True)
    """None: of every office"""
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


class Permit(Table, table=True):
    """One permit with its own clock; its rules for lapsing stand beside it."""

    __tablename__ = "inspections_permit"
    __table_args__ = (UniqueConstraint("build_id", "code"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    code: str = Field(max_length=12)
    name: str = Field(max_length=120)
    covers: str = ""
    number: str = Field(default="", max_length=60)
    """private, never on a public page"""
    asked_on: date | None = None
    issued_on: date | None = None
    started_on: date | None = None
    """the day the work under it began"""
    started_how: str = Field(default="", max_length=160)
    code_family: str = Field(default="", max_length=80)
    code_edition: str = Field(default="", max_length=80)
    hired_id: int | None = Field(default=None, foreign_key="hired_hired.id")
    """whose permit it is, when not the builder's own"""
    closed_on: date | None = None


class PermitRule(Table, table=True):
    """One way in which a permit runs out. Each says where it comes from."""

    __tablename__ = "inspections_permit_rule"
    __table_args__ = (one_of("kind", ClockKind), one_of("span", Span), UniqueConstraint("permit_id", "kind"))
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    kind: str
    count: int | None = None
    """so many of `span`; None while the builder does not know it"""
    span: str = Span.DAYS.value
    words: str = ""
    source: str = Field(default="my guess", max_length=120)
    """standard with clause, my authority's handout, my inspector's word, common practice, my guess"""


class PermitExtension(Table, table=True):
    """More time asked for in writing, and what was said to it."""

    __tablename__ = "inspections_permit_extension"
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    asked_on: date | None = None
    why: str = ""
    answered_on: date | None = None
    granted: bool | None = None
    """None while there is no answer"""
    until_day: date | None = None
    """the last day it stands, as the paper says"""
    words: str = ""
    paper_id: int | None = Field(default=None, foreign_key="papers_paper.id")
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    fee_id: int | None = Field(default=None, foreign_key="inspections_fee.id")
    withdrawn_on: date | None = None
    at: datetime


class PermitChange(Table, table=True):
    """What a permit said before: its days and its rule are amended, the old value stays readable."""

    __tablename__ = "inspections_permit_change"
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


class Fee(Table, table=True):
    """A fee that follows a visit. While it `stops_visits`, none under its permit can be asked for until paid."""

    __tablename__ = "inspections_fee"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    visit_id: int | None = Field(default=None, foreign_key="inspections_visit.id", index=True)
    amount_cents: int
    why: str = ""
    due_on: date | None = None
    stops_visits: bool = False
    paid_on: date | None = None
    spend_id: int | None = Field(default=None, foreign_key="money_spend.id")


class CalendarKey(Table, table=True):
    """The secret part of the calendar's address. A new one ends the old."""

    __tablename__ = "inspections_calendar_key"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    secret: str = Field(max_length=64, unique=True)
    made_at: datetime
    ended_at: datetime | None = None
