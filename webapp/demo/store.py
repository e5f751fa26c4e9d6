"""Reading back on which day the demo in a record stands."""

from datetime import date

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.clock import in_utc
from webapp.core.database import rows
from webapp.plan.models import Build
from webapp.values.errors import NotFound


def begun_on(session: Session, slug: str) -> date:
    """The day a build was put on record, on this machine's calendar."""
    for (made_at,) in rows(session, select(col(Build.made_at)).where(col(Build.slug) == slug)):
        return in_utc(made_at).astimezone().date()
    raise NotFound("There is no demo in this record.")
