"""Pictures for a packet, as JPEG of nothing but pixels, small enough to be mailed."""

from collections.abc import Callable
from pathlib import Path

from webapp.core.pdf import Blob
from webapp.photos.files import as_jpeg
from webapp.photos.rules.names import is_sha256, original_name
from webapp.values.errors import BadInput

AT = "studbay:/photos/"
LONGEST = 1000
"""pixels: sixty pictures of this size are a few megabytes"""


def blobs(photos: Path, allowed: frozenset[str]) -> Callable[[str], Blob | None]:
    """What a packet may open: the pictures that were chosen for it, and nothing else."""

    def blob(url: str) -> Blob | None:
        sha256 = url.removeprefix(AT)
        if not url.startswith(AT) or not is_sha256(sha256) or sha256 not in allowed:
            return None
        try:
            return Blob(as_jpeg((photos / original_name(sha256)).read_bytes(), sha256[:8], LONGEST), "image/jpeg")
        except (BadInput, OSError):
            return None

    return blob
