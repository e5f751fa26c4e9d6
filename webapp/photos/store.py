"""Reading what is known of pictures."""

from collections.abc import Iterable
from dataclasses import dataclass
from datetime import datetime
from typing import Any

from sqlalchemy import ColumnElement, Select, select
from sqlmodel import Session, col

from webapp.core.database import rows
from webapp.photos.models import Photo, PhotoChange
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class PhotoFacts:
    """One picture. `taken_at` is local to the site ("2026-05-09T17:48:00") or None; `received_at` is aware, UTC."""

    id: int
    sha256: str
    media_type: str
    size: int
    width: int
    height: int
    original_name: str
    taken_at: str | None
    taken_from: str
    received_at: datetime
    caption: str
    made: str


@dataclass(frozen=True, slots=True)
class PhotoChangeFacts:
    """What a picture's `field` was before, and when that was put right."""

    field: str
    was: str
    became: str
    at: datetime
    photo_id: int
    together: str | None


def _columns() -> Select[Any]:
    names = PhotoFacts.__dataclass_fields__
    return select(*(col(getattr(Photo, name)) for name in names))


def _facts(session: Session, statement: Select[Any]) -> tuple[PhotoFacts, ...]:
    return tuple(PhotoFacts(*row) for row in rows(session, statement))


def find_photo(session: Session, sha256: str) -> PhotoFacts | None:
    """The picture with these bytes, if it was ever kept."""
    found = _facts(session, _columns().where(col(Photo.sha256) == sha256))
    return found[0] if found else None


def get_photo(session: Session, photo_id: int) -> PhotoFacts:
    found = list_photos(session, (photo_id,))
    if not found:
        raise NotFound("There is no such picture here.")
    return found[0]


def list_photos(session: Session, photo_ids: Iterable[int]) -> tuple[PhotoFacts, ...]:
    """The pictures with these ids, the latest received first. One query."""
    wanted = tuple(dict.fromkeys(photo_ids))
    if not wanted:
        return ()
    statement = _columns().where(col(Photo.id).in_(wanted))
    return _facts(session, statement.order_by(col(Photo.received_at).desc(), col(Photo.id).desc()))


def list_waiting(session: Session) -> tuple[str, ...]:
    """SHA-256 of each picture whose derived copies are still to be made, in the order they came."""
    statement = select(col(Photo.sha256)).where(col(Photo.made) == "waiting").order_by(col(Photo.id))
    return tuple(row[0] for row in rows(session, statement))


def list_changes(session: Session, photo_id: int) -> tuple[PhotoChangeFacts, ...]:
    """What was put right on a picture, the latest first."""
    return _changes(session, col(PhotoChange.photo_id) == photo_id)


def list_together(session: Session, together: str) -> tuple[PhotoChangeFacts, ...]:
    """What was put right in one go under this word, the latest first."""
    return _changes(session, col(PhotoChange.together) == together)


def _changes(session: Session, where: ColumnElement[bool]) -> tuple[PhotoChangeFacts, ...]:
    names = PhotoChangeFacts.__dataclass_fields__
    statement = select(*(col(getattr(PhotoChange, name)) for name in names)).where(where)
    return tuple(PhotoChangeFacts(*row) for row in rows(session, statement.order_by(col(PhotoChange.id).desc())))
