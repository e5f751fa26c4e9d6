"""Names on disk, sizes of copies, and measures that are refused."""

import pytest

from webapp.photos.rules.names import derived_name, fitted, is_sha256, original_name, own_name, too_large

SHA = "ab" * 32


def test_a_picture_lies_under_the_beginning_of_its_hash():
    assert original_name(SHA) == f"originals/ab/{SHA}"
    assert derived_name(SHA, 320) == f"derived/ab/{SHA}-320.webp"


@pytest.mark.parametrize("name", ["", "../../etc/passwd", SHA.upper(), SHA + "a", SHA[:-1] + "/", SHA + "\n"])
def test_nothing_but_a_hash_becomes_part_of_a_path(name):
    assert not is_sha256(name)
    with pytest.raises(ValueError, match="not the name of a picture"):
        original_name(name)


def test_the_sent_file_name_loses_its_folders_and_control_characters():
    assert own_name("C:\\pictures\\wall\x00 east.jpg") == "wall east.jpg"
    assert own_name("../../evil.jpg") == "evil.jpg"
    assert len(own_name("n" * 500 + ".jpg")) == 200


def test_a_copy_is_never_larger_than_the_picture_was():
    assert fitted(4032, 3024, 1280) == (1280, 960)
    assert fitted(3024, 4032, 320) == (240, 320)
    assert fitted(100, 50, 320) == (100, 50)
    assert fitted(20_000, 3, 320) == (320, 1)


@pytest.mark.parametrize(
    ("measures", "words"),
    [
        ((30_000, 30_000, 1), "20000 on a side"),
        ((10_000, 7_000, 1), "60 million"),
        ((640, 480, 200), "moving picture"),
        ((0, 480, 1), "no size"),
    ],
)
def test_measures_that_no_camera_makes_are_refused_in_words(measures, words):
    assert words in too_large(*measures)


def test_a_large_phone_picture_and_one_with_a_preview_behind_it_are_fine():
    assert too_large(8064, 6048, 1) == ""
    assert too_large(4032, 3024, 2) == ""
