"""Reading what was published. Knows the public tables only."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, func, select
from sqlmodel import Session, col
from sqlmodel import select as select_row

from webapp.audience.models import PublicBuild, PublicCorrection, PublicPicture, PublishedEpisode
from webapp.audience.rules.showing import (
    CorrectionView,
    EpisodeView,
    PictureView,
    picture_file,
)
from webapp.audience.rules.snapshot import cautions_from_text
from webapp.core.database import rows
from webapp.photos.rules.names import LARGE, SMALL
from webapp.values.errors import NotFound

NO_BUILD = "Nothing of this name has been published here."
NO_EPISODE = "There is no such episode here."


@dataclass(frozen=True, slots=True)
class PublicBuildFacts:
    id: int
    slug: str
    name: str
    what: str
    feed_id: str


@dataclass(frozen=True, slots=True)
class BuildLine:
    """A build in the list of all that published: how many episodes, and when the last one came."""

    slug: str
    name: str
    what: str
    episodes: int
    last: datetime


@dataclass(frozen=True, slots=True)
class Published:
    """One frozen episode: how it is shown, and what the feed needs. Moments are UTC."""

    id: int
    entry_id: str
    summary: str
    author: str
    published_at: datetime
    updated_at: datetime
    view: EpisodeView


def list_builds(session: Session) -> tuple[BuildLine, ...]:
    """Every build that has published, by name. One query."""
    statement = (
        select(
            col(PublicBuild.slug),
            col(PublicBuild.name),
            col(PublicBuild.what),
            func.count(col(PublishedEpisode.id)),
            func.max(col(PublishedEpisode.published_at)),
        )
        .join(PublishedEpisode, col(PublishedEpisode.build_id) == col(PublicBuild.id))
        .group_by(col(PublicBuild.id))
        .order_by(col(PublicBuild.name), col(PublicBuild.slug))
    )
    return tuple(BuildLine(*row) for row in rows(session, statement))


def find_build(session: Session, slug: str) -> PublicBuildFacts | None:
    names = PublicBuildFacts.__dataclass_fields__
    statement = select(*(col(getattr(PublicBuild, name)) for name in names)).where(col(PublicBuild.slug) == slug)
    found = rows(session, statement)
    return PublicBuildFacts(*found[0]) if found else None


def get_build(session: Session, slug: str) -> PublicBuildFacts:
    build = find_build(session, slug)
    if build is None:
        raise NotFound(NO_BUILD)
    return build


def _pictures(session: Session, *where: ColumnElement[bool]) -> Mapping[int, tuple[PictureView, ...]]:
    """Pictures by episode, in the builder's order."""
    names = ("episode_id", "name", "width", "height", "caption", "alt")
    statement = (
        select(*(col(getattr(PublicPicture, name)) for name in names))
        .join(PublishedEpisode, col(PublishedEpisode.id) == col(PublicPicture.episode_id))
        .where(*where)
        .order_by(col(PublicPicture.position), col(PublicPicture.id))
    )
    found: dict[int, tuple[PictureView, ...]] = {}
    for episode_id, name, width, height, caption, alt in rows(session, statement):
        large, small = (f"/watch/pictures/{picture_file(name, size)}" for size in (LARGE, SMALL))
        view = PictureView(large, small, width, height, caption, alt)
        found[episode_id] = (*found.get(episode_id, ()), view)
    return found


def _corrections(session: Session, *where: ColumnElement[bool]) -> Mapping[int, tuple[CorrectionView, ...]]:
    """Dated corrections by episode, in the order they were made."""
    statement = (
        select(col(PublicCorrection.episode_id), col(PublicCorrection.day), col(PublicCorrection.words))
        .join(PublishedEpisode, col(PublishedEpisode.id) == col(PublicCorrection.episode_id))
        .where(*where)
        .order_by(col(PublicCorrection.id))
    )
    found: dict[int, tuple[CorrectionView, ...]] = {}
    for episode_id, day, words in rows(session, statement):
        earlier = found.get(episode_id, ())
        found[episode_id] = (*earlier, CorrectionView(len(earlier) + 1, day, words))
    return found


_EPISODE = (
    "id",
    "entry_id",
    "summary",
    "author",
    "published_at",
    "updated_at",
    "number",
    "title",
    "from_day",
    "to_day",
    "body_html",
    "cautions",
)


def _episodes(session: Session, *where: ColumnElement[bool]) -> tuple[Published, ...]:
    statement = select(*(col(getattr(PublishedEpisode, name)) for name in _EPISODE)).where(*where)
    found = rows(session, statement.order_by(col(PublishedEpisode.number).desc()))
    pictures, corrections = _pictures(session, *where), _corrections(session, *where)
    return tuple(_published(row, pictures, corrections) for row in found)


def _published(
    row: Any, pictures: Mapping[int, tuple[PictureView, ...]], corrections: Mapping[int, tuple[CorrectionView, ...]]
) -> Published:
    view = EpisodeView(
        number=row.number,
        title=row.title,
        published_on=row.published_at.astimezone().date(),
        from_day=row.from_day,
        to_day=row.to_day,
        body_html=row.body_html,
        pictures=pictures.get(row.id, ()),
        cautions=cautions_from_text(row.cautions),
        corrections=corrections.get(row.id, ()),
    )
    return Published(row.id, row.entry_id, row.summary, row.author, row.published_at, row.updated_at, view)


def list_episodes(session: Session, build_id: int) -> tuple[Published, ...]:
    """Every episode of a build, newest first. Three queries."""
    return _episodes(session, col(PublishedEpisode.build_id) == build_id)


def get_episode(session: Session, build_id: int, number: int) -> Published:
    found = _episodes(session, col(PublishedEpisode.build_id) == build_id, col(PublishedEpisode.number) == number)
    if not found:
        raise NotFound(NO_EPISODE)
    return found[0]


def list_titles(session: Session, build_id: int) -> tuple[tuple[int, str], ...]:
    """Number and title of each episode in watch order."""
    statement = select(col(PublishedEpisode.number), col(PublishedEpisode.title))
    found = rows(
        session, statement.where(col(PublishedEpisode.build_id) == build_id).order_by(col(PublishedEpisode.number))
    )
    return tuple((number, title) for number, title in found)


def is_public(session: Session, name: str) -> bool:
    """Whether a picture of this name belongs to a published episode."""
    statement = select(col(PublicPicture.id)).where(col(PublicPicture.name) == name)
    return bool(rows(session, statement))


def find_build_row(session: Session, slug: str) -> PublicBuild | None:
    """For writing only."""
    return session.exec(select_row(PublicBuild).where(col(PublicBuild.slug) == slug)).first()


def find_episode_row(session: Session, build_id: int, number: int) -> PublishedEpisode | None:
    """For writing only."""
    is_it = (col(PublishedEpisode.build_id) == build_id, col(PublishedEpisode.number) == number)
    return session.exec(select_row(PublishedEpisode).where(*is_it)).first()
