"""Capture times as files and owners say them."""

import pytest

from webapp.photos.rules.capture import read_capture_time, read_taken


@pytest.mark.parametrize(
    ("said", "read"),
    [
        ("2026:05:09 17:48:00", "2026-05-09T17:48:00"),
        (b"2026:05:09 17:48:00\0", "2026-05-09T17:48:00"),
        ("2024:02:29 00:00:00", "2024-02-29T00:00:00"),
    ],
)
def test_the_camera_s_time_is_read_as_it_is_written(said, read):
    assert read_capture_time(said) == read


@pytest.mark.parametrize(
    "said",
    # Exif 2.32 (CIPA DC-008-2019), 4.6.5 F: unknown parts are blanks, the colons stay; cameras also write zeros.
    ["    :  :     :  :  ", "0000:00:00 00:00:00", "", None, 12, "2026:02:30 10:00:00", "9 May 2026", "2026:05:09"],
)
def test_a_time_that_is_no_time_is_unknown_rather_than_guessed(said):
    assert read_capture_time(said) is None


def test_the_owner_s_time_keeps_neither_zone_nor_fractions_of_a_second():
    assert read_taken("2026-05-09T17:48:00.5+02:00") == "2026-05-09T17:48:00"
    assert read_taken("2026-05-09") == "2026-05-09T00:00:00"
    assert read_taken("last spring") is None
