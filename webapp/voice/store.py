"""Reading voice notes."""

from dataclasses import dataclass
from datetime import datetime

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.values.errors import NotFound
from webapp.voice.models import VoiceChange, VoiceNote


@dataclass(frozen=True, slots=True)
class NoteFacts:
    """One voice note. `said_at` is local to the site, or None; `received_at` is aware, UTC."""

    id: int
    sha256: str
    media_type: str
    size: int
    seconds: int | None
    original_name: str
    said_at: str | None
    received_at: datetime
    about_kind: str
    about_id: int | None
    words: str

    @property
    def day(self) -> str:
        """The day it was said, or, where nobody knows, the day it came."""
        return self.said_at[:10] if self.said_at else self.received_at.astimezone().date().isoformat()


@dataclass(frozen=True, slots=True)
class NoteChangeFacts:
    field: str
    was: str
    became: str
    at: datetime


@kept_list
def list_notes(session: Session, build_id: int) -> tuple[NoteFacts, ...]:
    """Every note of the build, the last that came first."""
    columns = (col(getattr(VoiceNote, name)) for name in NoteFacts.__dataclass_fields__)
    statement = select(*columns).where(col(VoiceNote.build_id) == build_id)
    ordered = statement.order_by(col(VoiceNote.received_at).desc(), col(VoiceNote.id).desc())
    return tuple(NoteFacts(*row) for row in rows(session, ordered))


def get_note(session: Session, build_id: int, note_id: int) -> NoteFacts:
    for note in list_notes(session, build_id):
        if note.id == note_id:
            return note
    raise NotFound("There is no such voice note in this build.")


def list_note_changes(session: Session, note_id: int) -> tuple[NoteChangeFacts, ...]:
    """What was put right on a note, the latest first."""
    columns = (col(getattr(VoiceChange, name)) for name in NoteChangeFacts.__dataclass_fields__)
    statement = select(*columns).where(col(VoiceChange.note_id) == note_id)
    return tuple(NoteChangeFacts(*row) for row in rows(session, statement.order_by(col(VoiceChange.id).desc())))
