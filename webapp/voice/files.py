"""Sounds on disk, below the voice folder: kept byte for byte, named by their SHA-256 as pictures are."""

from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from webapp.photos.files import Received, drop, receive, settle
from webapp.photos.rules.names import is_sha256, original_name, own_name
from webapp.values.errors import BadInput
from webapp.voice.rules.sounds import HEAD, TAIL, media_type_of, refusal, wav_seconds


@dataclass(frozen=True, slots=True)
class KeptSound:
    """A sound that lies in the voice folder. `seconds`: where its own header says how long it is."""

    sha256: str
    size: int
    name: str
    media_type: str
    seconds: int | None


def keep_sound(voice: Path, file: BinaryIO, name: str, limit_mb: int) -> KeptSound:
    """Keep a sound byte for byte. Raises BadInput, with a sentence that names it, for what is none or too large."""
    name = own_name(name) or "voice note"
    received = receive(voice, file, name, limit_mb)
    try:
        head, tail = _ends(received)
        media_type = media_type_of(head, tail)
        if not media_type:
            raise BadInput(refusal(name, head, tail))
        settle(voice, received)
    finally:
        drop(received.path)
    seconds = wav_seconds(head, received.size) if media_type == "audio/wav" else None
    return KeptSound(received.sha256, received.size, name, media_type, seconds)


def _ends(received: Received) -> tuple[bytes, bytes]:
    with received.path.open("rb") as file:
        head = file.read(HEAD)
        file.seek(max(len(head), received.size - TAIL))
        return head, file.read(TAIL)


def find_sound(voice: Path, sha256: str) -> Path | None:
    """Where a kept sound lies; None when it is not there, or when this is no name of one."""
    path = voice / original_name(sha256) if is_sha256(sha256) else None
    return path if path and path.is_file() else None
