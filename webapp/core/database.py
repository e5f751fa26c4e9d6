"""The database: one file, one writer at a time, and the one place that commits.

Reading connections cannot write (`PRAGMA query_only`). Writing ones begin with BEGIN IMMEDIATE under one lock of this
process, since SQLite's own waiting is unfair and since a stale snapshot would fail in spite of any time-out.
"""

import sqlite3
import threading
from collections import OrderedDict
from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from datetime import UTC, datetime
from pathlib import Path
from typing import Any, TypeVar, cast

from sqlalchemy import Engine, Executable, create_engine, event
from sqlalchemy.pool import QueuePool
from sqlmodel import Session

from webapp.core import clock

Kept = TypeVar("Kept")
OLDEST_SQLITE = (3, 38)
KEPT_AT_MOST = 256


class Memory:
    """What was computed from the record, kept until the next commit: pages ask the same graph many times.

    Safe because one process does all writing (held by the lock file) and each commit moves the generation on.
    """

    def __init__(self) -> None:
        self._guard = threading.Lock()
        self._kept: OrderedDict[Any, tuple[int, Any]] = OrderedDict()
        self._working: dict[Any, threading.Lock] = {}

    def get(self, generation: int, key: Any, compute: Callable[[], Kept], worth: Callable[[Kept], bool]) -> Kept:
        with self._guard:
            held = self._kept.get(key)
            if held and held[0] >= generation:
                self._kept.move_to_end(key)
                return cast(Kept, held[1])
            working = self._working.setdefault(key, threading.Lock())
        with working:  # fifty readers after a write compute once, not fifty times
            held = self._kept.get(key)
            if held and held[0] >= generation:
                return cast(Kept, held[1])
            return self._keep(generation, key, compute, worth)

    def _keep(self, generation: int, key: Any, compute: Callable[[], Kept], worth: Callable[[Kept], bool]) -> Kept:
        kept = False
        try:
            value = compute()
            kept = worth(value)
            return value
        finally:
            with self._guard:
                if kept:
                    self._kept[key] = (generation, value)
                    self._kept.move_to_end(key)
                else:  # nor is the lock of what failed or is too large, there may be any number of such keys
                    self._kept.pop(key, None)
                    self._working.pop(key, None)
                while len(self._kept) > KEPT_AT_MOST:
                    self._working.pop(self._kept.popitem(last=False)[0], None)


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


class Database:
    """The open record. `reading()` and `writing()` give sessions; nothing else does."""

    def __init__(self, file: Path) -> None:
        if sqlite3.sqlite_version_info < OLDEST_SQLITE:
            raise RuntimeError(f"SQLite {sqlite3.sqlite_version} is too old; 3.38 or newer is needed.")
        self.file = file
        self.memory = Memory()
        self.generation = 0
        self.changed_at = self._file_time()
        self.after_commit: list[Callable[[], None]] = []
        """called after each commit, for work that is done beside the pages"""
        self._writer = threading.Lock()
        self._read = _engine(file, "BEGIN", query_only=True)
        self._write = _engine(file, "BEGIN IMMEDIATE", query_only=False)

    def _file_time(self) -> datetime:
        files = [name for name in (self.file, Path(f"{self.file}-wal")) if name.exists()]
        return datetime.fromtimestamp(max((name.stat().st_mtime for name in files), default=0), UTC)

    @contextmanager
    def reading(self) -> Iterator[Session]:
        """A session that cannot write, with one steady view of the record."""
        with Session(self._read, info={"database": self, "generation": self.generation}) as session:
            yield session

    @contextmanager
    def writing(self) -> Iterator[Session]:
        """A session that commits when the block ends and rolls back when it raises: wholly or not at all."""
        with self._writer, Session(self._write, info={"database": self}) as session:
            session.connection()  # takes the write lock before the first read, not at the first change
            yield session
            session.commit()
            self.generation += 1
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
    session: Session, key: Any, compute: Callable[[], Kept], worth: Callable[[Kept], bool] = _always
) -> Kept:
    """`compute()`, or what it gave since the last commit. Inside a writing session it is always computed afresh.

    What is not `worth` its room is given back and forgotten.
    """
    database: Database = session.info["database"]
    if "generation" not in session.info:
        return compute()
    return database.memory.get(session.info["generation"], key, compute, worth)
