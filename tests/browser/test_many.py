"""Many pictures with one thumb: seen big before they go, one left out, all of the surface one stands at."""

import pytest
from playwright.sync_api import Page, expect

from tests import builders, pictures
from tests.browser.conftest import all_sent

WALL = "/builds/bindery/surfaces/E"


@pytest.fixture
def wall(database, build) -> None:
    with database.writing() as session:
        builders.a_slot(session, builders.a_surface(session, build), what="Whole wall")


@pytest.fixture
def shots(tmp_path) -> list[str]:
    made = []
    for number in range(3):
        path = tmp_path / f"{number}.jpg"
        image = pictures.corners_image(120 + 12 * number, 80)
        path.write_bytes(pictures.a_jpeg(image, taken=f"2026:05:16 18:1{number}:00"))
        made.append(str(path))
    return made


def take(page: Page, file: str) -> None:
    """What a thumb and a camera do."""
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name="Take one").click()
    chooser.value.set_files(file)


def test_three_are_taken_one_is_left_out_and_two_are_of_the_wall(phone, wall, shots):
    phone.goto(WALL)
    phone.get_by_role("link", name="Shoot many").click()
    for shot in shots:
        take(phone, shot)
    expect(phone.get_by_text("3 pictures are ready to go.")).to_be_visible()
    first = phone.locator(".waiting img").first
    assert first.bounding_box()["width"] > 300, "seen as large as the phone allows"
    phone.get_by_role("button", name="Leave 1.jpg out").click()
    expect(phone.get_by_text("2 pictures are ready to go.")).to_be_visible()
    phone.get_by_role("button", name="Send the pictures").click()
    expect(phone.locator("#came .shot .s b")).to_have_text(["East wall", "East wall"])
    expect(phone.get_by_role("status").first).to_contain_text("2 pictures kept on E.")
    expect(phone.get_by_role("button", name="Take one")).to_be_visible()


def test_without_signal_they_wait_on_the_phone_and_go_by_themselves(phone, wall, shots):
    phone.goto("/builds/bindery/pictures/many?surface=E")
    take(phone, shots[0])
    phone.context.set_offline(True)
    phone.get_by_role("button", name="Send the pictures").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    phone.context.set_offline(False)
    all_sent(phone)
    phone.goto("/builds/bindery/pictures?surface=E")
    expect(phone.locator(".shown li")).to_have_count(1)


def test_it_works_without_scripts(old_phone, wall, shots):
    old_phone.goto(WALL)
    old_phone.get_by_role("link", name="Shoot many").click()
    old_phone.get_by_label("Pictures, one or several").set_input_files(shots)
    old_phone.get_by_role("button", name="Send the pictures").last.click()
    expect(old_phone.locator("#came li")).to_have_count(3)


def test_the_clock_of_ticked_pictures_is_put_right_and_back(phone, wall, shots):
    phone.goto("/builds/bindery/pictures?surface=E")
    phone.get_by_label("Pictures, one or several").set_input_files(shots)
    phone.get_by_role("button", name="Send the pictures").first.click()
    expect(phone.locator(".shown li")).to_have_count(3)
    for label in phone.locator(".shown .pick label").all()[:2]:
        label.click()
    phone.get_by_role("button", name="The ticked ones together").click()
    phone.get_by_text("Earlier", exact=True).click()
    phone.get_by_label("Hours").fill("1")
    phone.get_by_role("button", name="Shift the clock").last.click()
    expect(phone.get_by_role("status").first).to_contain_text("2 shifted, 1 h earlier.")
    phone.get_by_role("button", name="Take the shift back").click()
    expect(phone.get_by_role("status").first).to_contain_text("2 pictures as before.")
