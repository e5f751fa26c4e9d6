"""Reading a record that may be old, foreign or damaged: by SQL on names of tables, so no model has to fit."""

import sqlite3
from collections.abc import Iterator, Mapping
from contextlib import closing, contextmanager
from pathlib import Path

NEEDED_TABLES = {
    "task": "plan_task",
    "inspection": "inspections_inspection",
    "correction": "inspections_correction",
    "question": "surfaces_question",
    "shot": "footage_shot",
    "pictures": "surfaces_surface",
    "permit": "inspections_permit",
}
"""kind of a need to the table that its id belongs to"""
KEPT_IN = {"papers": ("papers_paper", "file_sha256"), "voice": ("voice_note", "sha256")}
"""folder of files kept as they came to the table and column that name them"""
PASSING = ("accounts_", "core_", "alembic_")
"""tables whose rows make no record yet: the owner, what a phone sent, the number of the migration"""


@contextmanager
def looking_at(record: Path) -> Iterator[sqlite3.Connection]:
    """A connection that cannot write."""
    with closing(sqlite3.connect(record)) as connection:
        connection.execute("PRAGMA query_only=ON")
        yield connection


def list_tables(connection: sqlite3.Connection) -> tuple[str, ...]:
    found = connection.execute("SELECT name FROM sqlite_master WHERE type = 'table' AND name NOT LIKE 'sqlite_%'")
    return tuple(sorted(name for (name,) in found))


def count_rows(connection: sqlite3.Connection) -> Mapping[str, int]:
    return {
        name: connection.execute(f'SELECT count(*) FROM "{name}"').fetchone()[0]  # noqa: S608 (names from the schema)
        for name in list_tables(connection)
    }


def is_empty(connection: sqlite3.Connection) -> bool:
    """Whether no build was ever written down here."""
    return not any(count for name, count in count_rows(connection).items() if not name.startswith(PASSING))


def list_faults(connection: sqlite3.Connection) -> tuple[str, ...]:
    """What SQLite itself finds wrong: broken pages, rows that point at nothing."""
    try:
        found = [text for (text,) in connection.execute("PRAGMA integrity_check(20)") if text != "ok"]
        broken = connection.execute("PRAGMA foreign_key_check").fetchall()
    except sqlite3.DatabaseError as error:
        return (str(error),)
    return (
        *found,
        *(f"{table}: row {row} points at a row of {other} that is not there" for table, row, other, _ in broken),
    )


def tables_number(connection: sqlite3.Connection) -> str:
    """Number of the last migration; empty where none ran."""
    if "alembic_version" not in list_tables(connection):
        return ""
    found = connection.execute("SELECT version_num FROM alembic_version").fetchone()
    return str(found[0]) if found else ""


def list_picture_hashes(connection: sqlite3.Connection) -> tuple[str, ...]:
    if "photos_photo" not in list_tables(connection):
        return ()
    return tuple(sha for (sha,) in connection.execute("SELECT sha256 FROM photos_photo ORDER BY sha256"))


def list_kept_hashes(connection: sqlite3.Connection) -> Mapping[str, tuple[str, ...]]:
    """Folder of `KEPT` to the SHA-256 of each file that the record knows to lie there."""
    there = list_tables(connection)
    found = {}
    for folder, (table, column) in KEPT_IN.items():
        asked = f"SELECT DISTINCT {column} FROM {table} WHERE {column} != '' ORDER BY 1"  # noqa: S608 (names are ours)
        found[folder] = tuple(sha for (sha,) in connection.execute(asked)) if table in there else ()
    return found


def list_public_names(connection: sqlite3.Connection) -> tuple[str, ...]:
    if "audience_picture" not in list_tables(connection):
        return ()
    return tuple(name for (name,) in connection.execute("SELECT name FROM audience_picture ORDER BY name"))


def list_dangling_needs(connection: sqlite3.Connection) -> tuple[str, ...]:
    """Needs whose one end is not there: no foreign key can hold an id whose table hangs on its kind."""
    tables = list_tables(connection)
    if "plan_need" not in tables:
        return ()
    found = []
    for side in ("what", "needs"):
        for kind, table in NEEDED_TABLES.items():
            if table in tables:
                statement = (
                    f"SELECT id, {side}_id FROM plan_need WHERE {side}_kind = ? "  # noqa: S608 (names are ours)
                    f"AND {side}_id NOT IN (SELECT id FROM {table}) ORDER BY id"
                )
                found += [
                    f"need {need} names the {kind} {number}, which is not there"
                    for need, number in connection.execute(statement, (kind,))
                ]
    return tuple(found)
