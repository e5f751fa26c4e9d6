"""Where the bytes of a picture go out: to the owner, and to nobody else."""

import io

import pytest

from tests import pictures
from tests.builders import AT
from webapp.photos.actions import keep_photo, mark_made
from webapp.photos.rules.names import original_name


@pytest.fixture
def body() -> bytes:
    return pictures.a_jpeg(pictures.corners_image(800, 600), taken="2026:05:09 17:48:00")


@pytest.fixture
def sha(client, app, database, settings, body) -> str:
    with database.writing() as session:
        kept = keep_photo(session, settings.photos, io.BytesIO(body), 'the "east" wall.jpg', 30, AT)
    app.state.making.wait_idle()
    return kept.sha256


def test_the_owner_sees_both_sizes_and_keeps_them_for_a_year(client, sha):
    for size in (320, 1280):
        answer = client.get(f"/photos/{sha}/{size}")
        assert answer.status_code == 200
        assert answer.headers["content-type"] == "image/webp"
        assert answer.headers["cache-control"] == "private, max-age=31536000, immutable"
        assert pictures.seen_corners(answer.content) == pictures.CORNERS


def test_asking_again_with_the_tag_sends_no_bytes(client, sha):
    tag = client.get(f"/photos/{sha}/320").headers["etag"]
    again = client.get(f"/photos/{sha}/320", headers={"if-none-match": tag})
    assert (again.status_code, again.content) == (304, b"")


def test_the_original_is_a_download_of_the_very_bytes(client, sha, body):
    answer = client.get(f"/photos/{sha}/original")
    assert answer.content == body
    assert answer.headers["content-disposition"].startswith("attachment")
    assert answer.headers["x-content-type-options"] == "nosniff"
    assert "immutable" not in answer.headers["cache-control"]


@pytest.mark.parametrize("size", ["320", "1280", "original", "figure"])
def test_a_stranger_sees_no_byte_of_it(stranger, sha, size):
    answer = stranger.get(f"/photos/{sha}/{size}")
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/sign-in")
    asked_as_image = stranger.get(f"/photos/{sha}/{size}", headers={"accept": "image/webp"})
    assert asked_as_image.status_code == 401


@pytest.mark.parametrize("path", ["f" * 64 + "/320", "nothing/320", "..%2f..%2fstudbay.sqlite3/original"])
def test_what_is_no_picture_here_is_a_page_with_a_way_on(client, path):
    answer = client.get(f"/photos/{path}")
    assert answer.status_code == 404
    assert "href" in answer.text


def test_no_other_size_is_made(client, sha):
    assert client.get(f"/photos/{sha}/5000").status_code == 404


def test_a_missing_original_says_where_it_may_still_be(client, settings, sha):
    (settings.photos / original_name(sha)).unlink()
    answer = client.get(f"/photos/{sha}/original")
    assert answer.status_code == 404
    assert "A copy may still hold it" in answer.text


def test_until_the_copies_are_made_a_drawn_frame_stands_there_and_is_not_kept(client, database, sha):
    with database.writing() as session:
        mark_made(session, sha, "broken")
    answer = client.get(f"/photos/{sha}/320")
    assert answer.headers["content-type"] == "image/svg+xml"
    assert answer.headers["cache-control"] == "no-store"


def test_copies_that_were_left_behind_when_a_record_was_taken_back_are_made_again(client, settings, sha):
    for path in (settings.photos / "derived").rglob("*.webp"):
        path.unlink()
    answer = client.get(f"/photos/{sha}/320")
    assert answer.headers["content-type"] == "image/webp"
    assert pictures.seen_corners(answer.content) == pictures.CORNERS


def test_with_the_original_gone_too_the_frame_stands_there(client, settings, sha):
    for path in (*(settings.photos / "derived").rglob("*.webp"), settings.photos / original_name(sha)):
        path.unlink()
    assert client.get(f"/photos/{sha}/320").headers["content-type"] == "image/svg+xml"


def test_the_waiting_frame_gives_way_to_the_picture_by_itself(client, sha):
    figure = client.get(f"/photos/{sha}/figure", headers={"hx-request": "true"})
    assert f'src="/photos/{sha}/320"' in figure.text
    assert "hx-get" not in figure.text
