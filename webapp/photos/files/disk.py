"""Originals on disk: received beside their final place, made durable, then moved in one step."""

import hashlib
import os
from contextlib import suppress
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO
from uuid import uuid4

from webapp.photos.rules.names import original_name
from webapp.values.errors import BadInput

CHUNK = 1024 * 1024


@dataclass(frozen=True, slots=True)
class Received:
    """A file that lies whole in `incoming/`."""

    path: Path
    sha256: str
    size: int


def sync_folder(folder: Path) -> None:
    """Make a new name in `folder` last: without this the name itself can be lost with the power."""
    handle = os.open(folder, os.O_RDONLY)
    try:
        os.fsync(handle)
    finally:
        os.close(handle)


def make_folder(folder: Path) -> None:
    """Make `folder` and what is missing above it, each new name durable."""
    if folder.is_dir():
        return
    make_folder(folder.parent)
    folder.mkdir(exist_ok=True)
    sync_folder(folder.parent)


def receive(photos: Path, file: BinaryIO, name: str, limit_mb: int) -> Received:
    """Copy `file` into `incoming/`, hashed on the way. Raises BadInput when it is empty or over `limit_mb`."""
    make_folder(photos / "incoming")
    path = photos / "incoming" / uuid4().hex
    digest, size, limit = hashlib.sha256(), 0, limit_mb * 1024 * 1024
    try:
        with path.open("xb") as out:
            while chunk := file.read(CHUNK):
                size += len(chunk)
                if size > limit:
                    raise BadInput(f"“{name}” is larger than {limit_mb} MB, so it was not kept.")
                digest.update(chunk)
                out.write(chunk)
            if not size:
                raise BadInput(f"“{name}” is empty.")
            out.flush()
            os.fsync(out.fileno())
    except BaseException:
        drop(path)
        raise
    return Received(path, digest.hexdigest(), size)


def drop(path: Path) -> None:
    """Take away what was received and is not wanted."""
    with suppress(FileNotFoundError):
        path.unlink()


def settle(photos: Path, received: Received) -> Path:
    """Move what was received to its place among the originals. The same bytes again change nothing."""
    target = photos / original_name(received.sha256)
    if target.exists():
        drop(received.path)
        return target
    make_folder(target.parent)
    received.path.replace(target)
    sync_folder(target.parent)
    return target


def write_whole(target: Path, body: bytes) -> None:
    """Write a file that is there wholly or not at all: beside it first, then in one step."""
    make_folder(target.parent)
    path = target.with_name(f".{uuid4().hex}")
    try:
        with path.open("xb") as out:
            out.write(body)
            out.flush()
            os.fsync(out.fileno())
        path.replace(target)
    except BaseException:
        drop(path)
        raise
    sync_folder(target.parent)
