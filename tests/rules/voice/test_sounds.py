"""What a sound is by its own bytes: each kind we keep, and what we do not, with the sentence for it."""

import pytest

from tests import pictures, sounds
from webapp.voice.rules.sounds import HEAD, TAIL, media_type_of, refusal, wav_seconds

KEPT = {
    "audio/wav": sounds.a_wav(),
    "audio/webm": sounds.a_webm(),
    "audio/ogg": sounds.an_ogg(),
    "audio/mp4": sounds.an_mp4(b"soun"),
    "audio/aac": b"\xff\xf1\x50\x80" + bytes(100),
    "audio/mpeg": b"ID3\x04" + bytes(100),
}
FILMS = (sounds.a_webm(b"A_OPUS..V_VP9"), sounds.an_ogg(b"OpusHead\x80theora"), sounds.an_mp4(b"vide", b"soun"))
NONE = (b"", b"\xff", b"%PDF-1.7", b"<svg>", pictures.a_jpeg(), pictures.a_png(), sounds.an_mp4(), b"\xff\xff\xff\xff")


def ends(body: bytes) -> tuple[bytes, bytes]:
    return body[:HEAD], body[max(HEAD, len(body) - TAIL) :]


@pytest.mark.parametrize("kind", KEPT)
def test_each_kind_is_told_by_its_bytes(kind):
    assert media_type_of(*ends(KEPT[kind])) == kind


def test_a_bare_mp3_frame_and_an_m4a_that_names_its_track_at_the_end_are_told_too():
    assert media_type_of(b"\xff\xfb\x90\x00", b"") == "audio/mpeg"
    assert media_type_of(*ends(sounds.an_mp4(b"soun", last=True))) == "audio/mp4"


@pytest.mark.parametrize("body", FILMS)
def test_a_film_is_no_note_and_is_sent_elsewhere(body):
    assert media_type_of(*ends(body)) == ""
    assert "is a film. Note under Footage" in refusal("walk.mp4", *ends(body))


@pytest.mark.parametrize("body", NONE)
def test_nothing_else_is_a_sound(body):
    assert media_type_of(*ends(body)) == ""
    assert "are taken in." in refusal("x", *ends(body))


def test_a_picture_is_named_as_one():
    assert "is a picture. Send it under Pictures" in refusal("a.jpg", pictures.a_jpeg(), b"")


def test_a_wave_file_says_how_long_it_is():
    body = sounds.a_wav(3)
    assert wav_seconds(body, len(body)) == 3
    assert wav_seconds(b"RIFF....WAVE", 12) is None
