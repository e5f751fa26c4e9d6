"""A copy brings voice notes back byte for byte; one that is missing or changed is named."""

import io
from dataclasses import replace

import pytest

from tests.sounds import a_wav
from webapp.backup import actions
from webapp.voice.actions import add_note
from webapp.voice.files import find_sound, keep_sound


@pytest.fixture
def note(settings, database, build) -> str:
    """SHA-256 of a sound on record."""
    kept = keep_sound(settings.voice, io.BytesIO(a_wav()), "note.wav", 1)
    with database.writing() as session:
        add_note(session, build.row_id, kept, None)
    return kept.sha256


def test_a_whole_copy_brings_it_back_byte_for_byte(settings, note, tmp_path):
    made = actions.make_copy(settings)
    assert made.kept == (("paper", 0), ("voice note", 1))
    assert made.notes == ()
    elsewhere = replace(settings, data=tmp_path / "elsewhere")
    actions.restore(elsewhere, made.path)
    assert find_sound(elsewhere.voice, note).read_bytes() == a_wav()


def test_replacing_a_record_moves_its_sounds_aside(settings, note):
    made = actions.make_copy(settings)
    done = actions.restore(settings, made.path, replace=True)
    assert find_sound(done.aside / "voice", note).read_bytes() == a_wav()
    assert find_sound(settings.voice, note).read_bytes() == a_wav()


def test_a_daily_copy_says_which_it_does_not_bring(settings, note, tmp_path):
    made = actions.make_copy(settings, daily=True)
    elsewhere = replace(settings, data=tmp_path / "elsewhere")
    (said,) = actions.restore(elsewhere, made.path).notes
    assert said == f"1 voice note that it names not in {elsewhere.voice}."


def test_the_look_over_names_one_that_is_missing_or_changed(settings, note):
    assert "1 voice note kept as a file in the record." in [one.sentence for one in actions.look_over(settings)]
    path = find_sound(settings.voice, note)
    path.write_bytes(b"RIFFxxxxWAVE")
    assert f"A voice note is not as it was taken in: {path}" in [one.sentence for one in actions.look_over(settings)]
    assert "1 voice note not as taken in" in actions.make_copy(settings).notes[0]
    path.unlink()
    assert f"A voice note is missing: {path}" in [one.sentence for one in actions.look_over(settings)]
    assert "1 voice note of the record not on the disk" in actions.make_copy(settings).notes[0]
