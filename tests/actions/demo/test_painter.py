"""Painting: a file other programs open, the same bytes each time, and the tags a camera would leave."""

import io
from datetime import date, datetime

import pytest
from PIL import Image, ImageChops, ImageOps, ImageStat

from webapp.demo.files.packaged import read_packaged
from webapp.demo.files.painter import CameraTags, paint
from webapp.demo.files.pictures import camera_tags, picture_file
from webapp.demo.rules.content import Content, read_content
from webapp.demo.rules.scenes import receipt_scene, scene_for

EXIF_IFD, GPS_IFD = 0x8769, 0x8825


@pytest.fixture(scope="module")
def content() -> Content:
    return read_content(read_packaged(), today=date(2031, 3, 8), say_day=str)


def picture(content, picture_id):
    return next(row for row in content.pictures if row.id == picture_id)


def opened(data: bytes) -> Image.Image:
    image = Image.open(io.BytesIO(data))
    image.load()
    return image


@pytest.mark.parametrize("picture_id", ["P001", "P015", "P023", "P031", "P064", "P094", "P106", "P122"])
def test_a_picture_opens_as_a_jpeg_of_the_promised_size_and_weight(content, picture_id):
    data = picture_file(picture(content, picture_id), content)
    assert opened(data).format == "JPEG"
    assert sorted(opened(data).size) == [720, 960]
    assert 20_000 < len(data) < 250_000
    assert max(ImageStat.Stat(opened(data).convert("L")).stddev) > 8


def test_the_same_picture_is_painted_to_the_same_bytes(content):
    first = picture_file(picture(content, "P048"), content)
    assert picture_file(picture(content, "P048"), content) == first
    assert picture_file(picture(content, "P049"), content) != first


def test_a_file_sent_twice_is_the_same_file(content):
    assert picture_file(picture(content, "P060"), content) == picture_file(picture(content, "P054"), content)


@pytest.mark.parametrize("orientation", [1, 3, 6])
def test_obeying_the_orientation_shows_the_scene_upright(content, orientation):
    # EXIF 2.32 (CIPA DC-008-2019), tag 0x0112; ImageOps.exif_transpose is the outside reader.
    scene = scene_for(picture(content, "P010"), content)
    turned = opened(paint(scene, CameraTags(taken=datetime(2031, 3, 8, 9, 2), orientation=orientation)))
    assert turned.getexif()[0x0112] == orientation
    difference = ImageChops.difference(ImageOps.exif_transpose(turned), opened(paint(scene)))
    assert ImageStat.Stat(difference.convert("L")).mean[0] < 1.5


def test_the_first_pictures_carry_time_camera_and_place_and_later_ones_no_place(content):
    tags = opened(picture_file(picture(content, "P002"), content)).getexif()
    assert tags[0x0110] == "Box camera"
    assert tags.get_ifd(EXIF_IFD)[0x9003] == "2030:06:22 10:20:00"
    assert tags[0x0112] == 6
    assert tags.get_ifd(GPS_IFD)[2] == (0.0, 0.0, 0.0)
    later = opened(picture_file(picture(content, "P044"), content)).getexif()
    assert later.get_ifd(EXIF_IFD)[0x9003] == "2030:11:17 10:02:00"
    assert not later.get_ifd(GPS_IFD)


def test_a_picture_whose_time_nobody_knows_carries_no_tags(content):
    for picture_id in ("P005", "P027", "P061"):
        assert camera_tags(picture(content, picture_id)) is None
    assert not opened(picture_file(picture(content, "P061"), content)).getexif()


def test_a_receipt_is_painted_too(content):
    assert opened(paint(receipt_scene(content.receipts[0]))).size == (960, 720)
