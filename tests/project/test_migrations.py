"""Migrations: an empty record becomes what the models say, an old one loses no row, a failure changes nothing."""

import ast
import sqlite3
import subprocess
import sys
from contextlib import closing
from pathlib import Path

import pytest
from alembic import command
from alembic.config import Config
from sqlalchemy import create_engine

from webapp import paths
from webapp.core import migrating
from webapp.core.migrating import MigrationFailed

PARENT = """
def upgrade():
    op.create_table("phase", sa.Column("id", sa.Integer(), primary_key=True), sa.Column("title", sa.String()))
    op.create_table("task", sa.Column("id", sa.Integer(), primary_key=True),
        sa.Column("phase_id", sa.Integer(), sa.ForeignKey("phase.id", ondelete="CASCADE"), nullable=False))
"""
BATCH_CHANGE = """
def upgrade():
    with op.batch_alter_table("phase") as batch:
        batch.alter_column("title", existing_type=sa.String(), nullable=False)
        batch.add_column(sa.Column("purpose", sa.String(), server_default="", nullable=False))
"""
LOSES_ROWS = """
def upgrade():
    op.add_column("phase", sa.Column("note", sa.String()))
    op.execute("DELETE FROM task WHERE id > 5")
"""
LEAVES_ORPHANS = """
def upgrade():
    op.execute("UPDATE task SET phase_id = 99 WHERE id = 1")
"""
BREAKS = """
def upgrade():
    op.add_column("phase", sa.Column("note", sa.String()))
    op.execute("UPDATE nowhere SET a = 1")
"""


def scratch(folder: Path, *bodies: str) -> Path:
    """A migrations folder with our own env.py and one numbered migration for each body."""
    versions = folder / "versions"
    versions.mkdir(parents=True, exist_ok=True)
    (folder / "env.py").write_text((paths.MIGRATIONS / "env.py").read_text())
    for number, body in enumerate(bodies, 1):
        down = f'"{number - 1:04d}"' if number > 1 else "None"
        head = f'import sqlalchemy as sa\nfrom alembic import op\nrevision = "{number:04d}"\ndown_revision = {down}\n'
        (versions / f"{number:04d}_step.py").write_text(f"{head}branch_labels = None\ndepends_on = None\n{body}")
    return folder


def ask(file: Path, statement: str) -> list[tuple]:
    with closing(sqlite3.connect(file)) as connection:
        return connection.execute(statement).fetchall()


def everything(file: Path) -> list[str]:
    with closing(sqlite3.connect(file)) as connection:
        return list(connection.iterdump())


@pytest.fixture
def old_record(tmp_path):
    """A record at 0001 with one phase and ten tasks."""
    file = tmp_path / "studbay.sqlite3"
    migrating.upgrade(file, tmp_path / "backups", scratch(tmp_path / "old", PARENT))
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("INSERT INTO phase VALUES (1, 'Board')")
        connection.executemany("INSERT INTO task VALUES (?, 1)", [(number,) for number in range(1, 11)])
    return file


def upgrade(file: Path, *bodies: str) -> Path | None:
    return migrating.upgrade(file, file.parent / "backups", scratch(file.parent / "new", PARENT, *bodies))


def test_an_empty_record_becomes_what_the_models_say():
    """`alembic check` (its documentation, "Running alembic check"): no difference may be left between the two."""
    done = subprocess.run(
        [sys.executable, "-m", "alembic", "check"], cwd=paths.ROOT, capture_output=True, text=True, check=False
    )
    assert done.returncode == 0, done.stdout + done.stderr


def test_a_fresh_record_needs_no_copy(tmp_path):
    assert migrating.upgrade(tmp_path / "studbay.sqlite3", tmp_path / "backups") is None
    assert migrating.standing(tmp_path / "studbay.sqlite3").pending is False
    assert not (tmp_path / "backups").exists()


def test_a_rebuilt_parent_keeps_every_child(old_record):
    """With foreign keys on, the same change deletes all ten tasks: the drop of the old table cascades
    (SQLite, "Foreign key support", section 5)."""
    upgrade(old_record, BATCH_CHANGE)
    assert ask(old_record, "SELECT count(*) FROM task") == [(10,)]
    assert ask(old_record, "SELECT title, purpose FROM phase") == [("Board", "")]
    assert ask(old_record, "PRAGMA foreign_key_check") == []


def test_the_trap_is_real_with_foreign_keys_on(old_record):
    """The check of the check: done by hand with keys on, the rebuild loses the children."""
    with closing(sqlite3.connect(old_record, isolation_level=None)) as connection:
        connection.execute("PRAGMA foreign_keys=ON")
        connection.executescript(
            "CREATE TABLE other (id INTEGER PRIMARY KEY, title VARCHAR NOT NULL);"
            "INSERT INTO other SELECT * FROM phase; DROP TABLE phase;"
            "ALTER TABLE other RENAME TO phase;"
        )
    assert ask(old_record, "SELECT count(*) FROM task") == [(0,)]


def test_a_copy_is_made_before_anything_changes(old_record):
    before = everything(old_record)
    copy = upgrade(old_record, BATCH_CHANGE)
    assert copy is not None
    assert copy.parent == old_record.parent / "backups"
    assert everything(copy) == before


@pytest.mark.parametrize(
    ("body", "sentence"), [(LOSES_ROWS, "task: 10 rows before, 5 after"), (LEAVES_ORPHANS, "1 row would point at")]
)
def test_a_change_that_would_lose_something_is_refused_and_leaves_all_as_it_was(old_record, body, sentence):
    before = everything(old_record)
    with pytest.raises(MigrationFailed, match=sentence):
        upgrade(old_record, BATCH_CHANGE, body)
    assert everything(old_record) == before
    assert ask(old_record, "SELECT version_num FROM alembic_version") == [("0001",)]


def test_a_change_that_breaks_half_way_leaves_all_as_it_was(old_record):
    before = everything(old_record)
    with pytest.raises(MigrationFailed, match="nowhere"):
        upgrade(old_record, BATCH_CHANGE, BREAKS)
    assert everything(old_record) == before


def test_a_record_of_a_newer_version_is_left_alone(old_record):
    with closing(sqlite3.connect(old_record)) as connection, connection:
        connection.execute("UPDATE alembic_version SET version_num = '9999'")
    before = everything(old_record)
    with pytest.raises(MigrationFailed, match="newer Studbay"):
        upgrade(old_record, BATCH_CHANGE)
    assert everything(old_record) == before


def test_a_record_at_head_is_not_touched(old_record):
    written = old_record.stat().st_mtime_ns
    assert migrating.upgrade(old_record, old_record.parent / "backups", old_record.parent / "old") is None
    assert old_record.stat().st_mtime_ns == written
    assert not (old_record.parent / "backups").exists()


def test_migrations_are_frozen_and_import_nothing_of_ours():
    files = sorted((paths.MIGRATIONS / "versions").glob("*.py"))
    assert files
    for file in files:
        tree = ast.parse(file.read_text())
        names = {alias.name for node in ast.walk(tree) if isinstance(node, ast.Import) for alias in node.names}
        names |= {node.module or "" for node in ast.walk(tree) if isinstance(node, ast.ImportFrom)}
        assert {name.partition(".")[0] for name in names} <= {"alembic", "sqlalchemy"}, file.name


def test_migrations_are_numbered_in_a_row_and_say_why():
    for number, file in enumerate(sorted((paths.MIGRATIONS / "versions").glob("*.py")), 1):
        assert file.name.startswith(f"{number:04d}_")
        why = (ast.get_docstring(ast.parse(file.read_text())) or "").partition("Why:")[2]
        assert len(why.strip()) > 10, f"{file.name} does not say why"


def at_revision(file: Path, folder: Path, last: str) -> None:
    """The record at an older revision: the migrations up to it, run as they are released."""
    kept = folder / "versions"
    kept.mkdir(parents=True)
    (folder / "env.py").write_text((paths.MIGRATIONS / "env.py").read_text())
    for each in sorted((paths.MIGRATIONS / "versions").glob("*.py")):
        if each.name[:4] <= last:
            (kept / each.name).write_text(each.read_text())
    migrating.upgrade(file, file.parent / "backups", folder)


def back_to(file: Path, revision: str) -> None:
    config = Config()
    config.set_main_option("script_location", str(paths.MIGRATIONS))
    engine = create_engine(f"sqlite:///{file}")
    with engine.begin() as connection:
        config.attributes["connection"] = connection
        command.downgrade(config, revision)
    engine.dispose()


def some_permits(file: Path) -> None:
    """Three permits and an inspection, as 0003 has them."""
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute(
            "INSERT INTO plan_build (slug, name, what, length_unit, currency, made_at) "
            "VALUES ('b', 'B', '', 'mm', 'USD', '2026-05-16 09:00:00')"
        )
        permit = (
            "INSERT INTO inspections_permit (build_id, code, name, covers, number, lapse_days, lapse_rule, "
            "rule_source) VALUES (1, ?, 'Permit', '', '', ?, ?, ?)"
        )
        said = [
            ("BLD", 180, "since the last pass", "my permit"),
            ("ELE", None, "", "my guess"),
            ("PLB", None, "ask", "x"),
        ]
        connection.executemany(permit, said)
        connection.execute(
            "INSERT INTO inspections_inspection (build_id, permit_id, position, code, name, must_be_ready, "
            "notice_days, ask_by, who, before_what, source, holds_cover, renews_permit) "
            "VALUES (1, 1, 1, 'F', 'Framing', '', 2, '14:00', 'inspector', '', 'x', 1, 1)"
        )


def test_the_one_rule_of_a_permit_becomes_a_row_of_its_own_and_back(tmp_path):
    """0004: number, words and source are carried over; a permit that said nothing gets no rule."""
    file = tmp_path / "studbay.sqlite3"
    at_revision(file, tmp_path / "old", "0003")
    some_permits(file)
    migrating.upgrade(file, tmp_path / "backups")
    rules = "SELECT permit_id, kind, count, span, words, source FROM inspections_permit_rule ORDER BY permit_id"
    assert ask(file, rules) == [
        (1, "no approved visit", 180, "days", "since the last pass", "my permit"),
        (3, "no approved visit", None, "days", "ask", "x"),
    ]
    assert ask(file, "SELECT notice_days, ask_by FROM inspections_inspection") == [(2, "14:00")]
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.execute("UPDATE inspections_permit_rule SET span = 'months', count = 6 WHERE permit_id = 3")
        connection.execute("UPDATE inspections_inspection SET notice_days = NULL, ask_by = ''")
    back_to(file, "0003")
    assert ask(file, "SELECT code, lapse_days, lapse_rule, rule_source FROM inspections_permit ORDER BY id") == [
        ("BLD", 180, "since the last pass", "my permit"),
        ("ELE", None, "", "my guess"),
        ("PLB", None, "6 months. ask", "x"),
    ]
    assert ask(file, "SELECT notice_days, ask_by FROM inspections_inspection") == [(1, "15:30")]
    assert ask(file, "PRAGMA foreign_key_check") == []
