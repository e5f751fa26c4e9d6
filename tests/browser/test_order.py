"""A list put in order by the keyboard and by the mouse, in a real browser; and the question when it hides something."""

import pytest
from playwright.sync_api import Browser, expect

from tests import builders
from tests.browser.conftest import DESK, served, watched
from webapp.plan.models import Need


@pytest.fixture
def phase(database, build) -> int:
    """Frame, duct, board; the inspection of the ceiling needs the duct."""
    with database.writing() as session:
        above = builders.a_surface(session, build, "C", "Ceiling", kind="ceiling", facing="")
        kind = builders.an_inspection(session, builders.a_permit(session, build), "Duct, rough", (above,), code="IMEC")
        made = builders.a_phase(session, build, "Ceiling")
        builders.a_task(session, made, "Frame", 1, kind="framing")
        duct = builders.a_task(session, made, "Duct", 2, kind="ducting")
        board = builders.a_task(session, made, "Board", 3)
        builders.works_on(session, board, above, closes=True)
        need = {"what_kind": "inspection", "what_id": kind.row_id, "needs_kind": "task", "needs_id": duct.row_id}
        builders.kept(session, Need(build_id=build.row_id, **need))
        return made.row_id


def names(page) -> list[str]:
    return page.locator("#tasks .order b").all_inner_texts()


def test_arrow_keys_and_enter_move_a_row_and_escape_puts_it_back(chromium: Browser, app, token, phase):
    with served(app) as address, watched(chromium, address, token, **DESK) as page:
        page.goto(f"/builds/bindery/phases/{phase}?order=1")
        grip = page.get_by_role("button", name="Move: Frame")
        grip.focus()
        page.keyboard.press("ArrowDown")
        assert names(page) == ["Duct", "Frame", "Board"]
        page.keyboard.press("Escape")
        assert names(page) == ["Frame", "Duct", "Board"]
        grip.focus()
        page.keyboard.press("ArrowDown")
        with page.expect_response("**/move") as answer:
            page.keyboard.press("Enter")
        assert answer.value.status == 200
        expect(page.locator("#tasks .order b").first).to_have_text("Duct")
        page.goto(f"/builds/bindery/phases/{phase}?order=1")
        assert names(page) == ["Duct", "Frame", "Board"]


def test_dragging_the_board_first_asks_what_would_be_hidden(chromium: Browser, app, token, phase):
    with served(app) as address, watched(chromium, address, token, **DESK) as page:
        page.goto(f"/builds/bindery/phases/{phase}?order=1")
        grip = page.get_by_role("button", name="Move: Board").bounding_box()
        first = page.locator("#tasks .order > li").first.bounding_box()
        page.mouse.move(grip["x"] + 20, grip["y"] + 20)
        page.mouse.down()
        page.mouse.move(grip["x"] + 20, first["y"] + 30, steps=6)
        page.mouse.move(grip["x"] + 20, first["y"] + 4, steps=3)
        page.mouse.up()
        expect(page.get_by_text("Duct, rough would be hidden on the ceiling")).to_be_visible()
        page.get_by_role("link", name="Put it back").click()
        expect(page.locator("#tasks .order b").first).to_have_text("Frame")
        assert names(page) == ["Frame", "Duct", "Board"]
