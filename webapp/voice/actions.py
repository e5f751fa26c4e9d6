"""Keeping what was said, writing its words down, and saying where it belongs. Nothing is taken out."""

from collections.abc import Callable
from pathlib import Path

from sqlmodel import Session, col, select

from webapp.core import clock
from webapp.core.forms import Upload
from webapp.core.settings import Settings
from webapp.voice import store
from webapp.voice.files import KeptSound, find_sound, keep_sound
from webapp.voice.models import VoiceChange, VoiceNote
from webapp.voice.rules.places import Spot

LOOSE = "nowhere yet"


def keeping_sound(settings: Settings) -> Callable[[Upload], str]:
    """What `core.forms.Reader.kept` needs: keeps a sent sound and gives the words for `sound_of`."""

    def keep(sent: Upload) -> str:
        kept = keep_sound(settings.voice, sent.file, sent.filename or "", settings.voice_mb)
        return f"{kept.sha256}:{kept.media_type}:{'' if kept.seconds is None else kept.seconds}:{kept.name}"

    return keep


def sound_of(words: str, voice: Path) -> KeptSound | None:
    """What `keeping_sound` kept, from its words; None for words that name no sound we have."""
    sha256, _, rest = words.partition(":")
    media_type, _, rest = rest.partition(":")
    seconds, _, name = rest.partition(":")
    path = find_sound(voice, sha256)
    if path is None or not media_type.startswith("audio/"):
        return None
    return KeptSound(sha256, path.stat().st_size, name[-200:], media_type[:40], _whole(seconds))


def _whole(text: str) -> int | None:
    return int(text) if text.isdecimal() and len(text) < 7 else None


def add_note(
    session: Session, build_id: int, sound: KeptSound, said_at: str | None, words: str = "", spot: Spot | None = None
) -> int:
    """Put what was said on record. The same sound again is the same note; a loose one gets its place by that."""
    known = session.exec(
        select(VoiceNote).where(col(VoiceNote.build_id) == build_id, col(VoiceNote.sha256) == sound.sha256)
    ).first()
    if known is not None:
        if spot is not None and not known.about_kind:
            place_note(session, build_id, known.row_id, spot, LOOSE)
        if words and not known.words:
            write_down(session, build_id, known.row_id, words)
        return known.row_id
    note = VoiceNote(
        build_id=build_id,
        sha256=sound.sha256,
        media_type=sound.media_type,
        size=sound.size,
        seconds=sound.seconds,
        original_name=sound.name,
        said_at=said_at,
        received_at=clock.now(),
        about_kind=spot.kind if spot else "",
        about_id=spot.id if spot else None,
        words=words,
    )
    session.add(note)
    session.flush()
    return note.row_id


def write_down(session: Session, build_id: int, note_id: int, words: str) -> None:
    """The words of a note; those before stay readable."""
    store.get_note(session, build_id, note_id)
    note = session.get_one(VoiceNote, note_id)
    if note.words != words:
        _note_change(session, note_id, "words", note.words, words)
        note.words = words
        session.add(note)


def place_note(session: Session, build_id: int, note_id: int, spot: Spot | None, was: str) -> None:
    """Where a note belongs, or nowhere; `was` says in words where it was, and stays readable."""
    store.get_note(session, build_id, note_id)
    note = session.get_one(VoiceNote, note_id)
    kind, about_id = (spot.kind, spot.id) if spot else ("", None)
    if (note.about_kind, note.about_id) != (kind, about_id):
        _note_change(session, note_id, "place", was, spot.label if spot else LOOSE)
        note.about_kind, note.about_id = kind, about_id
        session.add(note)


def _note_change(session: Session, note_id: int, field: str, was: str, became: str) -> None:
    session.add(VoiceChange(note_id=note_id, field=field, was=was, became=became, at=clock.now()))
