"""Tapping a picture of pencil marks: numbers where the thumb was, fields beside them, kept in one go."""

import pytest
from playwright.sync_api import Page, expect

from tests import builders, pictures
from tests.browser.conftest import all_sent
from tests.builders import INCH
from webapp.surfaces import store

READ = "/builds/bindery/pictures/{}/read"


@pytest.fixture
def picture(database, build, settings) -> int:
    with database.writing() as session:
        wall = builders.a_surface(session, build, origin_corner="NE")
        body = pictures.a_jpeg(pictures.corners_image(400, 300), taken="2026:05:09 17:48:00")
        return builders.a_picture(session, build, settings.photos, body, surface_id=wall.row_id)


def tap(page: Page, right: float, down: float) -> None:
    """At this part of the picture's width and height."""
    image = page.locator("input[type=image]:visible")
    box = image.bounding_box()
    image.click(position={"x": box["width"] * right, "y": box["height"] * down})


def known(page: Page, number: int, x: str, y: str) -> None:
    row = page.locator("fieldset.spot").nth(number - 1)
    row.get_by_label("From NE").fill(x)
    row.get_by_label("Above the finished floor").fill(y)
    row.get_by_text("I know this spot").click()


def test_two_known_spots_and_a_mark_and_the_mark_is_proposed(phone, picture, database):
    phone.goto(f"/builds/bindery/pictures/{picture}")
    phone.get_by_role("link", name="Read it off").click()
    tap(phone, 0.25, 0.5)
    known(phone, 1, "40", "40")
    tap(phone, 0.75, 0.5)
    known(phone, 2, "80", "40")
    tap(phone, 0.5, 1 / 3)
    phone.locator("fieldset.spot").nth(2).get_by_label("What it is").fill("Pipe")
    expect(phone.locator(".num text")).to_have_text(["1", "2", "3"])
    phone.get_by_role("button", name="Keep the spots").last.click()
    expect(phone.get_by_role("status").first).to_contain_text("3 spots kept")
    expect(phone.get_by_text("About 5′ 0″ from NE, 4′ 2″")).to_be_visible()
    phone.get_by_role("button", name="For now as in the picture").click()
    expect(phone.get_by_role("status").first).to_contain_text("measure it before you rely on it")
    with database.reading() as session:
        (item,) = store.list_items(session, 1)
        assert (item.x_nm, item.y_nm, item.from_picture) == (60 * INCH, 50 * INCH, True)


def test_it_waits_without_signal(phone, picture, database):
    phone.goto(READ.format(picture))
    phone.wait_for_load_state("networkidle")
    phone.context.set_offline(True)
    tap(phone, 0.25, 0.5)
    phone.get_by_label("What it is").fill("Nail")
    phone.get_by_role("button", name="Keep the spots").last.click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    phone.context.set_offline(False)
    all_sent(phone)
    with database.reading() as session:
        assert [one.what for one in store.list_points(session, picture)] == ["Nail"]


def test_it_works_without_scripts(old_phone, picture, database):
    old_phone.goto(READ.format(picture))
    tap(old_phone, 0.5, 0.5)
    old_phone.get_by_label("What it is").fill("Receptacle")
    tap(old_phone, 0.75, 0.25)
    expect(old_phone.locator(".num text")).to_have_text(["1", "2"])
    expect(old_phone.locator("#f-what_1")).to_have_value("Receptacle")
    old_phone.locator("#f-x_1").fill("58")
    old_phone.locator("#f-y_1").fill("16")
    old_phone.locator("#f-what_2").fill("Mark")
    old_phone.get_by_role("button", name="Keep the spots").last.click()
    with database.reading() as session:
        first, second = store.list_points(session, picture)
        assert abs(first.across - 500_000) < 6_000 and abs(second.down - 250_000) < 6_000
        assert store.list_items(session, 1)[0].x_nm == 58 * INCH
