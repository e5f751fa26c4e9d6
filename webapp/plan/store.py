"""Reading the plan."""

from dataclasses import dataclass

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import remembered, rows
from webapp.plan.models import Build
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class BuildFacts:
    """One build as other packages see it."""

    id: int
    slug: str
    name: str
    what: str
    unit: str
    currency: str


def _builds(session: Session) -> tuple[BuildFacts, ...]:
    columns = select(
        col(Build.id), col(Build.slug), col(Build.name), col(Build.what), col(Build.length_unit), col(Build.currency)
    )
    return tuple(BuildFacts(*row) for row in rows(session, columns.order_by(col(Build.id).desc())))


def list_builds(session: Session) -> tuple[BuildFacts, ...]:
    """All builds, the newest first."""
    return remembered(session, "builds", lambda: _builds(session))


def get_build(session: Session, slug: str) -> BuildFacts:
    for build in list_builds(session):
        if build.slug == slug:
            return build
    raise NotFound("There is no build of this name here.")
