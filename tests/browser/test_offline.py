"""Without signal, in real Chromium: what was kept is read with its age, what is recorded waits and arrives once."""

import pytest
from playwright.sync_api import Page, expect
from sqlmodel import select

from tests import builders
from tests.browser.conftest import all_sent
from webapp.workdays.models import Workday

BASE = "/builds/bindery"
KEPT = """async (base) => {
  const registration = await navigator.serviceWorker.ready;
  return new Promise((done) => {
    navigator.serviceWorker.addEventListener("message", ({ data }) => data.kept !== undefined && done(data.kept));
    (navigator.serviceWorker.controller ?? registration.active).postMessage({ keep: base });
  });
}"""


@pytest.fixture
def east(database, build) -> None:
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        board = builders.a_task(session, builders.a_phase(session, build), "Hang the board on E", state="under way")
        builders.works_on(session, board, surface, closes=True)
        builders.a_slot(session, surface)


def kept(page: Page) -> None:
    """The phone was opened once with signal, and has what it keeps."""
    page.goto(f"{BASE}/today")
    assert page.evaluate(KEPT, BASE)


def test_a_kept_sheet_is_read_without_signal_and_says_how_old_it_is(phone, east):
    kept(phone)
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/surfaces/E/before-cover")
    expect(phone.locator(".said.kept")).to_contain_text("Kept on this phone just now")
    phone.goto(f"{BASE}/settings-of-nobody")
    expect(phone.get_by_role("heading", name="Not kept on this phone")).to_be_visible()


def test_a_day_recorded_without_signal_arrives_once(phone, east, database):
    kept(phone)
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/workdays/log")
    phone.get_by_label("What got done, what came").fill("Plates.")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    expect(phone.locator(".strip [data-unsent]")).to_have_text("Not sent: 1")
    phone.context.set_offline(False)
    phone.goto(f"{BASE}/today")
    all_sent(phone)
    with database.reading() as session:
        assert [day.done for day in session.exec(select(Workday)).all()] == ["Plates."]
