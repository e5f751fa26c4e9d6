"""Papers that came as a file: kept byte for byte below the papers folder, named by their SHA-256 like pictures."""

from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

from webapp.papers.rules.pdf import TAIL, is_whole
from webapp.photos.files import Received, drop, receive, settle
from webapp.photos.rules.names import is_sha256, original_name, own_name
from webapp.values.errors import BadInput


@dataclass(frozen=True, slots=True)
class KeptFile:
    """A PDF that lies in the papers folder. `name`: as it was sent; `size` in bytes."""

    sha256: str
    name: str
    size: int


def keep_pdf(papers: Path, file: BinaryIO, name: str, limit_mb: int) -> KeptFile:
    """Keep a PDF byte for byte. Raises BadInput, with a sentence that names it, when it is too large or cut off."""
    name = own_name(name) or "paper.pdf"
    received = receive(papers, file, name, limit_mb)
    try:
        if not is_whole(_tail(received)):
            raise BadInput(f"“{name}” did not arrive whole: the mark at its end is missing. Send it again.")
        settle(papers, received)
    finally:
        drop(received.path)
    return KeptFile(received.sha256, name, received.size)


def _tail(received: Received) -> bytes:
    with received.path.open("rb") as file:
        file.seek(max(0, received.size - TAIL))
        return file.read(TAIL)


def find_file(papers: Path, sha256: str) -> Path | None:
    """Where a kept file lies; None when it is not there, or when this is no name of one."""
    path = papers / original_name(sha256) if is_sha256(sha256) else None
    return path if path and path.is_file() else None
