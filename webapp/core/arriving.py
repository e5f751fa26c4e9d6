"""Files that come before the form they belong to, each by itself, so that a line that drops costs one file only.

They lie in `arriving/` under the SHA-256 of their bytes until a form names them; what no form ever named is swept.
"""

import hashlib
import os
import re
import time
from collections.abc import AsyncIterator, Iterator
from contextlib import ExitStack, suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO
from uuid import uuid4

import anyio.to_thread

from webapp.core.forms import Upload
from webapp.values.errors import BadInput

NAMED = "arrived:"
"""before the name of a form's field: its value is `SHA-256 name` of a file that has arrived"""
UNCLAIMED_DAYS = 30
_SHA256 = re.compile(r"[0-9a-f]{64}")


class NotThere(Exception):
    """A form names a file that has not arrived or was swept: it is to be sent again."""


@dataclass(slots=True)
class Arrived:
    """An `Upload` that had arrived before its form."""

    filename: str | None
    file: BinaryIO
    size: int | None


async def take_in(folder: Path, chunks: AsyncIterator[bytes], limit: int) -> str:
    """Keep the bytes, on the disk before it returns, and give their SHA-256. Raises BadInput over `limit` or empty."""
    folder.mkdir(parents=True, exist_ok=True)
    path, digest, size = folder / f"{uuid4().hex}.part", hashlib.sha256(), 0
    try:
        with path.open("xb") as out:
            async for chunk in chunks:
                size += len(chunk)
                if size > limit:
                    raise BadInput(f"This file is larger than {limit // 1024 // 1024} MB, so it was not kept.")
                digest.update(chunk)
                out.write(chunk)
            if not size:
                raise BadInput("This file is empty.")
            out.flush()
            await anyio.to_thread.run_sync(os.fsync, out.fileno())
        path.replace(folder / digest.hexdigest())
    finally:
        path.unlink(missing_ok=True)
    return digest.hexdigest()


def _claimed(folder: Path, value: str, opened: ExitStack) -> Arrived:
    sha256, _, name = value.partition(" ")
    path = folder / sha256
    if not _SHA256.fullmatch(sha256) or not path.is_file():
        raise NotThere
    return Arrived(name or "file", opened.enter_context(path.open("rb")), path.stat().st_size)


def claim(folder: Path, items: list[tuple[str, str | Upload]], opened: ExitStack) -> Iterator[tuple[str, str | Upload]]:
    """The parts of a form, with the files that had arrived in the place of their names. Raises NotThere."""
    for name, value in items:
        if name.startswith(NAMED) and isinstance(value, str):
            yield name.removeprefix(NAMED), _claimed(folder, value, opened)
        else:
            yield name, value


def let_go(folder: Path, items: list[tuple[str, str | Upload]]) -> None:
    """Take away what a saved form had named: it lies in its own place now."""
    for name, value in items:
        if name.startswith(NAMED) and isinstance(value, str) and _SHA256.fullmatch(value[:64]):
            (folder / value[:64]).unlink(missing_ok=True)


def sweep(folder: Path) -> None:
    """Take away what nobody named for a month."""
    oldest = time.time() - UNCLAIMED_DAYS * 24 * 3600
    for path in folder.glob("*") if folder.is_dir() else ():
        with suppress(FileNotFoundError):
            if path.stat().st_mtime < oldest:
                path.unlink()
