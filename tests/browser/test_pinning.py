"""A tap on the drawing writes the offsets of that place, and the picture shows there afterwards."""

import pytest
from playwright.sync_api import expect

from tests import builders
from webapp.surfaces.models import PicturePlace

HERE = "/builds/bindery"


@pytest.fixture
def photo(database, build):
    with database.writing() as session:
        surface = builders.a_surface(session, build, origin_corner="NE")
        made = builders.a_photo(session, made="broken", taken_at="2026-05-09T17:48:00", caption="Box")
        place = {"build_id": build.row_id, "photo_id": made.row_id, "placed_at": builders.AT}
        session.add(PicturePlace(surface_id=surface.row_id, **place))
        return made.row_id


def test_a_tap_in_the_middle_pins_the_picture_there(phone, photo):
    phone.goto(f"{HERE}/pictures/{photo}")
    drawing = phone.locator("#pin svg[data-scale]")
    expect(phone.get_by_text("Tap the drawing where the picture shows it.")).to_be_visible()
    left, zero, along, across, way = map(float, drawing.get_attribute("data-scale").split())
    box, view = drawing.bounding_box(), drawing.get_attribute("viewBox").split()
    unit = box["width"] / float(view[2])
    x, y = 80 * builders.INCH, 48 * builders.INCH
    drawing.click(position={"x": (left + x * along) * unit, "y": (zero + way * y * across) * unit})
    found = [phone.locator(f"#pin [name={name}]").input_value() for name in ("x", "y")]
    inches = [float(one.removesuffix(" in")) for one in found]
    assert abs(inches[0] - 80) <= 1, "as near as a finger is"
    assert abs(inches[1] - 48) <= 1
    phone.get_by_role("button", name="Pin it there").click()
    expect(phone.get_by_role("status").first).to_contain_text("Pinned to the drawing of East wall.")
    phone.goto(f"{HERE}/surfaces/E")
    expect(phone.locator("#map").get_by_role("link", name="1 Box, 9 May 2026")).to_be_visible()
