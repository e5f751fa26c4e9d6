"""Tables of inspections, visits, results and corrections."""

from datetime import date, datetime

from sqlalchemy import Index, UniqueConstraint
from sqlmodel import Field

import webapp.hired.models
import webapp.papers.models  # noqa: F401 the tables that a foreign key of here points to have to be known
from webapp.core.tables import Table, one_of
from webapp.inspections.rules.kinds import (
    ClearsBy,
    CorrectionForm,
    CorrectionState,
    Evidence,
    Outcome,
    ResultKind,
    ResultState,
)


class Inspection(Table, table=True):
    """One kind of inspection owed under a permit, in the builder's order."""

    __tablename__ = "inspections_inspection"
    __table_args__ = (UniqueConstraint("build_id", "code"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    position: int
    code: str = Field(max_length=12)
    name: str = Field(max_length=120)
    must_be_ready: str = ""
    notice_days: int | None = None
    """working days, where they are not its office's"""
    ask_by: str = Field(default="", max_length=5)
    """cut-off hour for asking, where it is not its office's"""
    office_id: int | None = Field(default=None, foreign_key="inspections_office.id", index=True)
    trade: str = Field(default="", max_length=40)
    """which self-check list it uses"""
    who_there: str = Field(default="", max_length=120)
    """who must be on site"""
    who: str = Field(default="inspector", max_length=80)
    before_what: str = Field(default="", max_length=120)
    source: str = Field(default="my guess", max_length=120)
    holds_cover: bool = True
    """whether its surfaces may be closed only after it passed"""
    renews_permit: bool = True
    """whether a pass starts the permit's clock anew"""


class InspectionChange(Table, table=True):
    """What an inspection was said to be before: what it looks at, what it holds, what must be ready."""

    __tablename__ = "inspections_inspection_change"
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


class InspectionSurface(Table, table=True):
    """An inspection looks at a surface; one without any looks at the whole building."""

    __tablename__ = "inspections_inspection_surface"
    __table_args__ = (UniqueConstraint("inspection_id", "surface_id"),)
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    surface_id: int = Field(foreign_key="surfaces_surface.id", index=True)


class Visit(Table, table=True):
    """One visit of one inspection: planned, asked for, held or not."""

    __tablename__ = "inspections_visit"
    __table_args__ = (one_of("outcome", Outcome), Index("ix_inspections_visit_build_day", "build_id", "day"))
    build_id: int = Field(foreign_key="plan_build.id")
    inspection_id: int = Field(foreign_key="inspections_inspection.id", index=True)
    asked_on: date | None = None
    day: date | None = None
    """the day it is planned for, or was"""
    window: str = Field(default="", max_length=40)
    remote: bool = False
    """by video"""
    who_there: str = Field(default="", max_length=120)
    asked_how: str = Field(default="", max_length=160)
    outcome: str = Outcome.PLANNED.value
    reason: str = ""
    note: str = ""


class Result(Table, table=True):
    """What was said of one surface at one visit. Never overwritten: replaced or withdrawn."""

    __tablename__ = "inspections_result"
    __table_args__ = (
        one_of("kind", ResultKind),
        one_of("state", ResultState),
        one_of("evidence", Evidence),
        Index("ix_inspections_result_now", "inspection_id", "surface_id", "state"),
    )
    visit_id: int = Field(foreign_key="inspections_visit.id", index=True)
    inspection_id: int = Field(foreign_key="inspections_inspection.id")
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    """None: the whole building"""
    kind: str
    day: date
    part: str = ""
    """which part passed, in words"""
    evidence: str = Evidence.MY_NOTE.value
    hired_id: int | None = Field(default=None, foreign_key="hired_hired.id")
    """who said so, when a hired trade passed it on"""
    signed_by: str = Field(default="", max_length=80)
    """the role of who signed: "inspector", "stand-in" """
    paper_id: int | None = Field(default=None, foreign_key="papers_paper.id")
    photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    state: str = ResultState.CURRENT.value
    changed_on: date | None = None
    changed_why: str = ""
    changed_by: str = Field(default="", max_length=20)
    """"my mistake" or "theirs" """
    changed_who: str = Field(default="", max_length=80)
    """who took it back"""
    changed_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    """the letter that took it back"""
    replaced_by_id: int | None = Field(default=None, foreign_key="inspections_result.id")
    recorded_at: datetime


class VisitChange(Table, table=True):
    """What a visit was before: dates and outcomes that were put right stay readable."""

    __tablename__ = "inspections_visit_change"
    visit_id: int = Field(foreign_key="inspections_visit.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


class Correction(Table, table=True):
    """One thing the inspector wants put right, in the inspector's words."""

    __tablename__ = "inspections_correction"
    __table_args__ = (one_of("form", CorrectionForm), one_of("clears_by", ClearsBy), one_of("state", CorrectionState))
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    result_id: int = Field(foreign_key="inspections_result.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    item_id: int | None = Field(default=None, foreign_key="surfaces_item.id")
    number: int
    words: str
    place: str = ""
    x_nm: int | None = None
    y_nm: int | None = None
    """where it is on the surface's drawing, from its own corner and its base"""
    likely_min: int | None = None
    """how long putting it right may take"""
    form: str = CorrectionForm.WRITTEN.value
    rule_cited: str = ""
    clears_by: str = ClearsBy.REVISIT.value
    state: str = CorrectionState.OPEN.value
    done_on: date | None = None
    cleared_on: date | None = None
    cleared_by: str = ""
    before_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    after_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    note: str = ""


class CorrectionChange(Table, table=True):
    """What a correction was before."""

    __tablename__ = "inspections_correction_change"
    correction_id: int = Field(foreign_key="inspections_correction.id", index=True)
    was: str
    became: str
    on_day: date
    why: str = ""
    at: datetime
