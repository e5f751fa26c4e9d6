"""The files of a sent day, and what makes two sendings the same."""

from pathlib import Path

from sqlmodel import Session

from webapp.core.forms import Submitted
from webapp.core.once import digest_of
from webapp.workdays.actions import Received, keep_pictures
from webapp.workdays.rules.said import BLOCKS, PICTURES

FIELDS = (PICTURES, *(f"{block}_receipt" for block in BLOCKS))


def receive(session: Session, sent: Submitted, photos_dir: Path, limit_mb: int) -> Received:
    """Keep the pictures of the day and of its receipts, those sent now and those sent before."""
    files = {field: sent.files(field) for field in FIELDS}
    kept_before = {field: sent.texts(f"{field}_kept") for field in FIELDS}
    return keep_pictures(session, files, kept_before, photos_dir, limit_mb)


def digest_of_day(sent: Submitted, received: Received) -> str:
    """Over every text and the bytes of every picture; whether a picture came now or was kept before is all the same."""
    passing = {"sent_id", *received.hidden()}
    parts = [f"{name}={value}" for name in sorted(sent.names()) if name not in passing for value in sent.texts(name)]
    for field, kept in sorted(received.photos.items()):
        parts += [f"{field}={sha256}" for sha256 in sorted(one.sha256 for one in kept)]
    return digest_of([*parts, *received.not_taken])
