"""The words typed beside boxes and runs become circuits and lines of their own when a record is brought up to date."""

import shutil
import sqlite3
from contextlib import closing

import pytest

from webapp import paths
from webapp.core import migrating

WORDS = """
INSERT INTO plan_build VALUES (1, 'shed', 'Shed', '', 'ft-in', 'USD', '2026-05-16');
INSERT INTO plan_build VALUES (2, 'barn', 'Barn', '', 'ft-in', 'USD', '2026-05-16');
INSERT INTO surfaces_surface (id, build_id, position, code, name, kind, origin_corner, framing, bearing, facing,
    closed_by, note, needs_count) VALUES (1, 1, 1, 'E', 'East', 'wall', '', '', 0, 'E', '', '', 0),
    (2, 2, 1, 'E', 'East', 'wall', '', '', 0, 'E', '', '', 0);
INSERT INTO surfaces_item (id, surface_id, label, kind, service, circuit, from_corner, note, is_box) VALUES
    (1, 1, 'Box', 'receptacle', 'electric', 'C1', '', '', 1),
    (2, 1, 'Box', 'receptacle', 'electric', 'bench receptacles, north', '', '', 1),
    (3, 1, 'Cleat', 'blocking', 'framing', '', '', '', 0),
    (4, 2, 'Box', 'receptacle', 'electric', 'C1', '', '', 1);
INSERT INTO surfaces_run (id, surface_id, label, tag, service, points, note) VALUES
    (1, 1, 'Cable', 'c1', 'electric', '[[1, 1], [2, 2]]', ''), (2, 1, 'Pipe', 'CW', 'water', '[[1, 1], [2, 2]]', '');
INSERT INTO surfaces_picture_slot (id, surface_id, position, number, picture_set, what, strength)
    VALUES (1, 1, 1, 1, 'before', 'Whole wall', 'must');
"""


@pytest.fixture
def old(tmp_path):
    """A record at 0002 with words beside its things."""
    before = tmp_path / "migrations"
    shutil.copytree(paths.MIGRATIONS, before, ignore=shutil.ignore_patterns("000[3-9]*", "__pycache__"))
    file = tmp_path / "studbay.sqlite3"
    migrating.upgrade(file, tmp_path / "backups", before)
    with closing(sqlite3.connect(file)) as connection, connection:
        connection.executescript(WORDS)
    return file


def ask(file, statement):
    with closing(sqlite3.connect(file)) as connection:
        return connection.execute(statement).fetchall()


def test_each_word_becomes_one_line_of_its_own_build_and_its_things_belong_to_it(old):
    migrating.upgrade(old, old.parent / "backups")
    assert ask(old, "SELECT build_id, code, name, kind FROM surfaces_line ORDER BY id") == [
        (1, "C1", "C1", "circuit"),
        (1, "L1", "bench receptacles, north", "circuit"),
        (2, "C1", "C1", "circuit"),
        (1, "CW", "CW", "water"),
    ]
    items = "SELECT i.id, l.name, l.build_id FROM surfaces_item i LEFT JOIN surfaces_line l ON l.id = i.line_id"
    assert ask(old, f"{items} ORDER BY i.id") == [
        (1, "C1", 1),
        (2, "bench receptacles, north", 1),
        (3, None, None),
        (4, "C1", 2),
    ]
    runs = "SELECT r.id, l.code FROM surfaces_run r JOIN surfaces_line l ON l.id = r.line_id ORDER BY r.id"
    assert ask(old, runs) == [(1, "C1"), (2, "CW")]


def test_tables_made_anew_keep_their_checks(old):
    migrating.upgrade(old, old.parent / "backups")
    for statement in (
        "UPDATE surfaces_picture_slot SET strength = 'maybe'",
        "UPDATE surfaces_picture_slot SET picture_set = 'later'",
        "UPDATE surfaces_surface SET kind = 'roof'",
    ):
        with pytest.raises(sqlite3.IntegrityError, match="CHECK"):
            ask(old, statement)
