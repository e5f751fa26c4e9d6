"""A copy brings everything back, to the byte; a damaged one brings nothing back and touches nothing."""

import hashlib
import sqlite3
import zipfile
from contextlib import closing
from dataclasses import replace
from datetime import timedelta

import pytest

from tests import builders
from webapp.backup import actions, files
from webapp.core import clock, migrating
from webapp.core.database import Database
from webapp.photos.models import Photo
from webapp.values.errors import BadInput


def a_picture(settings, database, content: bytes = b"a wall with a tape in it" * 4000):
    """The bytes on the disk and their row, as the package of pictures leaves them."""
    sha = hashlib.sha256(content).hexdigest()
    path = settings.photos / "originals" / sha[:2] / sha
    path.parent.mkdir(parents=True, exist_ok=True)
    path.write_bytes(content)
    with database.writing() as session:
        values = {"media_type": "image/jpeg", "size": len(content), "width": 4, "height": 3}
        session.add(Photo(sha256=sha, received_at=clock.now(), made="ready", **values))
    return path


@pytest.fixture
def record(settings, database, build):
    """A build with a phase, a task, a picture and a published picture."""
    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build))
    a_picture(settings, database)
    public = settings.photos / "public" / "kite.webp"
    public.parent.mkdir(parents=True)
    public.write_bytes(b"frozen")
    return settings


@pytest.fixture
def elsewhere(tmp_path, settings):
    """Settings of an empty folder on another disk, say."""
    return replace(settings, data=tmp_path / "elsewhere")


def dump(path) -> list[str]:
    with closing(sqlite3.connect(path)) as connection:
        return list(connection.iterdump())


def pictures(settings) -> dict[str, bytes]:
    return {name: path.read_bytes() for name, path in files.list_pictures(settings.data)}


def tree(folder) -> dict[str, bytes]:
    return {str(p.relative_to(folder)): p.read_bytes() for p in sorted(folder.rglob("*")) if p.is_file()}


def test_everything_comes_back_into_an_empty_folder(record, elsewhere):
    made = actions.make_copy(record)
    done = actions.restore(elsewhere, made.path)
    assert (done.pictures, done.aside, done.notes) == (1, None, ())
    assert pictures(elsewhere) == pictures(record)
    waiting = [
        line.replace("'ready'", "'waiting'") if line.startswith("INSERT") else line for line in dump(record.database)
    ]
    assert dump(elsewhere.database) == waiting, "smaller pictures are to be made anew, all else is the same"
    assert not list(elsewhere.data.glob("restoring-*"))


def test_a_copy_is_made_while_others_write(record, database):
    with database.writing() as session:
        builders.a_build(session, "Boathouse")
        session.flush()
        made = actions.make_copy(record)
    with zipfile.ZipFile(made.path) as copy:
        assert b"Boathouse" not in copy.read("studbay.sqlite3"), "what is not saved yet is not in it"


def test_every_file_in_a_copy_can_be_checked_with_common_programs(record):
    """sha256sum and unzip are enough: hashes by hashlib over what zipfile gives back (FIPS 180-4)."""
    made = actions.make_copy(record)
    with zipfile.ZipFile(made.path) as copy:
        assert copy.testzip() is None
        originals = [name for name in copy.namelist() if "/originals/" in name]
        assert [hashlib.sha256(copy.read(name)).hexdigest() for name in originals] == [originals[0][-64:]]
        assert b"studbay restore" in copy.read("README.txt")


@pytest.mark.parametrize("where", [0.02, 0.3, 0.5, 0.9])
def test_one_wrong_byte_brings_nothing_back(record, elsewhere, where):
    made = actions.make_copy(record)
    content = bytearray(made.path.read_bytes())
    content[int(len(content) * where)] ^= 0xFF
    made.path.write_bytes(content)
    elsewhere.data.mkdir()
    with pytest.raises(BadInput):
        actions.restore(elsewhere, made.path)
    assert list(elsewhere.data.iterdir()) == []


def test_a_copy_cut_short_brings_nothing_back_and_leaves_the_record(record, database):
    made = actions.make_copy(record)
    made.path.write_bytes(made.path.read_bytes()[:-200])
    database.close()
    before = tree(record.data)
    with pytest.raises(BadInput, match="no copy made by Studbay"):
        actions.restore(record, made.path, replace=True)
    assert tree(record.data) == before


def test_a_record_that_is_there_is_not_replaced_unasked(record):
    made = actions.make_copy(record)
    with pytest.raises(BadInput, match="--replace"):
        actions.restore(record, made.path)


def test_what_was_there_is_moved_aside_and_not_deleted(record, database):
    made = actions.make_copy(record)
    with database.writing() as session:
        builders.a_build(session, "Boathouse")
    a_picture(record, database, b"taken after the copy")
    database.close()
    later = dump(record.database)
    done = actions.restore(record, made.path, replace=True)
    assert "Boathouse" not in "".join(dump(record.database))
    assert dump(done.aside / "studbay.sqlite3") == later
    assert len(list((done.aside / "photos" / "originals").rglob("*"))) == 4, "two pictures in their folders"
    assert made.path.exists(), "copies stay where they are"


def test_a_restore_that_was_cut_off_is_done_again(record, elsewhere):
    made = actions.make_copy(record)
    (elsewhere.data / "restoring-20260516T120000Z" / "photos").mkdir(parents=True)
    actions.restore(elsewhere, made.path)
    assert [path.name for path in elsewhere.data.glob("restoring-*")] == []
    assert elsewhere.database.exists()


def test_a_daily_copy_brings_the_record_back_and_leaves_the_pictures(record, database):
    made = actions.make_copy(record, daily=True)
    before = pictures(record)
    database.close()
    done = actions.restore(record, made.path, replace=True)
    assert (done.pictures, done.notes) == (0, ())
    assert pictures(record) == before


def test_a_daily_copy_says_which_pictures_it_does_not_bring(record, elsewhere):
    done = actions.restore(elsewhere, actions.make_copy(record, daily=True).path)
    assert done.notes[0].startswith("1 picture that it names not in")


def test_a_daily_copy_is_made_once_a_day_and_old_ones_are_let_go(record, database, monkeypatch):
    real = clock.now
    few = replace(record, keep_copies=2)
    for day in range(5):
        monkeypatch.setattr(actions, "now", lambda day=day: real() + timedelta(days=2 * day))
        database.changed_at = actions.now()
        assert actions.copy_if_due(database, few) is not None
        assert actions.copy_if_due(database, few) is None
    daily = [copy for copy in files.list_copies(few.backups) if copy.daily]
    firsts = {
        min(copy.made_at for copy in daily if copy.made_at.month == month) for month in {c.made_at.month for c in daily}
    }
    assert 3 <= len(daily) <= 2 + len(firsts)


def test_a_folder_without_a_record_gives_a_sentence(elsewhere):
    with pytest.raises(BadInput, match="There is no record in"):
        actions.make_copy(elsewhere)


def test_a_missing_picture_is_named_and_the_copy_is_made_all_the_same(record, database):
    a_picture(record, database, b"to be lost").unlink()
    made = actions.make_copy(record)
    assert made.notes[0].startswith("1 picture of the record not on the disk")
    assert made.path.exists()


def test_the_restored_record_opens_and_can_be_written(record, elsewhere):
    actions.restore(elsewhere, actions.make_copy(record).path)
    opened = Database(elsewhere.database)
    with opened.writing() as session:
        builders.a_build(session, "Boathouse")
    opened.close()


def before_a_change(record):
    """The record kept beside the copies before its tables change, and what was in it."""
    kept = migrating.copy_before(record.database, record.backups, "0001")
    return kept, dump(kept)


def test_a_record_kept_before_a_change_comes_back_and_the_pictures_stay(record, database):
    kept, then = before_a_change(record)
    before = pictures(record)
    with database.writing() as session:
        builders.a_build(session, "Boathouse")
    database.close()
    now = dump(record.database)
    done = actions.restore(record, kept, replace=True)
    assert dump(record.database) == then
    assert (done.pictures, done.notes, pictures(record)) == (0, (), before)
    assert dump(done.aside / "studbay.sqlite3") == now, "what was there is moved aside"
    assert kept.exists()


def test_a_record_of_tables_this_version_does_not_know_is_refused(elsewhere, tmp_path):
    other = tmp_path / "before-change-9999.sqlite3"
    with closing(sqlite3.connect(other)) as connection, connection:
        connection.execute("CREATE TABLE alembic_version (version_num VARCHAR(32) NOT NULL)")
        connection.execute("INSERT INTO alembic_version VALUES ('9999')")
    with pytest.raises(migrating.MigrationFailed, match="newer Studbay"):
        actions.restore(elsewhere, other)
    assert not elsewhere.database.exists()


def test_a_record_kept_before_a_change_says_which_pictures_it_does_not_bring(record, elsewhere):
    kept, _ = before_a_change(record)
    assert actions.restore(elsewhere, kept).notes[0].startswith("1 picture that it names not in")
    assert migrating.standing(elsewhere.database).pending is False


@pytest.mark.parametrize("fault", ["pages", "foreign", "short"])
def test_a_damaged_or_foreign_record_brings_nothing_back(record, elsewhere, fault):
    kept, _ = before_a_change(record)
    if fault == "foreign":
        kept.unlink()
        with closing(sqlite3.connect(kept)) as connection, connection:
            connection.execute("CREATE TABLE stamps (id INTEGER)")
    else:
        body = bytearray(kept.read_bytes())
        body[4096 * 3 : 4096 * 9] = b"\xff" * 4096 * 6
        kept.write_bytes(body if fault == "pages" else body[:5000])
    elsewhere.data.mkdir()
    sentence = "no record kept by Studbay" if fault == "foreign" else "is damaged|cannot be read"
    with pytest.raises(BadInput, match=sentence):
        actions.restore(elsewhere, kept)
    assert list(elsewhere.data.iterdir()) == []
