"""Opening pictures: only the kinds we mean to read, and only after their measures were found fit."""

import struct
from collections.abc import Iterator
from contextlib import contextmanager
from dataclasses import dataclass
from pathlib import Path
from typing import BinaryIO

import pi_heif
from PIL import ExifTags, Image

from webapp.photos.rules.capture import read_capture_time
from webapp.photos.rules.looks import refusal
from webapp.photos.rules.names import MEDIA_TYPES, too_large
from webapp.values.errors import BadInput

pi_heif.register_heif_opener()
# Our own check below is stricter and sees each picture before a pixel is decoded; theirs would only warn half-way.
Image.MAX_IMAGE_PIXELS = None

FORMATS = ("JPEG", "PNG", "WEBP", "HEIF")
UNREADABLE = (OSError, ValueError, SyntaxError, EOFError, KeyError, IndexError, TypeError, RuntimeError, struct.error)
"""what decoders raise on damaged files; RuntimeError comes from the HEIF one"""
HEAD = 512
TURNED = {5, 6, 7, 8}
"""EXIF orientations in which width and height change places"""


@dataclass(frozen=True, slots=True)
class Looked:
    """What a picture's header says: upright size in pixels, capture time or None."""

    media_type: str
    width: int
    height: int
    taken_at: str | None


@contextmanager
def opened(file: Path | BinaryIO, name: str) -> Iterator[Image.Image]:
    """The picture with nothing decoded yet. Raises BadInput, with a sentence that names it, for all we do not take."""
    try:
        image = Image.open(file, formats=FORMATS)
    except UNREADABLE as bad:
        raise BadInput(refusal(name, _head(file))) from bad
    with image:
        if why := too_large(*image.size, getattr(image, "n_frames", 1)):
            raise BadInput(f"“{name}” {why}.")
        yield image


def _head(file: Path | BinaryIO) -> bytes:
    if isinstance(file, Path):
        with file.open("rb") as opened_file:
            return opened_file.read(HEAD)
    file.seek(0)
    return file.read(HEAD)


def look_at(path: Path, name: str) -> Looked:
    """What the header says. The place, the camera and its owner are not even read."""
    with opened(path, name) as image:
        orientation, taken_at = _exif(image)
        width, height = image.size
        if orientation in TURNED:
            width, height = height, width
        return Looked(MEDIA_TYPES[image.format or ""], width, height, taken_at)


def _exif(image: Image.Image) -> tuple[int, str | None]:
    """Orientation and capture time; damaged EXIF says nothing and is no reason to refuse a picture."""
    try:
        exif = image.getexif()
        orientation = exif.get(ExifTags.Base.Orientation, 1)
        taken = exif.get_ifd(ExifTags.IFD.Exif).get(ExifTags.Base.DateTimeOriginal)
    except UNREADABLE:
        return 1, None
    return orientation if isinstance(orientation, int) else 1, read_capture_time(taken)
