"""At the laptop: the draft becomes the builder's own text, goes out, and is read by somebody signed out."""

import io
from datetime import date

import pytest
from PIL import Image
from playwright.sync_api import Page, expect

from tests import builders, pictures

DESK = "/builds/bindery/episodes/1"


@pytest.fixture
def span(database, build, settings) -> None:
    """Two weeks of record: work, a visit in part, a day and a picture that carries its place."""
    with database.writing() as session:
        builders.an_episode(session, build)
        phase = builders.a_phase(session, build, "Rough-in")
        builders.a_task(session, phase, "Plates over every bored stud", state="done", done_on=date(2026, 5, 9))
        east = builders.a_surface(session, build)
        inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(east,))
        visit = builders.a_visit(session, inspection)
        part = builders.a_result(session, visit, east, "part passed", part="all but the box")
        builders.a_correction(session, visit, part, words="Ground the two-gang box")
        builders.a_workday(session, build)
        builders.a_picture(session, build, settings.photos, pictures.a_jpeg(taken="2026:05:09 17:48:00", place=True))


def take_the_draft_over(page: Page) -> None:
    page.goto("/builds/bindery/episodes")
    page.get_by_role("link", name="in the making").click()
    page.get_by_role("button", name="Take the draft over").click()
    expect(page.get_by_role("status")).to_contain_text("The draft is the text now.")


def write_and_choose(page: Page) -> None:
    page.get_by_label("Title").fill("All but the box")
    text = page.get_by_label("What you say, as Markdown")
    text.fill(text.input_value() + "\nI had that coming, and <script>alert(1)</script> does nothing here.\n")
    page.get_by_role("button", name="Choose:").click()
    page.get_by_label("In words, for those who cannot see it").fill("Open studs with a tape across them")
    page.get_by_label("I looked it over").check()


def test_a_draft_is_edited_published_and_read_by_somebody_signed_out(desk, viewer, span):
    take_the_draft_over(desk)
    write_and_choose(desk)
    desk.get_by_role("button", name="See it as viewers would").click()
    expect(desk.get_by_role("heading", level=1)).to_contain_text("All but the box")
    expect(desk.get_by_role("note").first).to_contain_text("Only you see this.")
    viewer.goto("/watch/bindery/1")
    expect(viewer.get_by_text("All but the box")).to_have_count(0)
    desk.get_by_role("link", name="Back to the desk").click()
    desk.get_by_role("button", name="Publish it").click()
    expect(desk.get_by_role("status")).to_have_text("Episode 1 is out. The next one has begun.")
    viewer.goto("/watch")
    viewer.get_by_role("link", name="Bindery").first.click()
    viewer.get_by_role("link", name="All but the box").click()
    main = viewer.locator("main")
    expect(main).to_contain_text("7 May 2026: Rough electrical (East wall) part passed (all but the box).")
    expect(main).to_contain_text("Still to put right: Ground the two-gang box (East wall).")
    expect(main).to_contain_text("I had that coming")
    assert viewer.locator("main script").count() == 0
    shown = viewer.get_by_role("img", name="Open studs with a tape across them")
    expect(shown).to_be_visible()
    body = viewer.request.get(shown.get_attribute("src")).body()
    assert dict(Image.open(io.BytesIO(body)).getexif()) == {}


def test_what_is_missing_is_named_and_what_was_typed_is_kept(desk, span):
    desk.goto(DESK)
    desk.get_by_label("What you say, as Markdown").fill("Only this.")
    desk.get_by_role("button", name="Publish it").click()
    expect(desk.get_by_role("alert")).to_contain_text("It has no title")
    expect(desk.get_by_role("alert")).to_be_focused()
    expect(desk.get_by_label("What you say, as Markdown")).to_have_value("Only this.")


def test_a_dated_correction_is_read_above_the_text(desk, viewer, span):
    take_the_draft_over(desk)
    desk.get_by_label("Title").fill("All but the box")
    desk.get_by_role("button", name="Publish it").click()
    desk.get_by_label("What was wrong, and what is so").fill("The box is grounded since 14 May.")
    desk.get_by_role("button", name="Add the correction").click()
    viewer.goto("/watch/bindery/1")
    expect(viewer.locator("main")).to_contain_text("Correction, 16 May 2026")
    expect(viewer.locator("main")).to_contain_text("The box is grounded since 14 May.")
