"""Two owed pictures in a row with a phone: one press opens the camera, what it took is sent, the next is asked for."""

import pytest
from playwright.sync_api import Page, expect

from tests import builders, pictures
from tests.browser.conftest import all_sent

WALL = "/builds/bindery/surfaces/E"


@pytest.fixture
def wall(database, build) -> None:
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        for number, what in enumerate(("Whole wall", "Each box", "Label"), 1):
            builders.a_slot(session, surface, number, what=what)


@pytest.fixture
def shots(tmp_path) -> list[str]:
    made = []
    for number, size in enumerate(((96, 64), (90, 60))):
        path = tmp_path / f"{number}.jpg"
        path.write_bytes(pictures.a_jpeg(pictures.corners_image(*size), taken=f"2026:05:16 18:1{number}:00"))
        made.append(str(path))
    return made


def press(page: Page, name: str, file: str) -> None:
    """What a thumb and a camera do."""
    with page.expect_file_chooser() as chooser:
        page.get_by_role("button", name=name, exact=True).click()
    chooser.value.set_files(file)


def test_two_pictures_in_a_row_straight_from_the_surface(phone, wall, shots):
    phone.goto(WALL)
    press(phone, "Take picture 1: Whole wall", shots[0])
    expect(phone.get_by_role("heading", level=1)).to_have_text("Picture 2: Each box")
    expect(phone.get_by_text("2 of 3 left")).to_be_visible()
    expect(phone.get_by_role("status").first).to_contain_text("Picture 1 of E is kept.")
    press(phone, "Picture 2", shots[1])
    expect(phone.get_by_role("heading", level=1)).to_have_text("Picture 3: Label")
    expect(phone.get_by_text("1 of 3 left")).to_be_visible()
    phone.goto(WALL)
    expect(phone.locator(".stops.done b")).to_have_text(["Picture 1: Whole wall", "Picture 2: Each box"])


def test_the_main_button_before_cover_opens_the_camera_at_once(phone, wall, shots):
    phone.goto(f"{WALL}/before-cover")
    expect(phone.locator("form[data-behaviour=shoot]").first).to_be_visible()
    with phone.expect_file_chooser() as chooser:
        phone.get_by_role("link", name="Take picture 1", exact=True).click()
    chooser.value.set_files(shots[0])
    expect(phone.get_by_role("heading", level=1)).to_have_text("Picture 2: Each box")


def test_without_signal_the_picture_stays_and_goes_when_there_is(phone, wall, shots):
    phone.goto(f"{WALL}/shoot")
    expect(phone.get_by_role("button", name="Picture 1", exact=True)).to_be_visible()
    phone.context.set_offline(True)
    press(phone, "Picture 1", shots[0])
    expect(phone.locator("[data-shoot-says]")).to_contain_text("Kept on this phone: no signal")
    expect(phone.locator(".strip [data-unsent]")).to_have_text("Not sent: 1")
    phone.context.set_offline(False)
    all_sent(phone)
    phone.goto(f"{WALL}/shoot")
    expect(phone.get_by_role("heading", level=1)).to_have_text("Picture 2: Each box")


def test_it_works_without_scripts(old_phone, wall, shots):
    old_phone.goto(WALL)
    old_phone.get_by_role("link", name="Picture 1: Whole wall").click()
    old_phone.get_by_label("The picture").set_input_files(shots[0])
    old_phone.get_by_role("button", name="Send it").click()
    expect(old_phone.get_by_role("heading", level=1)).to_have_text("Picture 2: Each box")
