"""Keeping pictures: byte for byte, once, and never anything that is none."""

import io

import pytest
from sqlmodel import select

from tests import pictures
from tests.builders import AT
from webapp.photos.actions import keep_photo, set_caption, set_taken
from webapp.photos.models import Photo, PhotoChange
from webapp.photos.rules.names import original_name
from webapp.photos.store import get_photo
from webapp.values.errors import BadInput

SVG = b'<svg xmlns="http://www.w3.org/2000/svg"><script>alert(1)</script></svg>'


@pytest.fixture
def keep(session, settings):
    def kept(body: bytes, name: str = "east.jpg", limit_mb: int = 30):
        return keep_photo(session, settings.photos, io.BytesIO(body), name, limit_mb, AT)

    return kept


def test_the_original_is_kept_byte_for_byte_under_its_hash(keep, settings):
    body = pictures.a_jpeg(taken="2026:05:09 17:48:00", place=True)
    kept = keep(body)
    assert kept.sha256 == pictures.sha256(body)
    assert (settings.photos / original_name(kept.sha256)).read_bytes() == body
    assert not any((settings.photos / "incoming").iterdir())


def test_when_it_was_taken_and_when_it_came_are_two_things(keep, session):
    facts = get_photo(session, keep(pictures.a_jpeg(taken="2026:05:09 17:48:00")).photo_id)
    assert (facts.taken_at, facts.taken_from, facts.received_at) == ("2026-05-09T17:48:00", "camera", AT)


def test_a_picture_without_a_time_stays_of_unknown_date(keep, session):
    facts = get_photo(session, keep(pictures.a_png()).photo_id)
    assert (facts.taken_at, facts.taken_from) == (None, "unknown")


def test_the_same_bytes_twice_are_one_picture(keep, session, settings):
    body = pictures.a_jpeg()
    first, second = keep(body), keep(body, "again.jpg")
    assert (first.was_there, second.was_there) == (False, True)
    assert first.photo_id == second.photo_id
    assert len(session.exec(select(Photo)).all()) == 1
    assert len(list((settings.photos / "originals").rglob("*"))) == 2, "one folder with one file"


@pytest.mark.parametrize(("orientation", "size"), [(1, (96, 64)), (3, (96, 64)), (6, (64, 96)), (8, (64, 96))])
def test_the_size_on_record_is_the_upright_one(keep, session, orientation, size):
    image = pictures.corners_image(*size)
    facts = get_photo(session, keep(pictures.a_jpeg(image, orientation)).photo_id)
    assert (facts.width, facts.height) == size


@pytest.mark.parametrize(
    ("body", "words"),
    [
        (b"", "is empty"),
        (SVG, "is an SVG drawing"),
        (b"<!doctype html><html><body>east wall</body></html>", "is a web page"),
        (b"GIF89a" + b"\1\0\1\0\0\0\0;", "is a GIF"),
        (b"%PDF-1.7\n%%EOF", "is a PDF"),
        (b"east wall", "is not a picture"),
        (pictures.a_jpeg()[:20], "is not a picture, or is damaged at its beginning"),
        (pictures.a_png_header(30_000, 30_000), "30000 by 30000 pixels"),
        (pictures.a_png_header(65_000, 10), "20000 on a side"),
        (pictures.a_png_header(9_000, 9_000), "60 million"),
    ],
    ids=["empty", "svg", "html", "gif", "pdf", "text", "cut-off", "bomb", "strip", "huge"],
)
def test_what_is_no_picture_for_us_is_refused_in_a_sentence_that_names_it(keep, session, settings, body, words):
    with pytest.raises(BadInput) as refused:
        keep(body, "wall.jpg")
    assert refused.value.sentence.startswith("“wall.jpg” ")
    assert words in refused.value.sentence
    assert session.exec(select(Photo)).all() == []
    assert not [path for path in settings.photos.rglob("*") if path.is_file()], "nothing is left lying about"


def test_a_moving_picture_is_refused_and_led_to_footage(keep):
    frames = [pictures.corners_image().rotate(10 * turn) for turn in range(12)]
    body = pictures.a_webp(frames[0], save_all=True, append_images=frames[1:])
    with pytest.raises(BadInput, match="moving picture; a film stays on your card, note under Footage"):
        keep(body)


def test_one_megabyte_over_the_limit_is_refused_before_anything_is_decoded(keep, settings):
    with pytest.raises(BadInput, match="larger than 30 MB"):
        keep(pictures.a_jpeg() + b"\0" * (31 * 1024 * 1024))
    assert not [path for path in settings.photos.rglob("*") if path.is_file()]


def test_a_date_the_owner_sets_keeps_the_one_before_readable(keep, session):
    kept = keep(pictures.a_jpeg(taken="2020:01:01 00:00:10"))
    set_taken(session, kept.photo_id, "2026-05-08T18:00:00")
    session.flush()
    facts = get_photo(session, kept.photo_id)
    assert (facts.taken_at, facts.taken_from) == ("2026-05-08T18:00:00", "owner")
    change = session.exec(select(PhotoChange)).one()
    assert (change.was, change.became) == ("2020-01-01T00:00:10 (camera)", "2026-05-08T18:00:00 (owner)")


def test_setting_the_same_date_again_changes_nothing(keep, session):
    kept = keep(pictures.a_png())
    for _ in range(2):
        set_taken(session, kept.photo_id, "2026-05-08T18:00:00")
    assert len(session.exec(select(PhotoChange)).all()) == 1


def test_a_picture_is_not_taken_after_it_arrived(keep, session):
    kept = keep(pictures.a_png())
    with pytest.raises(BadInput, match="arrived on 16 May 2026"):
        set_taken(session, kept.photo_id, "2026-05-18T00:00:00")


def test_a_caption_put_right_keeps_the_words_before(keep, session):
    kept = keep(pictures.a_png())
    set_caption(session, kept.photo_id, "East wall")
    set_caption(session, kept.photo_id, "North wall")
    assert [change.was for change in session.exec(select(PhotoChange)).all()] == ["", "East wall"]
