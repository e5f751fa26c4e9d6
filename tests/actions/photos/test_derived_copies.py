"""Derived and public copies: upright, in the right colours, and made of nothing but pixels."""

import io
import json
import shutil
import subprocess

import pytest
from PIL import Image
from sqlmodel import select

from tests import icc, pictures
from tests.builders import AT
from webapp.core.background import Background
from webapp.photos import files
from webapp.photos.actions import keep_photo, make_waiting
from webapp.photos.models import Photo
from webapp.photos.rules.names import derived_name, original_name

ALLOWED_GROUPS = {"ExifTool", "System", "File", "RIFF", "Composite"}
"""exiftool's own words, the file system's, and the container's: width, height, codec"""


def kept(database, settings, body: bytes) -> str:
    with database.writing() as session:
        return keep_photo(session, settings.photos, io.BytesIO(body), "east.jpg", 30, AT).sha256


def made_of(database, sha: str) -> str:
    with database.reading() as session:
        return session.exec(select(Photo.made).where(Photo.sha256 == sha)).one()


def never() -> bool:
    return False


@pytest.mark.parametrize("orientation", range(1, 9))
def test_every_orientation_comes_out_upright(orientation):
    copies = files.encode(pictures.a_jpeg(orientation=orientation), "east.jpg")
    for copy in copies.values():
        assert pictures.seen_corners(copy.body) == pictures.CORNERS
        assert (copy.width, copy.height) == (96, 64)


def test_an_heic_that_lies_on_its_side_comes_out_upright():
    # Upright, the stored corners have moved a quarter turn to the right (ISO/IEC 23008-12, irot).
    copy = files.encode((pictures.DATA / "turned.heic").read_bytes(), "east.heic", (320,))[320]
    assert (copy.width, copy.height) == (64, 96)
    assert pictures.seen_corners(copy.body) == (pictures.BLUE, pictures.RED, pictures.BLACK, pictures.LIME)


def test_the_two_sizes_are_webp_of_320_and_1280_pixels():
    copies = files.encode(pictures.a_jpeg(pictures.corners_image(2000, 1500)), "east.jpg")
    for size, copy in copies.items():
        opened = Image.open(io.BytesIO(copy.body))
        assert (opened.format, opened.size) == ("WEBP", (size, size * 3 // 4))


def exiftool(body: bytes) -> dict[str, object]:
    """Everything exiftool finds in a file, by "group:name"."""
    if shutil.which("exiftool") is None:
        pytest.skip("exiftool is not installed")
    run = subprocess.run(["exiftool", "-j", "-G1", "-a", "-u", "-"], input=body, capture_output=True, check=True)
    found = json.loads(run.stdout)[0]
    return {name: value for name, value in found.items() if name != "SourceFile"}


@pytest.fixture
def telling_jpeg(tmp_path) -> bytes:
    """A JPEG that gives everything away: place, camera, owner, comment, XMP, IPTC, a wide-gamut profile."""
    path = tmp_path / "telling.jpg"
    body = pictures.a_jpeg(orientation=6, place=True, comment=b"behind the shed", icc_profile=icc.wide_gamut())
    path.write_bytes(body)
    exiftool(body)
    tags = ("-XMP-dc:Creator=nobody", "-IPTC:City=nowhere", "-EXIF:SerialNumber=77", "-XMP-exif:GPSLatitude=1.5")
    subprocess.run(["exiftool", "-q", "-overwrite_original", *tags, str(path)], check=True)
    return path.read_bytes()


def test_nothing_but_pixels_leaves_the_original(database, settings, telling_jpeg):
    told = {name.partition(":")[0] for name in exiftool(telling_jpeg)}
    assert {"GPS", "IFD0", "ExifIFD", "XMP-dc", "IPTC", "ICC-header"} <= told, "the check has something to find"
    sha = kept(database, settings, telling_jpeg)
    make_waiting(database, settings.photos, never)
    assert made_of(database, sha) == "ready"
    copies = [(settings.photos / derived_name(sha, size)).read_bytes() for size in (320, 1280)]
    copies += [made.body for made in files.encode(telling_jpeg, sha[:8]).values()]
    for copy in copies:
        found = exiftool(copy)
        assert {name.partition(":")[0] for name in found} <= ALLOWED_GROUPS, found
        assert not [name for name in found if "Comment" in name or "GPS" in name]
        assert b"EXIF" not in copy and b"XMP " not in copy and b"ICCP" not in copy, "WebP chunks by their names"
        assert pictures.seen_corners(copy) == pictures.CORNERS
    assert pictures.sha256((settings.photos / original_name(sha)).read_bytes()) == pictures.sha256(telling_jpeg)


def test_wide_gamut_colours_are_brought_into_srgb():
    # Display P3 (SMPTE EG 432-1 primaries, D65) to sRGB (IEC 61966-2-1), worked from the published primaries in icc.py.
    image = Image.new("RGB", (64, 64), (200, 120, 100))
    body = pictures.a_png(image, icc_profile=icc.wide_gamut())
    copy = files.encode(body, "east.png", (320,))[320]
    seen = Image.open(io.BytesIO(copy.body)).convert("RGB").getpixel((32, 32))
    expected = icc.wide_gamut_in_srgb((200, 120, 100))
    assert expected != (200, 120, 100), "the check can fail"
    assert all(abs(one - other) <= 3 for one, other in zip(seen, expected, strict=True)), (seen, expected)


@pytest.mark.parametrize("mode", ["1", "L", "LA", "P", "RGBA", "I;16", "CMYK"])
def test_every_kind_of_pixel_becomes_plain_rgb(mode):
    image = Image.new("I;16", (40, 30), 65535) if mode == "I;16" else Image.new("RGB", (40, 30), "white").convert(mode)
    body = pictures.a_jpeg(image) if mode == "CMYK" else pictures.a_png(image)
    copy = files.encode(body, "east", (320,))[320]
    assert min(Image.open(io.BytesIO(copy.body)).convert("RGB").getpixel((20, 15))) > 250


def test_what_is_clear_in_a_picture_becomes_white_not_black():
    copy = files.encode(pictures.a_png(Image.new("RGBA", (40, 30), (0, 0, 0, 0))), "east", (320,))[320]
    assert min(Image.open(io.BytesIO(copy.body)).convert("RGB").getpixel((20, 15))) > 250


def test_a_picture_cut_off_in_the_middle_is_kept_and_said_to_be_broken(database, settings):
    whole = pictures.a_jpeg(Image.effect_noise((400, 300), 80).convert("RGB"))
    sha = kept(database, settings, whole[: len(whole) // 2])
    make_waiting(database, settings.photos, never)
    assert made_of(database, sha) == "broken"
    assert (settings.photos / original_name(sha)).read_bytes() == whole[: len(whole) // 2]


def test_one_broken_picture_does_not_stop_the_others(database, settings):
    noise = pictures.a_jpeg(Image.effect_noise((400, 300), 80).convert("RGB"))
    broken, whole = kept(database, settings, noise[:3000]), kept(database, settings, pictures.a_jpeg())
    make_waiting(database, settings.photos, never)
    assert (made_of(database, broken), made_of(database, whole)) == ("broken", "ready")


def test_copies_left_unmade_are_made_after_the_next_start(database, settings):
    sha = kept(database, settings, pictures.a_jpeg())
    making = Background(database, lambda stopped: make_waiting(database, settings.photos, stopped))
    making.start()
    making.wait_idle()
    assert made_of(database, sha) == "ready"
    making.stop()


def test_a_picture_that_comes_while_the_program_runs_is_made_without_being_asked_for(database, settings):
    making = Background(database, lambda stopped: make_waiting(database, settings.photos, stopped))
    making.start()
    sha = kept(database, settings, pictures.a_jpeg())
    making.wait_idle()
    assert made_of(database, sha) == "ready"
    making.stop()


def test_a_fault_in_work_beside_the_pages_does_not_end_later_work(database, settings, caplog):
    tries = []

    def work(stopped):
        tries.append(stopped())
        if len(tries) == 1:
            raise RuntimeError("the first one goes wrong")

    making = Background(database, work)
    making.start()
    making.wait_idle()
    making.wake()
    making.wait_idle()
    making.stop()
    assert len(tries) == 2
    assert "tried again" in caplog.text
