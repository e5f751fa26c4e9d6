"""Tables of pictures."""

from datetime import datetime

from sqlmodel import Field

from webapp.core.tables import Table, one_of


class Photo(Table, table=True):
    """One picture. The same bytes are one row, however often they come."""

    __tablename__ = "photos_photo"
    __table_args__ = (
        one_of("taken_from", ("camera", "owner", "unknown")),
        one_of("made", ("waiting", "ready", "broken")),
    )
    sha256: str = Field(unique=True, max_length=64)
    """of the original's bytes; also its name on disk"""
    media_type: str = Field(max_length=40)
    size: int
    width: int
    """upright, in pixels"""
    height: int
    original_name: str = Field(default="", max_length=200)
    """private: file names give away devices and dates"""
    taken_at: str | None = Field(default=None, max_length=19)
    """local to the site, "2026-05-09T17:48:00"; None while unknown"""
    taken_from: str = "unknown"
    """camera (from the file), owner (said so), unknown"""
    received_at: datetime = Field(index=True)
    caption: str = ""
    made: str = Field(default="waiting", index=True)
    """whether the derived copies are there"""


class PhotoChange(Table, table=True):
    """What was said of a picture before: a date that was put right stays readable."""

    __tablename__ = "photos_change"
    photo_id: int = Field(foreign_key="photos_photo.id", index=True)
    field: str = Field(max_length=40)
    was: str
    became: str
    at: datetime
    together: str | None = Field(default=None, max_length=32, index=True)
    """what was put right in one go for several pictures has the same word, so that it can be taken back as one"""
