"""Pictures that came with a day are kept first, so that no mistake in another field loses one."""

from collections.abc import Mapping, Sequence
from dataclasses import dataclass
from pathlib import Path

from sqlmodel import Session

from webapp.core import clock
from webapp.core.forms import Upload
from webapp.photos.actions import KeptPhoto, keep_photo
from webapp.photos.rules.names import is_sha256
from webapp.photos.store import find_photo
from webapp.values.errors import BadInput
from webapp.workdays.rules.said import PICTURES


@dataclass(frozen=True, slots=True)
class Received:
    """What is kept now, by field of the form, and a sentence for each file that was not taken."""

    photos: Mapping[str, tuple[KeptPhoto, ...]]
    not_taken: tuple[str, ...] = ()

    @property
    def pictures(self) -> tuple[int, ...]:
        """Ids of the day's pictures, each once."""
        return tuple(kept.photo_id for kept in self.photos[PICTURES])

    def receipt(self, block: str) -> int | None:
        kept = self.photos[f"{block}_receipt"]
        return kept[-1].photo_id if kept else None

    def hidden(self) -> dict[str, Sequence[str]]:
        """Hidden fields that bring the kept pictures back without sending them again."""
        return {f"{field}_kept": tuple(one.sha256 for one in kept) for field, kept in self.photos.items()}


def keep_pictures(
    session: Session,
    sent: Mapping[str, Sequence[Upload]],
    kept_before: Mapping[str, Sequence[str]],
    photos_dir: Path,
    limit_mb: int,
) -> Received:
    """Keep every picture sent, by field; a file that is none gets its sentence, is left out, and stops no other.

    `kept_before` are SHA-256 of pictures that came with an earlier sending of the same form.
    """
    not_taken: list[str] = []

    def keep(file: Upload) -> KeptPhoto | None:
        try:
            return keep_photo(session, photos_dir, file.file, file.filename or "", limit_mb, clock.now())
        except BadInput as bad:
            not_taken.append(bad.sentence)
            return None

    photos = {}
    for field, files in sent.items():
        came = [*_there(session, kept_before.get(field, ())), *(keep(file) for file in files)]
        photos[field] = tuple({one.photo_id: one for one in came if one is not None}.values())
    return Received(photos, tuple(not_taken))


def _there(session: Session, sums: Sequence[str]) -> list[KeptPhoto]:
    found = (find_photo(session, sha256) for sha256 in sums if is_sha256(sha256))
    return [KeptPhoto(photo.id, photo.sha256, was_there=True) for photo in found if photo is not None]
