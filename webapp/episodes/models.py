"""Tables of episodes: the private side. What is public lies in `audience`, frozen."""

from datetime import date, datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of


class Episode(Table, table=True):
    """One episode: everything that happened from `from_day` until it is cut falls into it."""

    __tablename__ = "episodes_episode"
    __table_args__ = (
        one_of("state", ("in the making", "published")),
        one_of("show_spend", ("hidden", "rounded", "exact")),
        UniqueConstraint("build_id", "number"),
    )
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    number: int
    title: str = Field(default="", max_length=120)
    from_day: date
    to_day: date | None = None
    """None while it is in the making: everything until it is cut"""
    state: str = "in the making"
    body_md: str = ""
    """the builder's own text; empty until the draft is taken over"""
    drafted_from: str = ""
    """JSON: the sentences and facts the text was taken from"""
    questions: str = ""
    show_hours: bool = True
    show_spend: str = "hidden"
    published_at: datetime | None = None


class EpisodePicture(Table, table=True):
    """A picture chosen for an episode, one by one."""

    __tablename__ = "episodes_picture"
    __table_args__ = (UniqueConstraint("episode_id", "photo_id"),)
    episode_id: int = Field(foreign_key="episodes_episode.id", index=True)
    photo_id: int = Field(foreign_key="photos_photo.id")
    position: int
    caption: str = ""
    alt: str = ""
    looked_over: bool = False


class EpisodeChange(Table, table=True):
    """Each saved text of an episode before it was published."""

    __tablename__ = "episodes_change"
    episode_id: int = Field(foreign_key="episodes_episode.id", index=True)
    was: str
    at: datetime
