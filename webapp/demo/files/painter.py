"""Paints a scene with Pillow: shapes to JPEG bytes, with the grain of paper and, if asked, the tags of a camera."""

import io
from dataclasses import dataclass
from datetime import datetime
from functools import cache
from random import Random

from PIL import Image, ImageChops, ImageDraw, ImageFilter

from webapp.demo.rules.drawing.shapes import PAPER, WIDTH, Area, Disc, Line, Scene

_HALVES = 2  # Drawn twice as large and halved, which is what makes the edges smooth.
_WIDE, _HIGH = 960, 720
_FINER = _WIDE * _HALVES / WIDTH
_QUALITY = 80
_WITH_DENSITY = len("#rrggbbaa")  # Only these tones need the slower blending pen.
_NEEDS_JOINTS = 4.0  # A thinner stroke shows no notch where it bends.
_GRAIN_TILE = 320
_TURNED = {3: Image.Transpose.ROTATE_180, 6: Image.Transpose.ROTATE_90, 8: Image.Transpose.ROTATE_270}
_EXIF_IFD, _GPS_IFD = 0x8769, 0x8825
_MAKE, _MODEL, _ORIENTATION, _TAKEN = 0x010F, 0x0110, 0x0112, 0x9003


@dataclass(frozen=True)
class CameraTags:
    """Tags to write into the file: enough private ones that stripping them can be seen to work.

    `orientation` is 1, 3, 6 or 8 as in the EXIF standard; the pixels are turned so that obeying it shows the scene
    upright. The place is always 0 N, 0 E: open sea.
    """

    taken: datetime
    orientation: int = 1
    camera: str = "Box camera"
    with_place: bool = True


def paint(scene: Scene, tags: CameraTags | None = None) -> bytes:
    """The scene as a JPEG, 960 by 720; the same scene and tags always give the same bytes."""
    sheet = Image.new("RGB", (_WIDE * _HALVES, _HIGH * _HALVES), PAPER)
    opaque, clear = ImageDraw.Draw(sheet), ImageDraw.Draw(sheet, "RGBA")
    for shape in scene.shapes:
        if isinstance(shape, Line):
            _stroke(opaque, shape)
        elif isinstance(shape, Area):
            _tone(clear if len(shape.fill) == _WITH_DENSITY else opaque, shape)
        else:
            _disc(opaque, shape)
    image = ImageChops.multiply(sheet.reduce(_HALVES), _grain())
    stored = io.BytesIO()
    if tags is None:
        image.save(stored, "JPEG", quality=_QUALITY)
    else:
        turn = _TURNED.get(tags.orientation)
        turned = image if turn is None else image.transpose(turn)
        turned.save(stored, "JPEG", quality=_QUALITY, exif=_exif(tags))
    return stored.getvalue()


def _stroke(draw: ImageDraw.ImageDraw, line: Line) -> None:
    width = max(1, round(line.width * _FINER))
    points = [(x * _FINER, y * _FINER) for x, y in line.points]
    draw.line(points, fill=line.ink, width=width)
    if line.width < _NEEDS_JOINTS:
        return
    reach = width / 2 - 0.5
    for x, y in points[1:-1]:
        draw.ellipse((x - reach, y - reach, x + reach, y + reach), fill=line.ink)


def _tone(draw: ImageDraw.ImageDraw, area: Area) -> None:
    draw.polygon([(x * _FINER, y * _FINER) for x, y in area.points], fill=area.fill)


def _disc(draw: ImageDraw.ImageDraw, disc: Disc) -> None:
    x, y, reach = (value * _FINER for value in (*disc.centre, disc.radius))
    draw.ellipse((x - reach, y - reach, x + reach, y + reach), fill=disc.fill)


@cache
def _grain() -> Image.Image:
    """A sheet of almost white with the unevenness of paper, tiled from one small square."""
    noise = Image.frombytes("L", (_GRAIN_TILE, _GRAIN_TILE), Random(7).randbytes(_GRAIN_TILE**2))
    soft = noise.filter(ImageFilter.GaussianBlur(1.1)).point([240 + value // 17 for value in range(256)])
    tile = Image.merge("RGB", (soft, soft, soft))
    sheet = Image.new("RGB", (_WIDE, _HIGH))
    for x in range(0, _WIDE, _GRAIN_TILE):
        for y in range(0, _HIGH, _GRAIN_TILE):
            sheet.paste(tile, (x, y))
    return sheet


def _exif(tags: CameraTags) -> Image.Exif:
    exif = Image.Exif()
    exif[_MAKE] = exif[_MODEL] = tags.camera
    exif[_ORIENTATION] = tags.orientation
    exif.get_ifd(_EXIF_IFD)[_TAKEN] = tags.taken.strftime("%Y:%m:%d %H:%M:%S")
    if tags.with_place:
        zero = (0.0, 0.0, 0.0)
        exif.get_ifd(_GPS_IFD).update({1: "N", 2: zero, 3: "E", 4: zero})
    return exif
