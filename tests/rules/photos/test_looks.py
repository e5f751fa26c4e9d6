"""A refusal says what the file seems to be."""

import pytest

from webapp.photos.rules.looks import looks_like, refusal


@pytest.mark.parametrize(
    ("head", "kind"),
    [
        (b"%PDF-1.7", "a PDF"),
        (b"GIF89a", "a GIF"),
        (b'<?xml version="1.0"?><svg xmlns="x">', "an SVG drawing"),
        (b"\xef\xbb\xbf  <!DOCTYPE HTML><html>", "a web page"),
        (b"\0\0\0\x18ftypmp42", "a film"),
        (b"\0\0\0\x14ftypqt  ", "a film"),
        (b"hello", ""),
        (b"", ""),
    ],
)
def test_a_file_is_known_by_how_it_begins(head, kind):
    assert looks_like(head) == kind


def test_the_refusal_names_the_file_its_kind_and_what_is_taken():
    assert refusal("plan.pdf", b"%PDF-1.7") == "“plan.pdf” is a PDF. JPEG, PNG, WebP and HEIC are taken in."
    assert "is not a picture" in refusal("x.jpg", b"hello")
    assert refusal("pan.mov", b"\0\0\0\x14ftypqt  ").endswith("Note under Footage where it lies.")
