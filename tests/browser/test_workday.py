"""The evening on the phone: a day with three pictures is logged, and what waited for the work can start."""

import hashlib
import io
import re
from pathlib import Path

import pytest
from PIL import Image, ImageDraw
from playwright.sync_api import Page, expect

from tests import builders, pictures
from tests.browser.conftest import all_sent
from webapp.photos.rules.names import original_name

GPS = 0x8825
"""the tag of the GPS part of Exif (Exif 2.32, 4.6.3)"""
SIZES = ((4032, 3024), (1600, 1200), (800, 600))
"""as a phone makes them (12 million pixels), and two smaller ones"""


@pytest.fixture
def east(database, build) -> None:
    """The east wall, seen by the inspector: board waits for the wiring, mud and tape wait for the board."""
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        builders.looked_at(session, build, surface)
        phase = builders.a_phase(session, build)
        wiring = builders.a_task(session, phase, "Pull the circuit", 1, kind="wiring")
        board = builders.a_task(session, phase, "Hang the board on E", 2)
        builders.a_need(session, board, wiring)
        builders.works_on(session, wiring, surface)
        builders.works_on(session, board, surface, closes=True)
        builders.a_slot(session, surface)


@pytest.fixture
def shots(tmp_path: Path) -> list[Path]:
    """Three JPEGs as they lie on the phone; each carries where it was taken."""
    made = []
    for number, size in enumerate(SIZES, 1):
        image = Image.effect_noise((size[0] // 8, size[1] // 8), 60).resize(size).convert("RGB")
        ImageDraw.Draw(image).text((40, 40), f"picture {number}", fill="black")
        path = tmp_path / f"IMG_000{number}.jpg"
        path.write_bytes(pictures.a_jpeg(image, taken=f"2026:05:16 17:0{number}:00", place=True))
        assert Image.open(path).getexif().get_ifd(GPS), "the picture must carry a place, or the test says nothing"
        made.append(path)
    return made


def log_the_day(page: Page, shots: list[Path]) -> None:
    page.goto("/builds/bindery/today")
    page.get_by_role("link", name="Log the day").click()
    more = page.get_by_role("button", name="My hours: half an hour more")
    more.click()
    more.click()
    more.click()
    expect(page.get_by_label("My hours", exact=True)).to_have_value("1.5")
    page.get_by_label("Finished Pull the circuit").check()
    expect(page.get_by_role("checkbox", name=re.compile(r"^Pull the circuit"))).to_be_checked()
    page.get_by_label("What got done, what came").fill("Circuit pulled, clamps tight.")
    page.get_by_label("Dry").check()
    page.get_by_label("First step next time").fill("Count the boxes.")
    page.get_by_label("From this phone’s pictures").set_input_files(shots)
    page.get_by_text("A thing in it, or an owed picture").click()
    page.get_by_label("Fills the owed picture").select_option(index=1)
    page.get_by_role("button", name="Save the day").click()
    expect(page.get_by_role("heading", name="Saved.")).to_be_visible()


def made(page: Page, address: str) -> bytes:
    """The copy at this address; copies are made in the background, after the answer."""
    for _ in range(100):
        answer = page.request.get(address)
        if answer.headers["content-type"] == "image/webp":
            return answer.body()
        page.wait_for_timeout(100)
    raise AssertionError(f"{address} was not made")


def test_a_day_with_three_pictures_is_saved_says_what_it_freed_and_keeps_them_to_the_byte(phone, east, shots, settings):
    log_the_day(phone, shots)
    expect(phone.locator(".lede")).to_contain_text("3 pictures")
    freed = phone.locator("section", has=phone.get_by_role("heading", name="What this freed"))
    expect(freed.get_by_role("link", name="Hang the board on E")).to_contain_text("can start now")
    expect(freed.get_by_role("link", name="East wall may be covered")).to_be_visible()
    expect(phone.get_by_text("Count the boxes.")).to_be_visible()
    phone.reload()
    expect(freed.get_by_role("link", name="Hang the board on E")).to_be_visible()
    for path in shots:
        sha256 = hashlib.sha256(path.read_bytes()).hexdigest()
        assert (settings.photos / original_name(sha256)).read_bytes() == path.read_bytes()
        for size in (320, 1280):
            copy = Image.open(io.BytesIO(made(phone, f"/photos/{sha256}/{size}")))
            assert max(copy.size) <= size
            assert (dict(copy.getexif()), copy.info.get("exif"), copy.info.get("xmp")) == ({}, None, None)
    phone.get_by_role("link", name="Look at the day").click()
    expect(phone.locator("main img")).to_have_count(3)


def test_a_blocked_task_is_seen_becoming_ready(phone, east, shots):
    phone.goto("/builds/bindery/phases")
    phone.get_by_role("link", name="Board").first.click()
    phone.get_by_role("link", name="Hang the board on E").click()
    panel = phone.locator(".stops-panel")
    expect(panel).to_contain_text("Pull the circuit")
    task = phone.url
    log_the_day(phone, shots[2:])
    phone.goto(task)
    expect(panel).to_contain_text("Nothing stops it. It can start today.")


def test_a_picture_is_shown_before_it_is_sent_and_one_taken_later_joins_it(phone, east, shots):
    phone.goto("/builds/bindery/workdays/log")
    phone.get_by_label("From this phone’s pictures").set_input_files(shots[1])
    phone.get_by_label("Straight from the camera").set_input_files(shots[2])
    expect(phone.get_by_role("img", name="IMG_0002.jpg")).to_be_visible()
    expect(phone.get_by_role("img", name="IMG_0003.jpg")).to_be_visible()
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.locator(".lede")).to_contain_text("2 pictures")


def test_a_picture_chosen_before_the_script_was_there_is_shown_as_well(phone, east, shots):
    late: list = []
    phone.route("**/log*.js", lambda route: late.append(route))
    with phone.expect_request("**/log*.js"):
        phone.goto("/builds/bindery/workdays/log", wait_until="commit")
    phone.get_by_label("From this phone’s pictures").set_input_files(shots[1])
    phone.get_by_label("Straight from the camera").set_input_files(shots[2])
    late[0].continue_()
    expect(phone.get_by_role("img", name="IMG_0002.jpg")).to_be_visible()
    expect(phone.get_by_role("img", name="IMG_0003.jpg")).to_be_visible()


def test_pictures_alone_are_listed_before_they_are_sent(phone, east, shots):
    phone.goto("/builds/bindery/pictures")
    phone.get_by_label("Pictures, one or several").set_input_files(shots[1:])
    expect(phone.locator(".waiting li span")).to_have_text(["IMG_0002.jpg", "IMG_0003.jpg"])
    phone.get_by_label("Surface", exact=True).select_option(label="East wall")
    phone.get_by_role("button", name="Send the pictures").click()
    expect(phone.locator(".said").first).to_have_text("2 pictures kept on E.")


def test_a_day_half_typed_is_still_there_after_the_phone_went_to_sleep(phone, east):
    phone.goto("/builds/bindery/workdays/log")
    phone.get_by_label("What got done, what came").fill("Half of the wiring.")
    phone.get_by_label("Rain").first.check()
    phone.wait_for_load_state("networkidle")  # also what was typed before the script was here
    phone.goto("/builds/bindery/workdays/log")
    expect(phone.get_by_label("What got done, what came")).to_have_value("Half of the wiring.")
    expect(phone.get_by_label("Rain").first).to_be_checked()
    phone.get_by_role("button", name="Throw the draft away").click()
    expect(phone.get_by_label("What got done, what came")).to_have_value("")


def test_a_form_that_was_only_looked_at_leaves_no_draft(phone, east):
    for _ in range(2):
        phone.goto("/builds/bindery/workdays/log")
        phone.wait_for_load_state("networkidle")
        expect(phone.locator("[data-sender-draft]")).to_be_hidden()


def test_without_signal_nothing_is_lost_and_it_is_sent_by_itself_later(phone, east):
    phone.goto("/builds/bindery/workdays/log")
    phone.get_by_label("What got done, what came").fill("Plates on the studs.")
    phone.wait_for_load_state("networkidle")
    phone.context.set_offline(True)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    expect(phone.get_by_text("Not sent yet: 1.")).to_be_visible()
    phone.context.set_offline(False)
    phone.get_by_role("link", name="Today", exact=True).first.click()
    all_sent(phone)
    phone.goto("/builds/bindery/workdays")
    expect(phone.get_by_text("Plates on the studs.")).to_be_visible()
