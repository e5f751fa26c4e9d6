"""Tables of what is public. Nothing here points at a private table."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table


class PublicBuild(Table, table=True):
    """A build that has published something: the name it goes by in public."""

    __tablename__ = "audience_build"
    slug: str = Field(unique=True, max_length=60)
    name: str = Field(max_length=80)
    what: str = ""
    feed_id: str = Field(max_length=80)
    """urn:uuid, made once: an Atom feed keeps its id when the address changes (RFC 4287, 4.2.6)"""


class PublishedEpisode(Table, table=True):
    """A frozen copy of an episode as it was published."""

    __tablename__ = "audience_episode"
    __table_args__ = (UniqueConstraint("build_id", "number"),)
    build_id: int = Field(foreign_key="audience_build.id", index=True)
    number: int
    entry_id: str = Field(unique=True, max_length=80)
    """urn:uuid"""
    title: str = Field(max_length=120)
    from_day: date
    to_day: date
    body_html: str
    """made from Markdown with HTML off, then cleaned"""
    summary: str = ""
    cautions: str = "[]"
    """JSON list of [heading, [sentences], source] for the work shown"""
    author: str = Field(max_length=80)
    published_at: datetime
    updated_at: datetime


class PublicPicture(Table, table=True):
    """A picture of a published episode: re-encoded bytes under a name that says nothing."""

    __tablename__ = "audience_picture"
    episode_id: int = Field(foreign_key="audience_episode.id", index=True)
    position: int
    name: str = Field(unique=True, max_length=64)
    """random; its two files lie in `photos/public/`"""
    caption: str = ""
    alt: str = ""
    width: int
    height: int


class PublicCorrection(Table, table=True):
    """A dated correction, shown above the text; the text itself stays as it was."""

    __tablename__ = "audience_correction"
    episode_id: int = Field(foreign_key="audience_episode.id", index=True)
    day: date
    words: str
    at: datetime
