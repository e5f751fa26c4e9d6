"""An old phone, or a script that did not arrive: everything that matters is plain forms and links."""

from datetime import date

import pytest
from playwright.sync_api import Page, expect

from tests import builders, eastwall, pictures


@pytest.fixture
def east(database, build) -> int:
    """The east wall without its last word and its shot; gives the id of the task that closes it."""
    with database.writing() as session:
        return eastwall.an_east_wall(session, build, filled=7).board.row_id


def said(page: Page, words: str) -> None:
    expect(page.get_by_role("status")).to_contain_text(words)


def test_a_day_with_a_picture_is_logged(old_phone, east, tmp_path):
    shot = tmp_path / "IMG_1.jpg"
    shot.write_bytes(pictures.a_jpeg(taken="2026:05:16 17:00:00", place=True))
    old_phone.goto("/builds/bindery/today")
    old_phone.get_by_role("link", name="Log the day").click()
    old_phone.get_by_label("My hours", exact=True).fill("5½")
    old_phone.get_by_label("What got done, what came").fill("Plates on the east wall.")
    old_phone.get_by_label("Straight from the camera").set_input_files(shot)
    old_phone.get_by_role("button", name="Save the day").click()
    expect(old_phone.get_by_role("heading", name="Saved.")).to_be_visible()
    expect(old_phone.locator(".lede")).to_have_text("Saturday 16 May 2026: 5½ h my own, 1 picture.")


def test_a_day_that_cannot_be_meant_comes_back_with_what_was_typed(old_phone, east):
    old_phone.goto("/builds/bindery/workdays/log")
    old_phone.get_by_label("My hours", exact=True).fill("55")
    old_phone.get_by_label("What got done, what came").fill("Plates on the east wall.")
    old_phone.get_by_role("button", name="Save the day").click()
    expect(old_phone.get_by_label("My hours", exact=True)).to_have_attribute("aria-invalid", "true")
    expect(old_phone.get_by_label("My hours", exact=True)).to_have_value("55")
    expect(old_phone.get_by_label("What got done, what came")).to_have_value("Plates on the east wall.")


def test_a_task_is_put_down_and_finished(old_phone, east):
    old_phone.goto("/builds/bindery/phases")
    old_phone.get_by_role("link", name="Board").first.click()
    old_phone.get_by_label("Task", exact=True).fill("Sweep the floor")
    old_phone.get_by_label("Kind of work").select_option(label="Cleaning")
    old_phone.get_by_role("button", name="Write it down").click()
    said(old_phone, "“Sweep the floor” is on the list.")
    old_phone.get_by_role("link", name="Sweep the floor").click()
    old_phone.locator("#finish").get_by_role("button", name="Finish").click()
    said(old_phone, "“Sweep the floor” is done.")


def test_a_result_is_recorded(old_phone, database, build):
    with database.writing() as session:
        wall = builders.a_surface(session, build)
        inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(wall,), code="ROUGH")
        builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked")
    old_phone.goto("/builds/bindery/inspections/ROUGH")
    old_phone.get_by_role("link", name="Record the result").click()
    old_phone.get_by_role("group", name="East wall").get_by_text("Part", exact=True).click()
    old_phone.get_by_label("Which part passed").fill("up to the window")
    old_phone.get_by_role("button", name="Save the result").click()
    said(old_phone, "The result is on record.")
    expect(old_phone.get_by_role("link", name="East wall")).to_contain_text("up to the window")


def test_what_stops_a_task_is_one_link_away_and_an_owed_shot_is_let_go(old_phone, east):
    old_phone.goto(f"/builds/bindery/tasks/{east}")
    old_phone.get_by_role("link", name="See what stops this task").click()
    expect(old_phone.locator("main")).to_contain_text("Seal the hole in the plate")
    old_phone.goto("/builds/bindery/surfaces/E/before-cover")
    old_phone.get_by_role("link", name="Skip one and say why").click()
    mine = old_phone.locator("#skip")
    mine.get_by_label("Sealing the duct sleeve").check()
    mine.get_by_role("button", name="Let it go").click()
    expect(old_phone.get_by_role("alert")).to_contain_text("Write the reason. It stays on record for good.")
    expect(mine.get_by_label("Sealing the duct sleeve")).to_be_checked()
    mine.get_by_label("Why").fill("Camera flat and the light gone.")
    mine.get_by_role("button", name="Let it go").click()
    said(old_phone, "Let go. The reason stays with the surface.")


def test_an_episode_is_published(old_phone, viewer, database, build):
    with database.writing() as session:
        builders.an_episode(session, build)
        builders.a_workday(session, build)
    old_phone.goto("/builds/bindery/episodes/1")
    old_phone.get_by_role("button", name="Take the draft over").click()
    said(old_phone, "The draft is the text now.")
    old_phone.get_by_label("Title").fill("Plates, plates")
    old_phone.get_by_role("button", name="Publish it").click()
    said(old_phone, "Episode 1 is out. The next one has begun.")
    viewer.goto("/watch/bindery/1")
    expect(viewer.get_by_role("heading", level=1)).to_contain_text("Plates, plates")


def test_the_look_is_changed_and_stays(old_phone, east):
    old_phone.goto("/builds/bindery/today")
    old_phone.locator(".strip").get_by_role("button", name="Sun").click()
    expect(old_phone.locator("html")).to_have_attribute("data-look", "sun")
    expect(old_phone).to_have_url("/builds/bindery/today")
    old_phone.locator(".strip").get_by_role("button", name="Sun").click()
    expect(old_phone.locator("html")).not_to_have_attribute("data-look", "sun")
