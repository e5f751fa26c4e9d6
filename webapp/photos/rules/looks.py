"""What a file that is no picture for us looks like, so that the refusal can say it."""

_BEGINNINGS = (
    (b"%PDF", "a PDF"),
    (b"GIF8", "a GIF"),
    (b"II*\0", "a TIFF or raw picture"),
    (b"MM\0*", "a TIFF or raw picture"),
    (b"BM", "a BMP"),
    (b"PK\x03\x04", "a zip or office file"),
    (b"\x1aE\xdf\xa3", "a film"),
)
_FILMS = (b"ftypmp4", b"ftypiso", b"ftypqt", b"ftypM4V", b"ftyp3gp", b"moov", b"mdat", b"wide")


def looks_like(head: bytes) -> str:
    """The kind of file in words, from its first bytes; empty when it cannot be told."""
    for beginning, kind in _BEGINNINGS:
        if head.startswith(beginning):
            return kind
    if head[4:12].startswith(_FILMS):
        return "a film"
    text = head[:400].lstrip(b"\xef\xbb\xbf \t\r\n").lower()
    if b"<svg" in text:
        return "an SVG drawing"
    if text.startswith((b"<!doctype html", b"<html")):
        return "a web page"
    return ""


def refusal(name: str, head: bytes) -> str:
    """The sentence for a file that is no picture we can read."""
    kind = looks_like(head)
    it_is = f"is {kind}" if kind else "is not a picture, or is damaged at its beginning"
    onward = " Note under Footage where it lies." if kind == "a film" else ""
    return f"“{name}” {it_is}. JPEG, PNG, WebP and HEIC are taken in.{onward}"
