"""The painted files, and that they lie as sent pictures would: the same place, the same facts."""

import io
from datetime import UTC, datetime

import pytest

from tests.conftest import SATURDAY
from webapp.demo.files.painting import paint_named, painting
from webapp.photos.actions import keep_photo
from webapp.photos.rules.names import LARGE, SMALL, original_name
from webapp.photos.store import get_photo

NOON = datetime(2026, 5, 16, 12, tzinfo=UTC)


@pytest.mark.parametrize("name", ["P002", "P005", "PA03", "RC01"])
def test_a_painted_file_has_the_facts_that_sending_it_would_give(settings, session, tmp_path, name):
    painted = paint_named(SATURDAY, settings.photos, frozenset(), name)
    laid = (settings.photos / original_name(painted.sha256)).read_bytes()
    kept = keep_photo(session, tmp_path / "elsewhere", io.BytesIO(laid), f"{name}.jpg", 30, NOON)
    sent = get_photo(session, kept.photo_id)
    looked = painted.looked
    assert (sent.sha256, sent.size, sent.media_type) == (painted.sha256, painted.size, looked.media_type)
    assert (sent.width, sent.height, sent.taken_at) == (looked.width, looked.height, looked.taken_at)
    assert (tmp_path / "elsewhere" / original_name(sent.sha256)).read_bytes() == laid


def test_files_come_in_the_order_asked_for_and_only_public_ones_have_copies(settings):
    names = ["P008", "P054", "P060", "P001"]
    with painting(SATURDAY, settings.photos, names, frozenset({"P008"})) as painted:
        files = list(painted)
    assert [each.name for each in files] == names
    assert files[1].sha256 == files[2].sha256
    assert [set(each.public) for each in files] == [{LARGE, SMALL}, set(), set(), set()]
    assert (files[0].public[LARGE].width, files[0].public[SMALL].width) == (960, 320)
