"""Tables of permits, inspections, visits, results, corrections and fees."""

from datetime import date, datetime

from sqlalchemy import Index, UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.inspections.rules.kinds import (
    ChangeAnswer,
    ClearsBy,
    CorrectionForm,
    CorrectionState,
    Evidence,
    Outcome,
    ResultKind,
    ResultState,
)


class Permit(Table, table=True):
    """One permit with its own clock and its own rule for lapsing, typed from the permit."""

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
    lapse_days: int | None = None
    lapse_rule: str = ""
    rule_source: str = Field(default="my guess", max_length=120)
    """standard with clause, my authority's handout, my inspector's word, common practice, my guess"""
    closed_on: date | None = None


class PermitChange(Table, table=True):
    """What a permit said before: its days and its rule are amended, the old value stays readable."""

    __tablename__ = "inspections_permit_change"
    permit_id: int = Field(foreign_key="inspections_permit.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


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
    notice_days: int = 1
    """working days"""
    ask_by: str = Field(default="15:30", max_length=5)
    """cut-off hour for asking"""
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
