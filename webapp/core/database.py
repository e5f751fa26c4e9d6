"""The database: one file, one writer at a time, and the one place that commits.

Reading connections cannot write (`PRAGMA query_only`). Writing ones begin with BEGIN IMMEDIATE under one lock of this
process, since SQLite's own waiting is unfair and since a stale snapshot would fail in spite of any time-out.
"""

import functools
import sqlite3
import threading
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar

from sqlalchemy import Engine, Executable, create_engine, event
from sqlalchemy.pool import QueuePool
from sqlmodel import Session

from webapp.core import clock
from webapp.core.memory import READS, Memory, View, note, tables_in

Kept = TypeVar("Kept")
OLDEST_SQLITE = (3, 38)


def _engine(file: Path, begin: str, query_only: bool) -> Engine:
    engine = create_engine(f"sqlite:///{file}", poolclass=QueuePool, pool_size=12, max_overflow=20)

    @event.listens_for(engine, "connect")
    def connected(connection: Any, _record: Any) -> None:
        connection.isolation_level = None
        for pragma in (
            "journal_mode=WAL",
            "synchronous=FULL",
            "foreign_keys=ON",
            "busy_timeout=5000",
            "cache_size=-20000",
            f"query_only={'ON' if query_only else 'OFF'}",
        ):
            connection.execute(f"PRAGMA {pragma}")

    @event.listens_for(engine, "begin")
    def begun(connection: Any) -> None:
        connection.exec_driver_sql(begin)

    return engine


def _asks(_connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
    note(tables_in(statement))


class Database:
    """The open record. `reading()` and `writing()` give sessions; nothing else does."""

    def __init__(self, file: Path) -> None:
        if sqlite3.sqlite_version_info < OLDEST_SQLITE:
            raise RuntimeError(f"SQLite {sqlite3.sqlite_version} is too old; 3.38 or newer is needed.")
        self.file = file
        self.memory = Memory()
        self.view = View(0, {})
        self.changed_at = self._file_time()
        self.after_commit: list[Callable[[], None]] = []
        """called after each commit, for work that is done beside the pages"""
        self._writer = threading.Lock()
        self._written: set[str] = set()
        self._read = _engine(file, "BEGIN", query_only=True)
        self._write = _engine(file, "BEGIN IMMEDIATE", query_only=False)
        event.listen(self._read, "before_cursor_execute", _asks)
        event.listen(self._write, "before_cursor_execute", self._writes)

    def _writes(self, _connection: Any, _cursor: Any, statement: str, *_rest: Any) -> None:
        if not READS.match(statement):
            self._written |= tables_in(statement)

    def _file_time(self) -> datetime:
        files = [name for name in (self.file, Path(f"{self.file}-wal")) if name.exists()]
        return datetime.fromtimestamp(max((name.stat().st_mtime for name in files), default=0), UTC)

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session that cannot write, with one steady view of the record."""
        with Session(self._read, info={"database": self, "view": self.view}) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """A session that commits when the block ends and rolls back when it raises: wholly or not at all."""
        with self._writer, Session(self._write, info={"database": self}) as session:
            session.connection()  # takes the write lock before the first read, not at the first change
            self._written = set()
            yield session
            session.commit()
            self.view = self.view.after(self._written)
            self.changed_at = clock.now()
        for call in tuple(self.after_commit):
            call()

    @contextmanager
    def still(self) -> Iterator[None]:
        """No commit happens inside this block: for copies and for folding the log into the file."""
        with self._writer:
            yield

    def engines(self) -> tuple[Engine, Engine]:
        """The reading and the writing engine, for counting queries and for tests of their settings."""
        return self._read, self._write

    def close(self) -> None:
        self._read.dispose()
        self._write.dispose()


def rows(session: Session, statement: Executable) -> Sequence[Any]:
    """All rows of a column select, without ORM objects: pages read this way, it is several times faster."""
    session.flush()
    return session.connection().execute(statement).all()


def _always(_value: Any) -> bool:
    return True


def remembered(
    session: Session,
    key: Any,
    compute: Callable[[], Kept],
    worth: Callable[[Kept], bool] = _always,
    *,
    each_commit: bool = False,
) -> Kept:
    """`compute()`, or what it gave since a table it reads was written. In a writing session always computed afresh.

    `key` says all that it rests on besides what it reads itself: what was read before, it cannot know. With
    `each_commit` it is computed again after every commit. What is not `worth` its room is given back and forgotten.
    """
    database: Database = session.info["database"]
    if "view" not in session.info:
        return compute()
    return database.memory.get(session.info["view"], key, compute, worth, each_commit)


def kept_list(listing: Callable[[Session, int], Kept]) -> Callable[[Session, int], Kept]:
    """For a list of one build by its id: read again only after a write to its own tables."""

    @functools.wraps(listing)
    def remembering(session: Session, build_id: int) -> Kept:
        return remembered(session, (listing, build_id), lambda: listing(session, build_id))

    return remembering
