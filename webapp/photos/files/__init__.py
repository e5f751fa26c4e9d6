"""Pictures on disk, below the photos folder: originals/, derived/, public/ and, for minutes at most, incoming/."""

from webapp.photos.files.disk import Received, drop, receive, settle, write_whole
from webapp.photos.files.encoding import Encoded, as_jpeg, encode, make_derived
from webapp.photos.files.looking import Looked, look_at

__all__ = [
    "Encoded",
    "Looked",
    "Received",
    "as_jpeg",
    "drop",
    "encode",
    "look_at",
    "make_derived",
    "receive",
    "settle",
    "write_whole",
]
