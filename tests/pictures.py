"""Pictures for tests: four corners of known colours, so that a turn shows; made here, never taken from anywhere."""

import hashlib
import io
import struct
import zlib
from pathlib import Path

from PIL import Image

DATA = Path(__file__).parent / "data"
RED, LIME, BLUE, BLACK = (255, 0, 0), (0, 255, 0), (0, 0, 255), (0, 0, 0)
CORNERS = (RED, LIME, BLUE, BLACK)
"""top left, top right, bottom left, bottom right of the upright picture"""

STORED_AS = {
    1: None,
    2: Image.Transpose.FLIP_LEFT_RIGHT,
    3: Image.Transpose.ROTATE_180,
    4: Image.Transpose.FLIP_TOP_BOTTOM,
    5: Image.Transpose.TRANSPOSE,
    6: Image.Transpose.ROTATE_90,
    7: Image.Transpose.TRANSVERSE,
    8: Image.Transpose.ROTATE_270,
}
"""How the upright picture lies in the file for each orientation (Exif 2.32, 4.6.4 A, Orientation)."""


def corners_image(width: int = 96, height: int = 64) -> Image.Image:
    image = Image.new("RGB", (width, height), "white")
    right, low, w, h = width - width // 4, height - height // 4, width // 4, height // 4
    for (x, y), colour in zip(((0, 0), (right, 0), (0, low), (right, low)), CORNERS, strict=True):
        image.paste(colour, (x, y, x + w, y + h))
    return image


def seen_corners(body: bytes) -> tuple[tuple[int, int, int], ...]:
    """The four corners, each colour channel brought to 0 or 255: lossy copies are a little off."""
    image = Image.open(io.BytesIO(body)).convert("RGB")
    x, y = image.width - 4, image.height - 4
    found = (image.getpixel(at) for at in ((3, 3), (x, 3), (3, y), (x, y)))
    return tuple(tuple(255 if channel > 127 else 0 for channel in colour) for colour in found)  # type: ignore[union-attr]


def a_jpeg(
    image: Image.Image | None = None, orientation: int = 1, taken: str = "", place: bool = False, **more: object
) -> bytes:
    """A JPEG that lies in its file as `orientation` says. `taken` is EXIF text, `place` adds a GPS position."""
    image = image or corners_image()
    if (turn := STORED_AS[orientation]) is not None:
        image = image.transpose(turn)
    exif = Image.Exif()
    exif[0x0112] = orientation
    exif[0x010F] = "Camera of nobody"
    if taken:
        exif.get_ifd(0x8769)[0x9003] = taken
    if place:
        exif.get_ifd(0x8825).update({1: "N", 2: (1.0, 2.0, 3.0), 3: "W", 4: (4.0, 5.0, 6.0)})
    out = io.BytesIO()
    image.save(out, "JPEG", quality=95, exif=exif, **more)
    return out.getvalue()


def a_png(image: Image.Image | None = None, **more: object) -> bytes:
    out = io.BytesIO()
    (image or corners_image()).save(out, "PNG", **more)
    return out.getvalue()


def a_webp(image: Image.Image | None = None, **more: object) -> bytes:
    out = io.BytesIO()
    (image or corners_image()).save(out, "WEBP", **more)
    return out.getvalue()


def a_png_header(width: int, height: int) -> bytes:
    """A PNG that says it is as large as wanted and holds next to nothing: a bomb before it goes off."""

    def chunk(kind: bytes, data: bytes) -> bytes:
        return struct.pack(">I", len(data)) + kind + data + struct.pack(">I", zlib.crc32(kind + data))

    head = struct.pack(">IIBBBBB", width, height, 8, 2, 0, 0, 0)
    return (
        b"\x89PNG\r\n\x1a\n" + chunk(b"IHDR", head) + chunk(b"IDAT", zlib.compress(b"\0" * 100)) + chunk(b"IEND", b"")
    )


def sha256(body: bytes) -> str:
    return hashlib.sha256(body).hexdigest()
