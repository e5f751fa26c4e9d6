"""The series itself: which episodes there are, what each says, what the one in the making holds by now."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, func, select
from sqlmodel import Session, col
from sqlmodel import select as select_row

from webapp.core.database import rows
from webapp.episodes.models import Episode, EpisodeChange, EpisodePicture
from webapp.episodes.store.pictures import day_of_picture, of_build
from webapp.footage.models import Shot
from webapp.inspections.models import Result, Visit
from webapp.photos.models import Photo
from webapp.plan.models import Task
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts
from webapp.values.errors import NotFound
from webapp.workdays.models import Workday
from webapp.workdays.rules.hours import Hours

MAKING = "in the making"
PUBLISHED = "published"
NO_EPISODE = "There is no such episode in this build."


@dataclass(frozen=True, slots=True)
class EpisodeFacts:
    """One episode. `to_day` is None while it is in the making; `drafted_from` is JSON or empty."""

    id: int
    number: int
    title: str
    from_day: date
    to_day: date | None
    state: str
    body_md: str
    drafted_from: str
    questions: str
    show_hours: bool
    show_spend: str
    published_at: datetime | None

    @property
    def in_the_making(self) -> bool:
        return self.state == MAKING


@dataclass(frozen=True, slots=True)
class Holdings:
    """What the span of an episode holds: days with a note, minutes by whose hands, and counts."""

    days: int = 0
    own: int = 0
    unpaid: int = 0
    paid: int = 0
    hired: int = 0
    tasks_done: int = 0
    results: int = 0
    pictures: int = 0
    shots: int = 0

    def hours(self) -> tuple[str, ...]:
        """`7 h my own`, `9 h unpaid help`: one kind of hands is never added to another."""
        return Hours(self.own, self.unpaid, self.paid, self.hired).words()


@dataclass(frozen=True, slots=True)
class EpisodeLine:
    """One episode in the list, with what it holds."""

    number: int
    title: str
    from_day: date
    to_day: date | None
    state: str
    published_at: datetime | None
    holds: Holdings


@dataclass(frozen=True, slots=True)
class ChosenPicture:
    """A picture chosen for an episode, in order, with what the builder said of it."""

    photo_id: int
    sha256: str
    original_caption: str
    made: str
    width: int
    height: int
    taken_at: str | None
    received_at: datetime
    position: int
    caption: str
    alt: str
    looked_over: bool


@dataclass(frozen=True, slots=True)
class KeptText:
    """A text as it was before a save."""

    id: int
    was: str
    at: datetime


_EPISODE = tuple(EpisodeFacts.__dataclass_fields__)


def _episodes(session: Session, *where: ColumnElement[bool]) -> tuple[EpisodeFacts, ...]:
    statement = select(*(col(getattr(Episode, name)) for name in _EPISODE)).where(*where)
    return tuple(EpisodeFacts(*row) for row in rows(session, statement.order_by(col(Episode.number).desc())))


def get_episode(session: Session, build_id: int, number: int) -> EpisodeFacts:
    found = _episodes(session, col(Episode.build_id) == build_id, col(Episode.number) == number)
    if not found:
        raise NotFound(NO_EPISODE)
    return found[0]


def in_the_making(session: Session, build_id: int) -> EpisodeFacts | None:
    """The episode whatever happens now falls into. One query."""
    found = _episodes(session, col(Episode.build_id) == build_id, col(Episode.state) == MAKING)
    return found[0] if found else None


def _holdings(build_id: int, last: ColumnElement[Any]) -> list[Any]:
    """What falls between the first day of the episode in the outer query and `last`, as counts."""
    first = col(Episode.from_day)
    in_span = col(Workday.day).between(first, last) & (col(Workday.build_id) == build_id)
    hands = (Workday.own_min, Workday.helper_unpaid_min, Workday.helper_paid_min, Workday.hired_min)
    day = day_of_picture()
    counts = (
        select(func.count(func.distinct(col(Workday.day)))).where(in_span),
        *(select(func.coalesce(func.sum(col(minutes)), 0)).where(in_span) for minutes in hands),
        select(func.count(col(Task.id))).where(
            col(Task.build_id) == build_id,
            col(Task.state) == TaskState.DONE.value,
            col(Task.done_on).between(first, last),
        ),
        select(func.count(col(Result.id)))
        .join(Visit, col(Visit.id) == col(Result.visit_id))
        .where(col(Visit.build_id) == build_id, col(Result.state) == "current", col(Result.day).between(first, last)),
        select(func.count(col(Photo.id))).where(of_build(build_id), day.between(first, last)),
        select(func.count(col(Shot.id))).where(
            col(Shot.build_id) == build_id, col(Shot.state) == "filmed", col(Shot.filmed_on).between(first, last)
        ),
    )
    return [each.correlate(Episode).scalar_subquery() for each in counts]


def holds_by_now(session: Session, build: BuildFacts, today: date) -> Holdings:
    """What the episode in the making holds by the end of today; nothing when none is. One query."""
    last = func.coalesce(col(Episode.to_day), today.isoformat())
    statement = select(*_holdings(build.id, last)).where(
        col(Episode.build_id) == build.id, col(Episode.state) == MAKING
    )
    found = rows(session, statement)
    return Holdings(*found[0]) if found else Holdings()


def list_episodes(session: Session, build_id: int, today: date) -> tuple[EpisodeLine, ...]:
    """Every episode with what it holds, the newest first. One query."""
    names = ("number", "title", "from_day", "to_day", "state", "published_at")
    last = func.coalesce(col(Episode.to_day), today.isoformat())
    own = (col(getattr(Episode, name)) for name in names)
    statement = select(*own, *_holdings(build_id, last)).where(col(Episode.build_id) == build_id)
    found = rows(session, statement.order_by(col(Episode.number).desc()))
    return tuple(
        EpisodeLine(row.number, row.title, row.from_day, row.to_day, row.state, row.published_at, Holdings(*row[6:]))
        for row in found
    )


def last_day_told(session: Session, build_id: int, before: int | None = None) -> date | None:
    """The last day of all episodes that were cut (with a number below `before`); None when there is none."""
    statement = select(func.max(col(Episode.to_day))).where(col(Episode.build_id) == build_id)
    if before is not None:
        statement = statement.where(col(Episode.number) < before)
    found: date | None = rows(session, statement)[0][0]
    return found


def last_number(session: Session, build_id: int) -> int:
    """Number of the newest episode; 0 when there is none."""
    statement = select(func.coalesce(func.max(col(Episode.number)), 0)).where(col(Episode.build_id) == build_id)
    return int(rows(session, statement)[0][0])


def list_pictures(session: Session, episode_id: int) -> tuple[ChosenPicture, ...]:
    """The pictures chosen, in order."""
    photo = ("id", "sha256", "caption", "made", "width", "height", "taken_at", "received_at")
    chosen = ("position", "caption", "alt", "looked_over")
    statement = (
        select(*(col(getattr(Photo, name)) for name in photo), *(col(getattr(EpisodePicture, name)) for name in chosen))
        .join(EpisodePicture, col(EpisodePicture.photo_id) == col(Photo.id))
        .where(col(EpisodePicture.episode_id) == episode_id)
        .order_by(col(EpisodePicture.position), col(EpisodePicture.id))
    )
    return tuple(ChosenPicture(*row) for row in rows(session, statement))


def is_offered(session: Session, build_id: int, photo_id: int) -> bool:
    """Whether a picture is one of this build's that an episode may show."""
    statement = select(col(Photo.id)).where(col(Photo.id) == photo_id, of_build(build_id))
    return bool(rows(session, statement))


def list_texts(session: Session, episode_id: int) -> tuple[KeptText, ...]:
    """Texts that were replaced, the latest first."""
    statement = select(col(EpisodeChange.id), col(EpisodeChange.was), col(EpisodeChange.at))
    found = rows(
        session, statement.where(col(EpisodeChange.episode_id) == episode_id).order_by(col(EpisodeChange.id).desc())
    )
    return tuple(KeptText(*row) for row in found)


def find_row(session: Session, build_id: int, number: int) -> Episode:
    """For writing only."""
    is_it = (col(Episode.build_id) == build_id, col(Episode.number) == number)
    row = session.exec(select_row(Episode).where(*is_it)).first()
    if row is None:
        raise NotFound(NO_EPISODE)
    return row


def find_picture_row(session: Session, episode_id: int, photo_id: int) -> EpisodePicture | None:
    """For writing only."""
    is_it = (col(EpisodePicture.episode_id) == episode_id, col(EpisodePicture.photo_id) == photo_id)
    return session.exec(select_row(EpisodePicture).where(*is_it)).first()
