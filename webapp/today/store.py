"""What today needs besides the graph: the last day logged, and the episode in the making."""

from dataclasses import dataclass
from datetime import date

from sqlalchemy import func, select
from sqlmodel import Session, col

from webapp.core.database import Database, remembered, rows
from webapp.episodes.store import EpisodeFacts, Holdings, holds_by_now, in_the_making
from webapp.linetests.store import list_tests
from webapp.plan.store import BuildFacts, list_builds
from webapp.plan.store.dangers import dangers_of
from webapp.readiness.store import site
from webapp.readiness.store.hanging import to_move
from webapp.readiness.store.hold_points import breach_lines
from webapp.surfaces.store import ItemFacts, list_items
from webapp.workdays.models import Workday
from webapp.workdays.store.alone import open_told


@dataclass(frozen=True, slots=True)
class Beside:
    last_day: date | None
    episode: EpisodeFacts | None
    holds: Holdings
    items: tuple[ItemFacts, ...]


def _last_day(session: Session, build_id: int) -> date | None:
    found: date | None = rows(session, select(func.max(col(Workday.day))).where(col(Workday.build_id) == build_id))[0][
        0
    ]
    return found


def _read(session: Session, build: BuildFacts, today: date) -> Beside:
    return Beside(
        last_day=_last_day(session, build.id),
        episode=in_the_making(session, build.id),
        holds=holds_by_now(session, build, today),
        items=list_items(session, build.id),
    )


def look_ahead(database: Database, today: date) -> None:
    """Have at hand what Today asks of the newest build, before anybody asks: the first page after a start."""
    with database.reading() as session:
        for build in list_builds(session)[:1]:
            found = site(session, build, today)
            found.network.every_root()
            beside(session, build, today)
            breach_lines(session, found)
            to_move(session, found)
            list_tests(session, build.id)
            dangers_of(session, build.id)
            open_told(session, build.id)


def beside(session: Session, build: BuildFacts, today: date) -> Beside:
    """Read once after each write, as the graph is."""
    return remembered(session, ("beside today", build, today), lambda: _read(session, build, today))
