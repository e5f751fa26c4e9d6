"""Keeping pictures, dating them, and making their derived copies."""

import logging
import secrets
from collections.abc import Callable, Iterable
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path
from typing import BinaryIO

from sqlmodel import Session

from webapp.core import clock
from webapp.core.database import Database
from webapp.core.forms import Upload
from webapp.photos import files, store
from webapp.photos.models import Photo, PhotoChange
from webapp.photos.rules.capture import read_taken
from webapp.photos.rules.names import SIZES, derived_name, own_name
from webapp.photos.rules.shifting import read_said_taken, said_taken, shifted
from webapp.values.dates import show_date
from webapp.values.errors import BadInput, NotFound

log = logging.getLogger("studbay")


@dataclass(frozen=True, slots=True)
class KeptPhoto:
    """A picture that is in the record; `was_there` when these bytes had come before."""

    photo_id: int
    sha256: str
    was_there: bool


def keep_photo(
    session: Session, photos_dir: Path, file: BinaryIO, name: str, limit_mb: int, received_at: datetime
) -> KeptPhoto:
    """Keep a picture byte for byte, the file before the row. The same bytes again are the same picture.

    Raises BadInput, with a sentence that names the file, for what is no picture, too large or a bomb.
    """
    name = own_name(name) or "picture"
    received = files.receive(photos_dir, file, name, limit_mb)
    try:
        looked = files.look_at(received.path, name)
        files.settle(photos_dir, received)
    finally:
        files.drop(received.path)
    known = store.find_photo(session, received.sha256)
    if known is not None:
        return KeptPhoto(known.id, known.sha256, was_there=True)
    photo = Photo(
        sha256=received.sha256,
        media_type=looked.media_type,
        size=received.size,
        width=looked.width,
        height=looked.height,
        original_name=name,
        taken_at=looked.taken_at,
        taken_from="camera" if looked.taken_at else "unknown",
        received_at=received_at,
    )
    session.add(photo)
    session.flush()
    return KeptPhoto(photo.row_id, photo.sha256, was_there=False)


def keeping(session: Session, photos_dir: Path, limit_mb: int) -> Callable[[Upload], int]:
    """What `core.forms.Reader.file` needs: keeps a sent picture and gives its id."""

    def keep(sent: Upload) -> int:
        return keep_photo(session, photos_dir, sent.file, sent.filename or "", limit_mb, clock.now()).photo_id

    return keep


def _row(session: Session, photo_id: int) -> Photo:
    photo = session.get(Photo, photo_id)
    if photo is None:
        raise NotFound("There is no such picture here.")
    return photo


def refuse_later(taken_at: str, received_at: datetime) -> None:
    """Raises BadInput for a day after the picture arrived: it cannot have been taken later than that."""
    arrived = received_at.astimezone().date()
    if taken_at[:10] > arrived.isoformat():
        raise BadInput(f"This picture arrived on {show_date(arrived)}, so it was not taken after that.")


def set_taken(session: Session, photo_id: int, taken_at: str | None) -> None:
    """Say when a picture was taken ("2026-05-09T17:48:00", or None for unknown); what was said before stays readable.

    Raises BadInput for a day after the picture arrived: it cannot have been taken later than that.
    """
    photo = _row(session, photo_id)
    said = read_taken(taken_at) if taken_at else None
    if taken_at and said is None:
        raise BadInput("Write a day, or a day with a time.")
    if said:
        refuse_later(said, photo.received_at)
    if (said, "owner" if said else "unknown") == (photo.taken_at, photo.taken_from):
        return
    _note_taken(session, photo, said, "owner" if said else "unknown")


def _note_taken(session: Session, photo: Photo, taken_at: str | None, taken_from: str, together: str = "") -> None:
    """Another capture time; what was said before stays readable."""
    was, became = said_taken(photo.taken_at, photo.taken_from), said_taken(taken_at, taken_from)
    change = PhotoChange(photo_id=photo.row_id, field="taken", was=was, became=became, at=clock.now())
    change.together = together or None
    session.add(change)
    photo.taken_at, photo.taken_from = taken_at, taken_from
    session.add(photo)


@dataclass(frozen=True, slots=True)
class Shifted:
    """What a shift did: `together` is the word by which it is taken back; `unknown` pictures have no time of their own,
    `day_only` ones only a day."""

    together: str
    shifted: int
    unknown: int
    day_only: int


def shift_taken(session: Session, photo_ids: Iterable[int], minutes: int) -> Shifted:
    """Put the clock of several pictures right by so many minutes. What has no time of its own stays as it is.

    The new time rests on the builder's word. Raises BadInput when one would be taken after the day it came.
    """
    together, done, unknown, day_only = secrets.token_hex(8), 0, 0, 0
    for photo in (_row(session, photo_id) for photo_id in dict.fromkeys(photo_ids)):
        becomes = shifted(photo.taken_at, photo.taken_from, minutes)
        if becomes is None:
            unknown, day_only = (unknown + 1, day_only) if photo.taken_at is None else (unknown, day_only + 1)
            continue
        refuse_later(becomes, photo.received_at)
        _note_taken(session, photo, becomes, "owner", together)
        done += 1
    return Shifted(together, done, unknown, day_only)


def take_back(session: Session, photo_ids: Iterable[int], together: str) -> tuple[int, int]:
    """Take a shift back: these pictures have the time they had before. One whose time was said anew since is left.

    Gives how many were taken back, and how many were left.
    """
    wanted, back, done, left = set(photo_ids), secrets.token_hex(8), 0, 0
    for change in store.list_together(session, together):
        photo = _row(session, change.photo_id)
        if change.photo_id not in wanted or change.became != said_taken(photo.taken_at, photo.taken_from):
            left += 1
            continue
        _note_taken(session, photo, *read_said_taken(change.was), back)
        done += 1
    return done, left


def set_caption(session: Session, photo_id: int, caption: str) -> None:
    """Say what is seen; the words before stay readable."""
    photo = _row(session, photo_id)
    if photo.caption != caption:
        change = PhotoChange(photo_id=photo_id, field="caption", was=photo.caption, became=caption, at=clock.now())
        session.add(change)
        photo.caption = caption
        session.add(photo)


def note_place(session: Session, photo_id: int, was: str) -> None:
    """Keep readable where a picture was said to belong before; `surfaces` calls this, whose places they are."""
    session.add(PhotoChange(photo_id=photo_id, field="place", was=was, became="", at=clock.now()))


def mark_made(session: Session, sha256: str, made: str) -> None:
    """Note that the derived copies are `ready`, or that the picture is `broken`. A picture that is gone is no fault."""
    known = store.find_photo(session, sha256)
    if known is not None:
        photo = _row(session, known.id)
        photo.made = made
        session.add(photo)


def has_derived(photos_dir: Path, sha256: str) -> bool:
    """Whether a picture's copies lie on disk. A whole copy of the record leaves them out, so after one was taken back
    they are made again here, when they are first looked at."""
    if all((photos_dir / derived_name(sha256, size)).is_file() for size in SIZES):
        return True
    try:
        files.make_derived(photos_dir, sha256)
    except (BadInput, OSError):
        return False
    return True


def make_waiting(database: Database, photos_dir: Path, stopped: Callable[[], bool]) -> None:
    """Make the derived copies of every picture that waits for them. Runs beside the pages, in sessions of its own.

    A picture that cannot be decoded is marked broken. A full disk is not the picture's fault: it goes on waiting.
    """
    with database.reading() as session:
        waiting = store.list_waiting(session)
    for sha256 in waiting:
        if stopped():
            return
        try:
            files.make_derived(photos_dir, sha256)
            made = "ready"
        except (BadInput, FileNotFoundError):
            made = "broken"
        except OSError:
            log.exception("The copies of picture %s could not be written; they are tried again later.", sha256[:8])
            continue
        with database.writing() as session:
            mark_made(session, sha256, made)
