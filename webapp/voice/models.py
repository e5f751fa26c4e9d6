"""Tables of voice notes."""

from datetime import datetime

from sqlalchemy import UniqueConstraint
from sqlmodel import Field

from webapp.core.tables import Table, one_of
from webapp.voice.rules.places import PlaceKind


class VoiceNote(Table, table=True):
    """One thing said aloud. The same bytes in the same build are one note, however often they come."""

    __tablename__ = "voice_note"
    __table_args__ = (
        one_of("about_kind", ("", *PlaceKind)),
        UniqueConstraint("build_id", "sha256"),
    )
    build_id: int = Field(foreign_key="plan_build.id", index=True)
    sha256: str = Field(max_length=64, index=True)
    """of the sound's bytes; also its name on disk"""
    media_type: str = Field(max_length=40)
    size: int
    seconds: int | None = None
    """how long it is, as the recording said; None where it did not"""
    original_name: str = Field(default="", max_length=200)
    """private, as of pictures"""
    said_at: str | None = Field(default=None, max_length=19)
    """local to the site, "2026-05-09T17:48:00", as the phone that recorded it wrote; None while unknown"""
    received_at: datetime = Field(index=True)
    about_kind: str = Field(default="", max_length=20)
    """empty while it is loose"""
    about_id: int | None = None
    """of the table of `about_kind`"""
    words: str = ""
    """what is said in it, written down by the builder"""


class VoiceChange(Table, table=True):
    """What was written down of a note before, and where it was."""

    __tablename__ = "voice_change"
    __table_args__ = (one_of("field", ("words", "place")),)
    note_id: int = Field(foreign_key="voice_note.id", index=True)
    field: str = Field(max_length=20)
    was: str
    became: str
    at: datetime
