"""Two taps from Today to what is behind a spot of a wall, with scripts and without; and a second tap looks closer."""

import pytest
from playwright.sync_api import Page, expect

from tests import builders
from tests.builders import INCH

TODAY = "/builds/bindery/today"


@pytest.fixture
def wall(database, build) -> None:
    with database.writing() as session:
        east = builders.a_surface(session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH)
        builders.an_item(session, east, x_nm=80 * INCH)
        builders.a_run(session, east, (20, 54), (140, 54))


def taps_to_an_answer(page: Page) -> int:
    """Counts every tap the page gets, wherever it leads."""
    taps = 0
    page.goto(TODAY)
    page.get_by_role("link", name="Behind East wall").tap()
    taps += 1
    drawing = page.locator(".tap")
    box = drawing.bounding_box()
    assert box is not None
    page.touchscreen.tap(box["x"] + box["width"] / 2, box["y"] + box["height"] * 0.45)
    taps += 1
    expect(page.locator("#answer .verdict")).to_be_in_viewport()
    return taps


@pytest.mark.parametrize("device", ["phone", "old_phone"])
def test_two_taps_lead_from_today_to_what_is_behind_a_spot(device, request, wall):
    page = request.getfixturevalue(device)
    assert taps_to_an_answer(page) == 2
    assert page.get_by_label("From NE").input_value() in {"6' 8\"", "6' 9\""}, "the middle of 161 in"
    expect(page.locator("#answer")).to_contain_text("middle")


def test_a_tap_on_the_close_up_goes_on_from_the_spot_before(phone, wall):
    phone.goto("/builds/bindery/surfaces/E/behind?x=80&y=50")
    expect(phone.locator("#answer h2").first).to_have_text("A cable")
    drawing = phone.locator("#answer .tap")
    drawing.scroll_into_view_if_needed()
    box = drawing.bounding_box()
    units = box["width"] / 350
    phone.touchscreen.tap(box["x"] + 209 * units, box["y"] + 40 * units)
    expect(phone.get_by_label("From NE")).to_have_value("6' 8\"")
    expect(phone.get_by_label("Above the finished floor")).not_to_have_value("4' 2\"")
    expect(phone.locator("#answer h2").first).to_have_text("Nothing is on record here")


def test_the_drawing_is_as_wide_as_its_field_says_on_every_screen(desk, phone, wall):
    for page, width in ((phone, 344), (desk, 448)):
        page.goto("/builds/bindery/surfaces/E/behind")
        assert page.locator(".tap").bounding_box()["width"] == width
        assert page.locator(".tap svg").bounding_box()["width"] == width
    phone.set_viewport_size({"width": 320, "height": 700})
    assert phone.locator(".tap").bounding_box()["width"] == 270
    assert phone.evaluate("document.documentElement.scrollWidth - document.documentElement.clientWidth") <= 0
