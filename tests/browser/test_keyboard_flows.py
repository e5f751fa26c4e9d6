"""Flows with the keyboard only: reached with Tab, chosen with Space, sent with Enter; each stop on the way is seen."""

import pytest
from playwright.sync_api import Page, expect
from sqlmodel import select

from tests import builders, eastwall, pictures
from tests.browser.test_keyboard import FOCUSED, tab_to
from webapp.money.models import Spend
from webapp.surfaces.models import Cover, Item, PictureSlot
from webapp.workdays.models import Told

BASE = "/builds/bindery"
WALL = f"{BASE}/surfaces/E"


@pytest.fixture
def east(database, build) -> None:
    """The east wall with one picture, one correction and one shot owed."""
    with database.writing() as session:
        made = eastwall.an_east_wall(session, build, filled=6)
        builders.a_task(session, made.phase, "Staple the runs", 5, kind="wiring")


@pytest.fixture
def picture(tmp_path) -> str:
    path = tmp_path / "sleeve.jpg"
    path.write_bytes(pictures.a_jpeg(taken="2026:05:16 18:10:00"))
    return str(path)


def press(page: Page, name: str, key: str = "Enter") -> None:
    tab_to(page, name)
    page.keyboard.press(key)


def follow(page: Page, name: str, key: str = "Enter") -> None:
    """Press it and wait for the page that answers."""
    tab_to(page, name)
    with page.expect_navigation():
        page.keyboard.press(key)


def write(page: Page, name: str, text: str) -> None:
    tab_to(page, name)
    page.keyboard.type(text)


def choose(page: Page, first: str, arrow: str, name: str) -> None:
    """One of several: Tab reaches the first of them, the arrow keys the others."""
    tab_to(page, first)
    for _ in range(10):
        page.keyboard.press(arrow)
        if page.evaluate(FOCUSED)["name"].startswith(name):
            return
    raise AssertionError(f"{name} is not reached with {arrow}")


def choose_file(page: Page, name: str, path: str) -> None:
    tab_to(page, name)
    with page.expect_file_chooser() as chooser:
        page.keyboard.press("Space")
    chooser.value.set_files(path)


def test_an_owed_picture_is_chosen_and_sent(desk, east, picture, database):
    desk.goto(f"{WALL}/shoot")
    expect(desk.get_by_role("button", name="Picture 7", exact=True)).to_be_visible()
    choose_file(desk, "Picture 7", picture)
    expect(desk.get_by_role("status").first).to_contain_text("Picture 7 of E is kept.")
    with database.reading() as session:
        assert session.exec(select(PictureSlot).where(PictureSlot.number == 7)).one().photo_id is not None


def test_a_correction_is_cleared_a_shot_let_go_and_the_wall_is_covered(desk, east, picture, database):
    desk.goto(f"{WALL}/before-cover")
    follow(desk, "Seal the hole in the plate")
    follow(desk, "Clear it on my word")
    tab_to(desk, "On which day")
    press(desk, "It is done", "Space")
    follow(desk, "Clear it")
    expect(desk.get_by_role("status")).to_have_text("Written down.")
    desk.goto(f"{WALL}/before-cover")
    follow(desk, "Skip one and say why")
    expect(desk.locator("#skip")).to_be_visible()
    press(desk, "Shot: sealing the duct sleeve", "Space")
    write(desk, "Why", "Camera flat.")
    follow(desk, "Let it go")
    expect(desk.get_by_role("status")).to_contain_text("The reason stays with the surface.")
    desk.goto(f"{WALL}/shoot")
    choose_file(desk, "Picture 7", picture)
    expect(desk.get_by_role("status").first).to_contain_text("Picture 7 of E is kept.")
    desk.goto(f"{WALL}/before-cover")
    follow(desk, "Close the wall")
    expect(desk.get_by_role("heading", level=1)).to_have_text("Close the wall")
    write(desk, "With what", "board")
    follow(desk, "Close the wall", "Space")
    expect(desk.get_by_role("status")).to_have_text("East wall is closed.")
    with database.reading() as session:
        assert session.exec(select(Cover)).one().layers == "board"


def test_a_thing_is_put_where_it_was_measured(desk, east, database):
    desk.goto(WALL)
    follow(desk, "Add an offset")
    write(desk, "What it is", "Box by the door")
    write(desk, "Distance from that corner", "24")
    write(desk, "Above", "42")
    choose(desk, "No", "ArrowRight", "Yes")
    follow(desk, "Add it")
    expect(desk.locator("main")).to_contain_text("Box by the door")
    with database.reading() as session:
        assert session.exec(select(Item)).one().label == "Box by the door"


@pytest.mark.parametrize("device", ["desk", "phone"])
def test_a_task_is_started_after_its_cautions_are_read(request, device, east):
    page = request.getfixturevalue(device)
    page.goto(f"{BASE}/phases/1")
    follow(page, "Staple the runs")
    expect(page.get_by_role("heading", level=1)).to_have_text("Staple the runs")
    tab_to(page, "Started on")
    follow(page, "Start")
    expect(page.get_by_role("status")).to_contain_text("is under way")


def test_a_line_of_spend_with_its_receipt(desk, east, picture, database):
    desk.goto(f"{BASE}/spend")
    write(desk, "Paid, USD", "18.40")
    write(desk, "What for", "Staples")
    choose_file(desk, "Picture of the receipt", picture)
    follow(desk, "Write the line down")
    expect(desk.get_by_role("status")).to_be_visible()
    with database.reading() as session:
        line = session.exec(select(Spend)).one()
    assert (line.what, line.total_cents, line.receipt_photo_id is not None) == ("Staples", 1840, True)


def test_somebody_is_told_before_working_alone(phone, east, database):
    phone.goto(f"{BASE}/alone")
    write(phone, "I told", "Sam")
    write(phone, "Back by", "23:59")
    follow(phone, "I told them", "Space")
    expect(phone.get_by_role("status")).to_contain_text("Told Sam, back by 23:59.")
    follow(phone, "I am back")
    with database.reading() as session:
        assert session.exec(select(Told)).one().ended_how == "back"
