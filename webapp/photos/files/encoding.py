"""Derived copies: upright, in sRGB, as WebP, made of nothing but pixels."""

import io
from dataclasses import dataclass
from pathlib import Path

from PIL import Image, ImageCms, ImageOps

from webapp.photos.files.disk import write_whole
from webapp.photos.files.looking import UNREADABLE, opened
from webapp.photos.rules.names import SIZES, derived_name, fitted, original_name
from webapp.values.errors import BadInput

QUALITY = 75
METHOD = 4
"""slower ones save little, faster ones cost a fifth more bytes (measured)"""
_SRGB = ImageCms.createProfile("sRGB")


@dataclass(frozen=True, slots=True)
class Encoded:
    """One WebP without any metadata, with its size in pixels."""

    body: bytes
    width: int
    height: int


def encode(original: bytes, name: str, sizes: tuple[int, ...] = SIZES) -> dict[int, Encoded]:
    """Copies of a picture by the longest side asked for. Raises BadInput when it cannot be decoded."""
    try:
        with opened(io.BytesIO(original), name) as image:
            # A JPEG can be decoded at a half or a quarter of its size, which halves the time for large ones.
            image.draft(None, (max(sizes), max(sizes)))
            upright = _in_srgb(ImageOps.exif_transpose(image))
            return {size: _shrunk(upright, size) for size in sorted(sizes, reverse=True)}
    except UNREADABLE as bad:
        if isinstance(bad, BadInput):
            raise
        raise BadInput(f"“{name}” is damaged: it begins as a picture, but cannot be drawn.") from bad


def as_jpeg(original: bytes, name: str, longest: int) -> bytes:
    """A JPEG of nothing but pixels, for what cannot show WebP. Raises BadInput when it cannot be decoded."""
    try:
        with opened(io.BytesIO(original), name) as image:
            image.draft(None, (longest, longest))
            upright = _in_srgb(ImageOps.exif_transpose(image))
            out = io.BytesIO()
            _on_fresh_sheet(upright, longest).save(out, "JPEG", quality=QUALITY)
            return out.getvalue()
    except UNREADABLE as bad:
        if isinstance(bad, BadInput):
            raise
        raise BadInput(f"“{name}” is damaged: it begins as a picture, but cannot be drawn.") from bad


def _in_srgb(image: Image.Image) -> Image.Image:
    """Pixels as RGB on white, in sRGB: with the profile dropped unseen, a wide-gamut picture would turn pale."""
    profile = image.info.get("icc_profile")
    if profile and image.mode in {"RGB", "CMYK", "L"}:
        try:
            source = ImageCms.ImageCmsProfile(io.BytesIO(profile))
            image = ImageCms.profileToProfile(image, source, _SRGB, outputMode="RGB") or image
        except (ImageCms.PyCMSError, OSError):
            image = image.copy()  # a broken profile says nothing; the pixels still do
    if image.mode.startswith("I"):
        return image.convert("I").point(lambda value: value * (1 / 256)).convert("L").convert("RGB")
    if "A" in image.getbands() or "transparency" in image.info:
        flat = Image.new("RGBA", image.size, "white")
        flat.alpha_composite(image.convert("RGBA"))
        image = flat
    return image.convert("RGB")


def _on_fresh_sheet(image: Image.Image, longest: int) -> Image.Image:
    """The picture brought down in size: comment, EXIF, XMP and profile stay behind on the old sheet."""
    size = fitted(*image.size, longest)
    clean = Image.new("RGB", size)
    clean.paste(image.resize(size, Image.Resampling.LANCZOS, reducing_gap=3.0))
    return clean


def _shrunk(image: Image.Image, size: int) -> Encoded:
    clean = _on_fresh_sheet(image, size)
    out = io.BytesIO()
    clean.save(out, "WEBP", quality=QUALITY, method=METHOD)
    return Encoded(out.getvalue(), *clean.size)


def make_derived(photos: Path, sha256: str) -> None:
    """Write the derived copies of a kept picture. Raises BadInput when it cannot be decoded."""
    original = (photos / original_name(sha256)).read_bytes()
    for size, made in encode(original, sha256[:8]).items():
        write_whole(photos / derived_name(sha256, size), made.body)
