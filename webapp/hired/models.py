"""Tables of hired trades."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.hired.rules.kinds import PartKind, WaitKind


class Hired(Table, table=True):
    """Somebody paid to do a part under their own licence. Name, licence and number are private."""

    __tablename__ = "hired_hired"
    __table_args__ = (UniqueConstraint("build_id", "code"),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    code: str = Field(max_length=12)
    trade: str = Field(max_length=80)
    """"electrician", "digger": how pages call them"""
    name: str = Field(default="", max_length=120)
    licence: str = Field(default="", max_length=80)
    licence_seen_on: date | None = None
    """the day the builder looked the licence up, or saw it"""
    licence_seen_how: str = Field(default="", max_length=160)
    insured: str = Field(default="", max_length=160)
    reach: str = Field(default="", max_length=160)
    does: str = ""
    note: str = ""
    ended_on: date | None = None
    recorded_at: datetime


class HiredPart(Table, table=True):
    """What a hired trade does. `part_id` belongs to the table of `part_kind`."""

    __tablename__ = "hired_part"
    __table_args__ = (one_of("part_kind", PartKind), UniqueConstraint("hired_id", "part_kind", "part_id"))
    hired_id: int = Field(foreign_key="hired_hired.id", index=True)
    part_kind: str
    part_id: int


class HiredWait(Table, table=True):
    """Something still waited for from a hired trade. While it `stops`, what the trade does counts as not finished."""

    __tablename__ = "hired_wait"
    __table_args__ = (one_of("kind", WaitKind),)
    hired_id: int = Field(foreign_key="hired_hired.id", index=True)
    kind: str
    words: str = Field(max_length=200)
    stops: bool = False
    asked_on: date | None = None
    came_on: date | None = None
    dropped_on: date | None = None
    dropped_why: str = ""
    paper_id: int | None = Field(default=None, foreign_key="papers_paper.id")
    recorded_at: datetime


class HiredSpend(Table, table=True):
    """A bill of a hired trade that is on record in the spend."""

    __tablename__ = "hired_spend"
    __table_args__ = (UniqueConstraint("hired_id", "spend_id"),)
    hired_id: int = Field(foreign_key="hired_hired.id", index=True)
    spend_id: int = Field(foreign_key="money_spend.id", index=True)


class HiredChange(Table, table=True):
    """What was on record of a hired trade before."""

    __tablename__ = "hired_change"
    hired_id: int = Field(foreign_key="hired_hired.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
