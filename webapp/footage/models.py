"""Tables of shots."""

from datetime import date, datetime

from sqlmodel import Field

from webapp.core.tables import Table, one_of


class Shot(Table, table=True):
    """One thing to film. `must` stops the closing of its surface until filmed or let go with a reason."""

    __tablename__ = "footage_shot"
    __table_args__ = (one_of("strength", ("must", "wish")), one_of("state", ("owed", "filmed", "skipped")))
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    task_id: int | None = Field(default=None, foreign_key="plan_task.id", index=True)
    what: str = Field(max_length=200)
    once: bool = False
    strength: str = "wish"
    state: str = "owed"
    filmed_on: date | None = None
    where_it_lies: str = ""
    files: str = ""
    seconds: int | None = None
    note: str = ""
    skipped_on: date | None = None
    skipped_why: str = ""


class ShotChange(Table, table=True):
    """What was said of a shot before: a day or a place that was put right stays readable."""

    __tablename__ = "footage_change"
    shot_id: int = Field(foreign_key="footage_shot.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    at: datetime
