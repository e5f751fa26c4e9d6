"""Tables of tests on lines."""

from datetime import date, datetime

from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.linetests.rules.kinds import TestKind, TestOutcome


class LineTest(Table, table=True):
    """One test. Readings stay as typed, with their unit; hours as "HH:MM" of `day` (`end_day` when it ran over)."""

    __tablename__ = "linetests_test"
    __table_args__ = (one_of("kind", TestKind), one_of("outcome", TestOutcome))
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    line_id: int | None = Field(default=None, foreign_key="surfaces_line.id", index=True)
    surface_id: int | None = Field(default=None, foreign_key="surfaces_surface.id", index=True)
    kind: str
    what: str = Field(max_length=160)
    """the line, room or stretch that was tried, in the builder's words"""
    wanted: str = Field(default="", max_length=160)
    wanted_source: str = Field(default="", max_length=160)
    day: date
    end_day: date | None = None
    start_reading: str = Field(default="", max_length=60)
    end_reading: str = Field(default="", max_length=60)
    start_time: str = Field(default="", max_length=5)
    end_time: str = Field(default="", max_length=5)
    outcome: str = TestOutcome.RUNNING.value
    start_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    end_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    note: str = ""
    replaced_by_id: int | None = Field(default=None, foreign_key="linetests_test.id")
    ended_on: date | None = None
    """the day it was taken back: typed by mistake, or the line was changed since"""
    ended_why: str = ""
    recorded_at: datetime


class LineTestChange(Table, table=True):
    """What a test was said to be before."""

    __tablename__ = "linetests_change"
    test_id: int = Field(foreign_key="linetests_test.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
