"""The evening before board: the wall may not be closed, each thing it owes is settled, and it is closed."""

import pytest
from playwright.sync_api import Page, expect

from tests import eastwall, pictures

WALL = "/builds/bindery/surfaces/E"


@pytest.fixture
def east(database, build) -> None:
    with database.writing() as session:
        eastwall.an_east_wall(session, build, filled=6)


@pytest.fixture
def picture(tmp_path):
    path = tmp_path / "sleeve.jpg"
    path.write_bytes(pictures.a_jpeg(taken="2026:05:16 18:10:00", place=True))
    return path


def owed(page: Page) -> list[str]:
    page.goto(f"{WALL}/before-cover")
    return page.locator(".stops:not(.wish):not(.done) b").all_inner_texts()


def settle_the_correction(page: Page) -> None:
    page.goto(f"{WALL}/before-cover")
    page.get_by_role("link", name="Seal the hole in the plate").click()
    page.get_by_role("link", name="Clear it on my word").click()
    page.get_by_label("It is done", exact=True).check()
    page.get_by_role("button", name="Clear it").click()
    expect(page.get_by_role("status")).to_have_text("Written down.")


def send_the_owed_picture(page: Page, picture) -> None:
    page.goto(f"{WALL}/before-cover")
    expect(page.locator("form[data-behaviour=shoot]").first).to_be_visible()
    with page.expect_file_chooser() as chooser:
        page.get_by_role("link", name="Take picture 7").click()
    chooser.value.set_files(picture)
    expect(page.get_by_role("status").first).to_contain_text("Picture 7 of E is kept.")


def let_the_shot_go(page: Page) -> None:
    page.goto(f"{WALL}/before-cover")
    page.get_by_role("link", name="Skip one and say why").click()
    mine = page.locator("#skip")
    mine.get_by_label("Sealing the duct sleeve").check()
    mine.get_by_label("Why").fill("Camera flat and the light gone.")
    mine.get_by_role("button", name="Let it go").click()
    expect(page.get_by_role("status")).to_contain_text("The reason stays with the surface.")


def test_closing_is_refused_with_every_reason_then_each_is_settled_and_the_wall_is_closed(phone, east, picture):
    assert len(owed(phone)) == 3
    expect(phone.get_by_role("heading", level=1)).to_have_text("Do not cover")
    phone.goto("/builds/bindery/phases")
    phone.get_by_role("link", name="Board").first.click()
    phone.get_by_role("link", name="Hang the board, east").click()
    phone.locator("#finish").get_by_role("button", name="Finish").click()
    expect(phone.get_by_role("heading", level=1)).to_contain_text("Not finished: East wall may not be covered yet")
    for words in ("Seal the hole in the plate", "Picture 7", "sealing the duct sleeve"):
        expect(phone.locator("main")).to_contain_text(words)
    settle_the_correction(phone)
    send_the_owed_picture(phone, picture)
    let_the_shot_go(phone)
    expect(phone.get_by_role("heading", level=1)).to_have_text("May be covered")
    assert owed(phone) == []
    phone.get_by_role("link", name="Close the wall").click()
    phone.get_by_label("With what").fill("board, 1/2 in")
    phone.get_by_role("button", name="Close the wall").click()
    expect(phone.get_by_role("status")).to_have_text("East wall is closed.")
    expect(phone.locator("main")).to_contain_text("Camera flat and the light gone.")
    phone.goto("/builds/bindery/before-cover")
    closed = phone.locator("section", has=phone.get_by_role("heading", name="Closed"))
    expect(closed.get_by_role("link", name="East wall")).to_be_visible()


def test_the_address_of_the_closing_form_refuses_too(phone, east):
    phone.goto(f"{WALL}/cover")
    expect(phone.get_by_role("heading", level=1)).to_contain_text("East wall: do not cover")
    phone.get_by_role("link", name="See what East wall still owes").first.click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Do not cover")
