"""Bringing a record up to the tables of this version: on a connection of its own, after a copy, wholly or not at all.

SQLite changes a column by rebuilding its table. With foreign keys on, the drop in the middle of that silently deletes
every child row with ON DELETE CASCADE, and the pragma does nothing inside a transaction. So keys are off before BEGIN,
rows are counted before and after, and the keys are checked before the commit.
"""

import sqlite3
from collections.abc import Mapping
from dataclasses import dataclass
from pathlib import Path
from typing import Any

from alembic import command
from alembic.config import Config
from alembic.runtime.migration import MigrationContext
from alembic.script import ScriptDirectory
from sqlalchemy import Connection, Engine, create_engine, event
from sqlalchemy.exc import SQLAlchemyError
from sqlalchemy.pool import NullPool

from webapp import paths
from webapp.core import clock
from webapp.values.words import plural


class MigrationFailed(Exception):
    """The record was left as it was; the sentence says what stood in the way."""


@dataclass(frozen=True, slots=True)
class Standing:
    """Where a record's tables stand against this version's."""

    now: str | None
    head: str
    known: bool

    @property
    def pending(self) -> bool:
        return self.now != self.head


def make_config(migrations: Path = paths.MIGRATIONS) -> Config:
    config = Config()
    config.set_main_option("script_location", str(migrations).replace("%", "%%"))
    return config


def migration_engine(file: Path) -> Engine:
    engine = create_engine(f"sqlite:///{file}", poolclass=NullPool)

    @event.listens_for(engine, "connect")
    def connected(connection: Any, _record: Any) -> None:
        connection.isolation_level = None
        connection.execute("PRAGMA foreign_keys=OFF")
        connection.execute("PRAGMA synchronous=FULL")

    @event.listens_for(engine, "begin")
    def begun(connection: Any) -> None:
        connection.exec_driver_sql("BEGIN IMMEDIATE")

    return engine


def row_counts(connection: Connection) -> dict[str, int]:
    names = connection.exec_driver_sql(
        "SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%' AND name <> 'alembic_version'"
    ).scalars()
    return {
        name: connection.exec_driver_sql(f'SELECT count(*) FROM "{name}"').scalar_one()  # noqa: S608 (names from the schema)
        for name in list(names)
    }


def refuse_losses(before: Mapping[str, int], after: Mapping[str, int]) -> None:
    """Raises when a table that is still there has fewer rows than before."""
    lost = [
        f"{name}: {count} rows before, {after[name]} after"
        for name, count in before.items()
        if after.get(name, count) < count
    ]
    if lost:
        raise MigrationFailed(f"Rows would have been lost ({'; '.join(lost)}). Nothing was changed.")


def standing(file: Path, migrations: Path = paths.MIGRATIONS) -> Standing:
    script = ScriptDirectory.from_config(make_config(migrations))
    head = script.get_current_head() or ""
    if not file.exists():
        return Standing(None, head, known=True)
    with migration_engine(file).connect() as connection:
        now = MigrationContext.configure(connection).get_current_revision()
    known = now is None or now in {revision.revision for revision in script.walk_revisions()}
    return Standing(now, head, known)


def copy_before(file: Path, backups: Path, now: str | None) -> Path:
    """A whole copy of the record beside the others, made before its tables change."""
    backups.mkdir(parents=True, exist_ok=True)
    copy = backups / f"before-change-{now or 'none'}-{clock.now():%Y%m%dT%H%M%S%f}.sqlite3"
    with sqlite3.connect(file) as connection:
        connection.execute("VACUUM INTO ?", (str(copy),))
    connection.close()
    return copy


def upgrade(file: Path, backups: Path, migrations: Path = paths.MIGRATIONS) -> Path | None:
    """Bring the record at `file` to this version's tables; returns the copy made before, if one was needed.

    Raises MigrationFailed with a sentence; the record is then as it was.
    """
    where = standing(file, migrations)
    if not where.known:
        raise MigrationFailed("This record was written by a newer Studbay. Install that version or newer.")
    if not where.pending:
        return None
    copy = copy_before(file, backups, where.now) if where.now else None
    engine = migration_engine(file)
    try:
        with engine.begin() as connection:
            _change(connection, make_config(migrations))
    except SQLAlchemyError as error:
        raise MigrationFailed(f"The tables could not be changed ({error}). Nothing was changed.") from error
    finally:
        engine.dispose()
    return copy


def _change(connection: Connection, config: Config) -> None:
    """Run every pending migration; raises MigrationFailed, and the transaction around it then rolls all of it back."""
    before = row_counts(connection)
    config.attributes["connection"] = connection
    command.upgrade(config, "head")
    refuse_losses(before, row_counts(connection))
    broken = connection.exec_driver_sql("PRAGMA foreign_key_check").fetchall()
    if broken:
        raise MigrationFailed(
            f"{plural(len(broken), 'row')} would point at rows that are not there. Nothing was changed."
        )
