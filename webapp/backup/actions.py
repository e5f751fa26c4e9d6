"""Make a copy, bring one back, look the data folder over, make one copy a day."""

import logging
import shutil
import sqlite3
import tempfile
import threading
from contextlib import closing
from dataclasses import dataclass
from datetime import UTC, datetime
from pathlib import Path

from webapp.backup import files, store
from webapp.backup.rules.keeping import is_due, to_let_go
from webapp.backup.rules.manifest import FORMAT, KEPT, RECORD, Manifest, refuse_other_rows
from webapp.core import migrating
from webapp.core.clock import now
from webapp.core.database import Database
from webapp.core.settings import Settings
from webapp.values.errors import BadInput
from webapp.values.words import plural

log = logging.getLogger("studbay")
AN_HOUR = 3600.0
RECORD_FILES = (RECORD, f"{RECORD}-wal", f"{RECORD}-shm")
_one_at_a_time = threading.Lock()


@dataclass(frozen=True, slots=True)
class Made:
    """A copy that was made, and what was noticed on the way."""

    path: Path
    size: int
    pictures: int
    rows: int
    notes: tuple[str, ...] = ()
    kept: tuple[tuple[str, int], ...] = ()
    """what else lies in it, and how many: papers, voice notes"""


@dataclass(frozen=True, slots=True)
class Restored:
    made_at: str
    pictures: int
    rows: int
    aside: Path | None
    """where the record that was there before lies now"""
    notes: tuple[str, ...] = ()


def make_copy(settings: Settings, daily: bool = False, to: Path | None = None) -> Made:
    """One file that brings everything back; a daily one holds the record and names the pictures beside it.

    Runs beside a server. Raises BadInput with a sentence: no record, no room, a damaged record, one being made already.
    """
    _refuse_nothing(settings)
    if not _one_at_a_time.acquire(blocking=False):
        raise BadInput("A copy is being made already. Wait for it, then look at the list.")
    try:
        return _make_copy(settings, daily, to or files.free_name(settings.backups, daily, now()))
    finally:
        _one_at_a_time.release()


def _refuse_nothing(settings: Settings) -> None:
    if not settings.database.exists():
        raise BadInput(f"There is no record in {settings.data}. Name its folder with --data.")


def _make_copy(settings: Settings, daily: bool, to: Path) -> Made:
    to.parent.mkdir(parents=True, exist_ok=True)
    with tempfile.TemporaryDirectory(prefix="copying-", dir=to.parent) as folder:
        record = Path(folder) / RECORD
        # The record first: a picture is on the disk before its row is, so every row of the snapshot finds its file.
        files.snapshot(settings.database, record)
        with store.looking_at(record) as connection:
            _refuse_faults(connection, "The record is damaged")
            rows, shas = store.count_rows(connection), store.list_picture_hashes(connection)
            tables, known = store.tables_number(connection), store.list_kept_hashes(connection)
        kept = [] if daily else list(files.list_pictures(settings.data))
        beside = {folder: [] if daily else list(files.list_kept(settings.data, folder)) for folder in KEPT}
        kept += [file for found in beside.values() for file in found]
        files.refuse_full_disk(to.parent, record.stat().st_size + sum(path.stat().st_size for _, path in kept))
        made_at = now().astimezone(UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
        draft = Manifest(FORMAT, made_at, tables, not daily, rows, (), shas if daily else ())
        manifest = files.write_copy(to, draft, record, kept)
    named = {"photos": ("picture", shas)} | {folder: (what, known[folder]) for folder, what in KEPT.items()}
    notes = () if daily else tuple(note for folder, of in named.items() for note in _notes(manifest, folder, *of))
    pictures = sum(name.startswith("photos/") for name, _ in kept)
    others = tuple((what, len(beside[folder])) for folder, what in KEPT.items())
    return Made(to, to.stat().st_size, pictures, sum(rows.values()), notes, others)


def _refuse_faults(connection: sqlite3.Connection, heading: str) -> None:
    if faults := store.list_faults(connection):
        raise BadInput(f"{heading}: {'; '.join(faults[:3])}.")


def _notes(manifest: Manifest, folder: str, what: str, shas: tuple[str, ...]) -> tuple[str, ...]:
    """Pictures, papers or voice notes that the record knows and that are not in the copy as they were taken in."""
    own = [entry for entry in manifest.files if entry.name.startswith(f"{folder}/originals/")]
    originals = {entry.name.rpartition("/")[2]: entry.sha256 for entry in own}
    missing = [sha for sha in shas if sha not in originals]
    changed = [sha for sha, found in originals.items() if sha != found]
    notes = []
    if missing:
        notes.append(f"{plural(len(missing), what)} of the record not on the disk, such as {missing[0][:12]}…")
    if changed:
        notes.append(f"{plural(len(changed), what)} not as taken in, such as {changed[0][:12]}…")
    return tuple(notes)


def restore(settings: Settings, file: Path, replace: bool = False) -> Restored:
    """Bring a copy back into the data folder; whoever calls holds the folder's lock.

    Everything is unpacked and checked in a folder of its own first. What was there is moved aside, never deleted.
    Raises BadInput or MigrationFailed with a sentence; the record that was there is then untouched.
    """
    if not replace:
        _refuse_record(settings)
    for stale in settings.data.glob("restoring-*"):
        shutil.rmtree(stale)  # left by a restore that was cut off; the copy it came from is still there
    stamp = f"{now():%Y%m%dT%H%M%SZ}"
    stage = settings.data / f"restoring-{stamp}"
    stage.mkdir(parents=True)
    try:
        manifest = _checked(settings, file, stage)
        aside = settings.data / f"before-restore-{stamp}"
        moved = (*RECORD_FILES, "photos", *KEPT) if manifest.whole else RECORD_FILES
        files.move_aside(settings.data, moved, aside)
        files.bring_in(stage, settings.data, moved)
    finally:
        shutil.rmtree(stage, ignore_errors=True)
    pictures = sum(entry.name.startswith("photos/originals/") for entry in manifest.files)
    notes = _not_there(settings.photos, "picture", manifest.beside)
    if not manifest.whole:
        with store.looking_at(settings.database) as connection:
            for folder, known in store.list_kept_hashes(connection).items():
                notes += _not_there(settings.data / folder, KEPT[folder], known)
    return Restored(manifest.made_at, pictures, sum(manifest.rows.values()), aside if aside.exists() else None, notes)


def _not_there(folder: Path, what: str, shas: tuple[str, ...]) -> tuple[str, ...]:
    gone = sum(not _original(folder, sha).exists() for sha in shas)
    return (f"{plural(gone, what)} that it names not in {folder}.",) if gone else ()


def _original(folder: Path, sha: str) -> Path:
    return folder / "originals" / sha[:2] / sha


def _refuse_record(settings: Settings) -> None:
    if not settings.database.exists():
        return
    try:
        with store.looking_at(settings.database) as connection:
            empty = store.is_empty(connection)
    except sqlite3.DatabaseError:
        empty = False
    if not empty:
        raise BadInput(
            f"The folder {settings.data} holds a record of its own. Name an empty folder with --data, or add "
            "--replace: what is there is then moved aside, nothing is deleted."
        )


def _checked(settings: Settings, file: Path, stage: Path) -> Manifest:
    """The copy unpacked into `stage`, sound to the last byte, its tables those of this version."""
    manifest = _taken_over(file, stage) if files.is_record(file) else files.unpack(file, stage)
    with store.looking_at(stage / RECORD) as connection:
        _refuse_faults(connection, "The record in this copy is damaged")
        refuse_other_rows(manifest, store.count_rows(connection))
    migrating.upgrade(stage / RECORD, settings.backups)
    if manifest.whole:
        with closing(sqlite3.connect(stage / RECORD)) as connection, connection:
            # Smaller pictures are not in a copy; they are made anew from the originals.
            connection.execute("UPDATE photos_photo SET made = 'waiting' WHERE made = 'ready'")
    return manifest


def _taken_over(file: Path, stage: Path) -> Manifest:
    """A bare record, kept before a change of the tables or moved aside, brought into `stage`; its pictures lie beside.

    It has no list of hashes, so SQLite itself looks it over. Raises BadInput for a damaged or a foreign one.
    """
    files.refuse_full_disk(stage, file.stat().st_size)
    try:
        with store.looking_at(file) as connection:
            _refuse_faults(connection, f"The record {file.name} is damaged")
            tables = store.tables_number(connection)
            rows, shas = store.count_rows(connection), store.list_picture_hashes(connection)
        if not tables:
            raise BadInput(f"The file {file.name} is an SQLite file, but no record kept by Studbay.")
        files.snapshot(file, stage / RECORD)
    except sqlite3.Error as error:
        raise BadInput(f"The record {file.name} cannot be read ({error}). Nothing was brought back.") from error
    made_at = datetime.fromtimestamp(file.stat().st_mtime, UTC).strftime("%Y-%m-%dT%H:%M:%SZ")
    return Manifest(FORMAT, made_at, tables, whole=False, rows=rows, files=(), beside=shas)


def keep_daily(database: Database, settings: Settings, stop: threading.Event, every: float = AN_HOUR) -> None:
    """Look every hour whether a copy is due, until `stop` is set. A failure is logged and tried again."""
    while True:
        try:
            copy_if_due(database, settings)
        except (BadInput, OSError, sqlite3.Error) as error:
            log.warning("No daily copy was made: %s", error)
        if stop.wait(every):
            return


def copy_if_due(database: Database, settings: Settings) -> Made | None:
    """The daily copy, when one is due; older ones that may go are let go afterwards, never before."""
    daily = [copy.made_at for copy in files.list_copies(settings.backups) if copy.daily]
    if not is_due(max(daily, default=None), database.changed_at, now()):
        return None
    made = make_copy(settings, daily=True)
    files.let_go(settings.backups, to_let_go(files.list_copies(settings.backups), settings.keep_copies))
    return made


@dataclass(frozen=True, slots=True)
class Finding:
    """One sentence about the data folder, and whether it is well."""

    sentence: str
    well: bool = True


def look_over(settings: Settings) -> tuple[Finding, ...]:
    """Everything `studbay check` says; reads only, and may run beside a server. Raises BadInput without a record."""
    _refuse_nothing(settings)
    with store.looking_at(settings.database) as connection:
        if faults := store.list_faults(connection):
            return tuple(Finding(f"The record is damaged: {fault}.", well=False) for fault in faults)
        rows = store.count_rows(connection)
        links = store.list_dangling_needs(connection)
        shas, public = store.list_picture_hashes(connection), store.list_public_names(connection)
        kept = store.list_kept_hashes(connection)
    return (
        Finding(f"The record is sound: {plural(sum(rows.values()), 'row')} in {plural(len(rows), 'table')}."),
        _standing(settings),
        *(Finding(f"A link leads nowhere: {link}.", well=False) for link in links),
        *_look_at_pictures(settings, shas, public),
        *(finding for folder, known in kept.items() for finding in _look_at_kept(settings, folder, known)),
        _newest(settings),
    )


def _standing(settings: Settings) -> Finding:
    where = migrating.standing(settings.database)
    if not where.known:
        return Finding("The record was written by a newer Studbay. Install that version or newer.", well=False)
    if where.pending:
        return Finding("The tables are of an older version; they are brought up at the next start, after a copy.")
    return Finding("The tables are those of this version.")


def _look_at_pictures(settings: Settings, shas: tuple[str, ...], public: tuple[str, ...]) -> list[Finding]:
    found = dict(files.list_pictures(settings.data))
    findings = []
    for sha in shas:
        path = found.pop(f"photos/originals/{sha[:2]}/{sha}", None)
        if path is None:
            findings.append(Finding(f"A picture is missing: {_original(settings.photos, sha)}", well=False))
        elif files.hash_file(path) != sha:
            findings.append(Finding(f"A picture is not as it was taken in: {path}", well=False))
    for name in public:
        found.pop(f"photos/public/{name}-320.webp", None)
        if found.pop(f"photos/public/{name}.webp", None) is None:
            findings.append(Finding(f"A published picture is missing: photos/public/{name}.webp", well=False))
    said = f"{plural(len(shas), 'picture')} and {plural(len(public), 'published picture')} in the record."
    findings += [Finding(f"No row knows this file; it does no harm: {path}") for path in found.values()]
    return [Finding(said), *findings]


def _look_at_kept(settings: Settings, folder: str, shas: tuple[str, ...]) -> list[Finding]:
    found, what = dict(files.list_kept(settings.data, folder)), KEPT[folder]
    findings = [Finding(f"{plural(len(shas), what)} kept as a file in the record.")] if shas else []
    for sha in shas:
        path = found.pop(f"{folder}/originals/{sha[:2]}/{sha}", None)
        if path is None:
            findings.append(Finding(f"A {what} is missing: {_original(settings.data / folder, sha)}", well=False))
        elif files.hash_file(path) != sha:
            findings.append(Finding(f"A {what} is not as it was taken in: {path}", well=False))
    return findings + [Finding(f"No row knows this file; it does no harm: {path}") for path in found.values()]


def _newest(settings: Settings) -> Finding:
    whole = [copy.made_at for copy in files.list_copies(settings.backups) if not copy.daily]
    if not whole:
        return Finding(f"There is no whole copy in {settings.backups} yet. Make one with: studbay backup", well=False)
    return Finding(f"The newest whole copy is of {_local(max(whole))}.")


def _local(moment: datetime) -> str:
    return f"{moment.astimezone():%Y-%m-%d %H:%M}"
