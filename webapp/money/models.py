"""Tables of money, in whole cents of the build's currency."""

from datetime import date, datetime

from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.money.rules.lines import KINDS


class Spend(Table, table=True):
    """One line of spend. Negative for a refund; a gift is 0 paid with a value."""

    __tablename__ = "money_spend"
    __table_args__ = (one_of("kind", KINDS),)
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    day: date = Field(index=True)
    what: str = Field(max_length=200)
    supplier: str = Field(default="", max_length=120)
    kind: str = "into the building"
    total_cents: int
    """what was paid, tax included"""
    tax_cents: int = 0
    value_cents: int | None = None
    """worth of a gift"""
    phase_id: int | None = Field(default=None, foreign_key="plan_phase.id", index=True)
    task_id: int | None = Field(default=None, foreign_key="plan_task.id", index=True)
    receipt_photo_id: int | None = Field(default=None, foreign_key="photos_photo.id")
    note: str = ""
    at: datetime


class SpendChange(Table, table=True):
    """What a line of spend was before it was put right."""

    __tablename__ = "money_spend_change"
    spend_id: int = Field(foreign_key="money_spend.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    why: str = ""
    at: datetime
