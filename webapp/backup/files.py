"""Copies on disk: a snapshot of the record, zip files written wholly or not at all, hashes of what lies there."""

import hashlib
import os
import shutil
import sqlite3
import zipfile
import zlib
from collections.abc import Iterator
from contextlib import closing
from dataclasses import replace
from datetime import datetime, timedelta
from pathlib import Path
from typing import IO

from webapp.backup.rules.keeping import CopyFacts, copy_name, read_copy_name
from webapp.backup.rules.manifest import (
    KEPT_FILE,
    MANIFEST,
    NOT_OURS,
    PICTURE,
    README,
    RECORD,
    Entry,
    Manifest,
    read_manifest,
    readme,
    refuse_other_files,
    write_manifest,
)
from webapp.values.errors import BadInput

PIECE = 1 << 20
MANIFEST_AT_MOST = 64 << 20
RECORD_BEGINS = b"SQLite format 3\0"
"""the first 16 bytes of every SQLite file (SQLite, "Database File Format", 1.3.1)"""
SPARE = 50 * 10**6
"""bytes that stay free on the disk: a full disk stops the record itself"""


def snapshot(record: Path, to: Path) -> None:
    """A steady copy of the record while others go on reading and writing it (SQLite, VACUUM INTO)."""
    with closing(sqlite3.connect(record)) as connection:
        connection.execute("VACUUM INTO ?", (str(to),))


def is_record(file: Path) -> bool:
    """Whether it is a record by itself, as it is kept before each change of the tables, and no zip."""
    if not file.is_file():
        return False
    with file.open("rb") as begun:
        return begun.read(len(RECORD_BEGINS)) == RECORD_BEGINS


def list_pictures(data: Path) -> Iterator[tuple[str, Path]]:
    """Name inside a copy, and path, of each original and each published picture. Smaller ones are made anew."""
    for kind in ("originals", "public"):
        for path in sorted((data / "photos" / kind).rglob("*")):
            name = path.relative_to(data).as_posix()
            if PICTURE.fullmatch(name) and path.is_file():
                yield name, path


def list_kept(data: Path, folder: str) -> Iterator[tuple[str, Path]]:
    """Name inside a copy, and path, of each file kept as it came in a folder of `KEPT`: papers, voice notes."""
    for path in sorted((data / folder / "originals").rglob("*")):
        name = path.relative_to(data).as_posix()
        if KEPT_FILE.fullmatch(name) and path.is_file():
            yield name, path


def hash_file(path: Path) -> str:
    with path.open("rb") as file:
        return hashlib.file_digest(file, "sha256").hexdigest()


def refuse_full_disk(folder: Path, needed: int) -> None:
    free = shutil.disk_usage(folder).free
    if free < needed + SPARE:
        raise BadInput(
            f"The disk of {folder} has {free // 10**6} MB left and {needed // 10**6 + 1} MB are needed. Make room, "
            "or take another disk."
        )


def write_copy(to: Path, draft: Manifest, record: Path, pictures: list[tuple[str, Path]]) -> Manifest:
    """Write the zip beside `to` under a passing name and move it there when all of it is on the disk.

    `draft` without files; the manifest with them is returned and is the last file written.
    """
    passing = to.with_name(f"{to.name}.part")
    try:
        with passing.open("wb") as file:
            with zipfile.ZipFile(file, "w", zipfile.ZIP_DEFLATED) as copy:
                manifest = _fill(copy, draft, record, pictures)
            file.flush()
            os.fsync(file.fileno())
        passing.replace(to)
        _settle(to.parent)
    finally:
        passing.unlink(missing_ok=True)
    return manifest


def _fill(copy: zipfile.ZipFile, draft: Manifest, record: Path, pictures: list[tuple[str, Path]]) -> Manifest:
    entries = [_add(copy, RECORD, record, zipfile.ZIP_DEFLATED)]
    entries += [_add(copy, name, path, zipfile.ZIP_STORED) for name, path in pictures]
    text = readme(replace(draft, files=tuple(entries))).encode()
    copy.writestr(README, text)
    entries.append(Entry(README, len(text), hashlib.sha256(text).hexdigest()))
    manifest = replace(draft, files=tuple(entries))
    copy.writestr(MANIFEST, write_manifest(manifest))
    return manifest


def _add(copy: zipfile.ZipFile, name: str, path: Path, packing: int) -> Entry:
    digest, size = hashlib.sha256(), 0
    info = zipfile.ZipInfo.from_file(path, name, strict_timestamps=False)
    info.compress_type = packing
    with path.open("rb") as source, copy.open(info, "w", force_zip64=True) as target:
        while piece := source.read(PIECE):
            digest.update(piece)
            size += len(piece)
            target.write(piece)
    return Entry(name, size, digest.hexdigest())


def _settle(folder: Path) -> None:
    """Make the new name itself last through a power cut; Windows has no such call and needs none."""
    if os.name == "posix":
        number = os.open(folder, os.O_RDONLY)
        try:
            os.fsync(number)
        finally:
            os.close(number)


def unpack(file: Path, into: Path) -> Manifest:
    """Unpack a copy into the empty folder `into`, checking each file against the manifest on the way.

    Raises BadInput with a sentence when one byte is not as it was written.
    """
    try:
        with zipfile.ZipFile(file) as copy:
            manifest = _manifest_of(copy)
            refuse_full_disk(into, sum(entry.size for entry in manifest.files))
            for entry in manifest.files:
                _take_out(copy, entry, into / entry.name)
            return manifest
    except FileNotFoundError:
        raise BadInput(f"There is no file {file}.") from None
    except (zipfile.BadZipFile, EOFError, NotImplementedError, RuntimeError, OSError) as error:
        raise BadInput(f"{NOT_OURS} ({error})") from error


def _manifest_of(copy: zipfile.ZipFile) -> Manifest:
    if MANIFEST not in copy.namelist() or copy.getinfo(MANIFEST).file_size > MANIFEST_AT_MOST:
        raise BadInput(NOT_OURS)
    manifest = read_manifest(copy.read(MANIFEST).decode("utf-8", "replace"))
    refuse_other_files(manifest, copy.namelist())
    return manifest


def _take_out(copy: zipfile.ZipFile, entry: Entry, to: Path) -> None:
    to.parent.mkdir(parents=True, exist_ok=True)
    digest, size = hashlib.sha256(), 0
    try:
        with copy.open(entry.name) as source, to.open("wb") as target:
            while size <= entry.size and (piece := source.read(PIECE)):
                digest.update(piece)
                size += len(piece)
                target.write(piece)
            _flush(target)
    except (zipfile.BadZipFile, zlib.error, EOFError):
        size = -1
    if size != entry.size or digest.hexdigest() != entry.sha256:
        raise BadInput(
            f"{entry.name} in this copy is not as it was written. Nothing was brought back; try an older copy."
        )


def _flush(file: IO[bytes]) -> None:
    file.flush()
    os.fsync(file.fileno())


def list_copies(backups: Path) -> tuple[CopyFacts, ...]:
    """The copies in the folder, the newest first."""
    found = (read_copy_name(path.name, path.stat().st_size) for path in backups.glob("*.zip"))
    return tuple(sorted((copy for copy in found if copy), key=lambda copy: copy.made_at, reverse=True))


def free_name(backups: Path, daily: bool, moment: datetime) -> Path:
    """Where a copy of this moment is written: no copy is ever written over."""
    while (path := backups / copy_name(moment, daily)).exists():
        moment += timedelta(seconds=1)
    return path


def let_go(backups: Path, names: tuple[str, ...]) -> None:
    for name in names:
        (backups / name).unlink(missing_ok=True)


def move_aside(data: Path, names: tuple[str, ...], aside: Path) -> None:
    """Move what is there of `names` into the folder `aside`; nothing is deleted."""
    for name in names:
        if (data / name).exists():
            aside.mkdir(parents=True, exist_ok=True)
            (data / name).rename(aside / name)


def bring_in(stage: Path, data: Path, names: tuple[str, ...]) -> None:
    for name in names:
        if (stage / name).exists():
            (stage / name).rename(data / name)
