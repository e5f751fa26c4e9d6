"""What pictures are called on disk, how large their copies are, and which kinds are taken in."""

import re

SMALL = 320
LARGE = 1280
SIZES = (SMALL, LARGE)
"""longest side of the derived copies, in pixels"""

MEDIA_TYPES = {
    "JPEG": "image/jpeg",
    "MPO": "image/jpeg",
    "PNG": "image/png",
    "WEBP": "image/webp",
    "HEIF": "image/heic",
}
"""by the decoder's name of the format; MPO is a JPEG with further pictures behind the first"""

MOST_PIXELS = 60_000_000
LONGEST_SIDE = 20_000
MOST_FRAMES = 8
"""a phone's JPEG may carry a preview or a depth map behind the picture; more is a moving picture"""

_SHA256 = re.compile(r"[0-9a-f]{64}")


def is_sha256(text: str) -> bool:
    """Whether `text` can be a picture's name: nothing else ever becomes part of a path."""
    return _SHA256.fullmatch(text) is not None


def original_name(sha256: str) -> str:
    """Path of the original below the photos folder."""
    return f"originals/{_checked(sha256)[:2]}/{sha256}"


def derived_name(sha256: str, size: int) -> str:
    """Path of a derived copy below the photos folder."""
    return f"derived/{_checked(sha256)[:2]}/{sha256}-{size}.webp"


def _checked(sha256: str) -> str:
    if not is_sha256(sha256):
        raise ValueError(f"{sha256!r} is not the name of a picture")
    return sha256


def own_name(sent: str) -> str:
    """The file name as sent, without folders and control characters, 200 characters at most."""
    last = sent.replace("\\", "/").rpartition("/")[2]
    return "".join(char for char in last if char.isprintable()).strip()[-200:]


def fitted(width: int, height: int, longest: int) -> tuple[int, int]:
    """The size with its longest side brought down to `longest`; never larger than it was, never below one pixel."""
    side = max(width, height)
    if side <= longest:
        return width, height
    return max(1, round(width * longest / side)), max(1, round(height * longest / side))


def too_large(width: int, height: int, frames: int) -> str:
    """Why a picture's measures are refused, as the end of a sentence; empty when they are fine."""
    if width < 1 or height < 1:
        return "has no size"
    if width > LONGEST_SIDE or height > LONGEST_SIDE:
        return f"is {width} by {height} pixels; {LONGEST_SIDE} on a side are taken at most"
    if width * height > MOST_PIXELS:
        return f"is {width} by {height} pixels; {MOST_PIXELS // 1_000_000} million are taken at most"
    if frames > MOST_FRAMES:
        return "is a moving picture; a film stays on your card, note under Footage where it lies"
    return ""
