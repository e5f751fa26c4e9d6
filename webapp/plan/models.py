"""Tables of the plan."""

from datetime import date, datetime

from sqlalchemy import CheckConstraint, Index, UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.plan.rules.dangers import Danger
from webapp.plan.rules.kinds import BookedState, LengthUnit, NeedKind, Strength, TaskState, Weather, Who


class Lot(Table, table=True):
    """The ground that builds share: each keeps its own permits and clocks."""

    __tablename__ = "plan_lot"
    name: str = Field(max_length=80, unique=True)
    """the builder's own name for it, private"""


class Build(Table, table=True):
    """One building project. Several can live in one installation."""

    __tablename__ = "plan_build"
    __table_args__ = (one_of("length_unit", LengthUnit),)
    slug: str = Field(unique=True, max_length=60)
    name: str = Field(max_length=80)
    what: str = ""
    length_unit: str = LengthUnit.FEET_INCHES.value
    currency: str = Field(default="USD", max_length=3)
    lot_id: int | None = Field(default=None, foreign_key="plan_lot.id", index=True)
    made_at: datetime


class BuildWord(Table, table=True):
    """What this builder calls a thing: "inspection", "rough-in", "board", "permit"."""

    __tablename__ = "plan_build_word"
    __table_args__ = (UniqueConstraint("build_id", "word"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    word: str = Field(max_length=20)
    """Studbay's own word, singular"""
    one: str = Field(max_length=40)
    many: str = Field(max_length=40)


class Phase(Table, table=True):
    """A stretch of the build, in the order the builder sets."""

    __tablename__ = "plan_phase"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    position: int
    title: str = Field(max_length=120)
    purpose: str = ""


class Task(Table, table=True):
    """One job. Minutes are estimates for all hands; `wait_days` run by themselves after it is done (cure, drying)."""

    __tablename__ = "plan_task"
    __table_args__ = (
        one_of("state", TaskState),
        one_of("who", Who),
        one_of("weather", Weather),
        CheckConstraint("low_min <= likely_min AND likely_min <= high_min AND low_min >= 0", name="estimate"),
        CheckConstraint("wait_days >= 0", name="wait"),
        Index("ix_plan_task_build_state", "build_id", "state"),
    )
    build_id: int = Field(foreign_key="plan_build.id")
    phase_id: int = Field(foreign_key="plan_phase.id", index=True)
    position: int
    title: str = Field(max_length=200)
    kind: str = Field(max_length=40)
    who: str = Who.SELF.value
    hands: int = 1
    weather: str = Weather.ANY.value
    low_min: int = 60
    likely_min: int = 120
    high_min: int = 240
    wait_days: int = 0
    wait_reason: str = ""
    one_go: bool = False
    note: str = ""
    state: str = TaskState.NOT_STARTED.value
    started_on: date | None = None
    done_on: date | None = None


class TaskDanger(Table, table=True):
    """What makes a task no work for one alone, as the builder ticked it."""

    __tablename__ = "plan_task_danger"
    __table_args__ = (one_of("danger", Danger), UniqueConstraint("task_id", "danger"))
    task_id: int = Field(foreign_key="plan_task.id", index=True)
    danger: str


class TaskChange(Table, table=True):
    """What a task was before: each change of its state or of its days stays readable."""

    __tablename__ = "plan_task_change"
    task_id: int = Field(foreign_key="plan_task.id", index=True)
    was: str
    became: str
    on_day: date | None = None
    why: str = ""
    at: datetime


class Need(Table, table=True):
    """What the builder said that something needs. `*_id` belongs to the table of `*_kind`; surfaces narrow it down."""

    __tablename__ = "plan_need"
    __table_args__ = (
        one_of("what_kind", NeedKind),
        one_of("needs_kind", NeedKind),
        one_of("strength", Strength),
        UniqueConstraint("what_kind", "what_id", "what_surface_id", "needs_kind", "needs_id", "needs_surface_id"),
        Index("ix_plan_need_needs", "needs_kind", "needs_id"),
    )
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    what_kind: str
    what_id: int
    what_surface_id: int = 0
    """0 where no surface is meant"""
    needs_kind: str
    needs_id: int
    needs_surface_id: int = 0
    strength: str = Strength.HARD.value
    lag_days: int = 0
    reason: str = ""


class Booked(Table, table=True):
    """Something that comes on a day for a task: a truck, a hired hand, a helper, a rented machine."""

    __tablename__ = "plan_booked"
    __table_args__ = (one_of("state", BookedState),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    task_id: int | None = Field(default=None, foreign_key="plan_task.id", index=True)
    what: str = Field(max_length=120)
    day: date | None = None
    window: str = Field(default="", max_length=40)
    cancel_by: str = Field(default="", max_length=5)
    """hour up to which it can be called off without a fee"""
    cancel_days: int = 0
    """working days before `day` on which that hour falls"""
    state: str = BookedState.BOOKED.value
    note: str = ""


class BookedChange(Table, table=True):
    """What a booking was before."""

    __tablename__ = "plan_booked_change"
    booked_id: int = Field(foreign_key="plan_booked.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime


class Breach(Table, table=True):
    """A hold point that the builder's own order breaks, kept knowingly: it stays in view until the order is mended."""

    __tablename__ = "plan_breach"
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    what_kind: str = Field(max_length=20)
    what_id: int
    needs_kind: str = Field(max_length=20)
    needs_id: int
    surface_id: int = 0
    """0 where no surface is meant"""
    words: str
    """what would be hidden, as it was said when it was kept"""
    why: str = ""
    on_day: date
    ended_on: date | None = None
    """the day the order was mended, or the thing needed was there after all"""
