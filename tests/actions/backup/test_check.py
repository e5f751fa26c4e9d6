"""Looking the data folder over: what is not well is named, what is well is said, nothing is changed."""

import sqlite3
from contextlib import closing
from dataclasses import replace

import pytest

from tests import builders
from tests.actions.backup.test_copies import a_picture
from webapp.backup import actions
from webapp.values.errors import BadInput


def sentences(settings, well: bool) -> list[str]:
    return [finding.sentence for finding in actions.look_over(settings) if finding.well is well]


@pytest.fixture
def sound(settings, database, build):
    a_picture(settings, database)
    actions.make_copy(settings)
    return settings


def test_a_sound_folder_is_well(sound):
    assert sentences(sound, well=False) == []
    assert any("The record is sound" in sentence for sentence in sentences(sound, well=True))
    assert any("1 picture and 0 published pictures" in sentence for sentence in sentences(sound, well=True))


def test_a_missing_and_a_changed_picture_are_named(sound, database):
    lost, changed = a_picture(sound, database, b"lost"), a_picture(sound, database, b"changed")
    lost.unlink()
    changed.write_bytes(b"something else")
    found = sentences(sound, well=False)
    assert [f"A picture is missing: {lost}", f"A picture is not as it was taken in: {changed}"] == sorted(found)


def test_a_file_that_no_row_knows_is_named_and_left(sound):
    stray = sound.photos / "originals" / "ff" / ("f" * 64)
    stray.parent.mkdir(parents=True)
    stray.write_bytes(b"stray")
    assert f"No row knows this file; it does no harm: {stray}" in sentences(sound, well=True)
    assert stray.exists()


def test_a_link_to_a_task_that_is_not_there_is_named(sound, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        task, needed = builders.a_task(session, phase), builders.a_task(session, phase, "Insulate", 2)
        builders.a_need(session, task, needed)
        gone = needed.row_id
        session.delete(needed)
    assert sentences(sound, well=False) == [f"A link leads nowhere: need 1 names the task {gone}, which is not there."]


def test_a_row_that_points_at_nothing_is_named(sound, database):
    database.close()
    with closing(sqlite3.connect(sound.database)) as connection, connection:
        connection.execute("INSERT INTO plan_phase (build_id, position, title, purpose) VALUES (99, 1, 'Board', '')")
    assert any("plan_phase: row" in sentence for sentence in sentences(sound, well=False))


def test_a_record_overwritten_in_the_middle_is_damaged(sound, database):
    database.close()
    content = bytearray(sound.database.read_bytes())
    content[8192:40960] = b"\xff" * (40960 - 8192)
    sound.database.write_bytes(content)
    assert all("damaged" in sentence for sentence in sentences(sound, well=False))
    assert sentences(sound, well=False)


def test_a_build_without_a_whole_copy_is_told_so(settings, database, build):
    assert any("no whole copy" in sentence for sentence in sentences(settings, well=False))


def test_a_folder_without_a_record_gives_a_sentence(settings, tmp_path):
    with pytest.raises(BadInput, match="There is no record in"):
        actions.look_over(replace(settings, data=tmp_path / "nothing"))
