"""What a builder does on site works without signal and arrives: results, corrections, things on a wall, ticks."""

import pytest
from playwright.sync_api import Page, expect
from sqlmodel import select

from tests.browser.conftest import KEPT, all_sent
from tests.browser.test_drawing import DRAWING, spot, wall
from tests.browser.test_visit import correction, visit
from webapp.inspections.models import Correction, Result
from webapp.surfaces.models import Item

__all__ = ["visit", "wall"]
pytestmark = pytest.mark.worker
BASE = "/builds/bindery"


def without_signal(page: Page) -> None:
    page.context.clock.set_fixed_time("2026-05-16T10:20:00")
    page.goto(f"{BASE}/today")
    assert page.evaluate(KEPT, BASE)
    page.context.set_offline(True)


def everything(database, table):
    with database.reading() as session:
        return session.exec(select(table)).all()


def arrives(page: Page) -> None:
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    page.context.set_offline(False)
    page.goto(f"{BASE}/today")
    all_sent(page)


def test_a_part_passed_result_with_its_correction(phone, visit, database):
    without_signal(phone)
    phone.goto(f"{BASE}/visits/1")
    phone.get_by_role("group", name="East wall").get_by_text("Passed", exact=True).click()
    south = phone.get_by_role("group", name="South wall")
    south.get_by_text("Part", exact=True).click()
    south.get_by_label("Which part passed").fill("all but the two-gang box")
    correction(phone, "Ground the two-gang box.", 1)
    phone.get_by_role("button", name="Save the result").click()
    arrives(phone)
    assert {result.kind for result in everything(database, Result)} == {"passed", "part passed"}
    [found] = everything(database, Correction)
    assert found.words == "Ground the two-gang box."


def test_a_thing_placed_on_the_wall(phone, wall, database):
    before = len(everything(database, Item))
    without_signal(phone)
    phone.goto(DRAWING)
    phone.get_by_role("button", name="Place").tap()
    phone.touchscreen.tap(*spot(phone, 36, 46))
    phone.get_by_role("button", name="Switch").tap()
    arrives(phone)
    assert len(everything(database, Item)) == before + 1


def test_a_tick_of_the_list_for_the_visit(phone, visit):
    without_signal(phone)
    phone.goto(f"{BASE}/visits/1/ready")
    phone.get_by_text("Fine", exact=True).first.click()
    phone.get_by_role("button", name="Keep the ticks").click()
    arrives(phone)
    phone.goto(f"{BASE}/visits/1/ready")
    expect(phone.get_by_label("Fine", exact=True).first).to_be_checked()
