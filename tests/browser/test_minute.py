"""The day's note in a minute: an ordinary evening with six taps and one dictation at most, counted in a browser."""

from datetime import date

import pytest
from playwright.sync_api import Page, expect
from sqlmodel import select

from tests import builders
from webapp.workdays.models import Workday, WorkEntry

MOST_TAPS = 6
COUNT = """addEventListener("pointerdown", () => {
  sessionStorage.setItem("taps", 1 + Number(sessionStorage.getItem("taps")));
}, true)"""
"""every finger that comes down, on any page of the flow"""


@pytest.fixture
def usual(database, build) -> int:
    """Saturdays of 6½ hours; six tasks under way or free, the last of them worked on a week ago."""
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        made = [builders.a_task(session, phase, f"Job {number}", number, state="under way") for number in range(6)]
        last = made[-1].row_id
        for day in (date(2026, 5, 2), date(2026, 5, 9)):
            workday = builders.a_workday(session, build, day, own_min=390)
        builders.kept(session, WorkEntry(workday_id=workday.row_id, task_id=last))
        return last


def taps(page: Page) -> int:
    return int(page.evaluate("sessionStorage.getItem('taps')"))


def on_screen(page: Page, css: str) -> dict[str, float]:
    """Where a thing stands in the window; it must be seen without scrolling, above the bottom bar."""
    box = page.locator(css).bounding_box()
    bar = page.locator(".reach").bounding_box()
    assert box["y"] >= 0 and box["y"] + box["height"] <= bar["y"], f"{css} stands at {box}, the bar at {bar['y']}"
    return box


def test_an_ordinary_evening_takes_five_taps_and_one_dictation(phone, usual, database):
    phone.add_init_script(COUNT)
    phone.goto("/builds/bindery/today")
    phone.get_by_role("link", name="Log the day").tap()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Log the day")
    phone.get_by_role("button", name="My hours: 6½ h, as usual").tap()
    expect(phone.get_by_label("My hours", exact=True)).to_have_value("6.5")
    field = on_screen(phone, "#f-done")
    assert field["height"] >= 140 and field["width"] >= 300, "big enough to hit and to read back"
    phone.get_by_label("What got done, what came").tap()
    phone.keyboard.insert_text("Two circuits pulled on the east wall, clamps tight, half the boxes made up.")
    phone.get_by_label("Finished Job 5").tap()
    phone.get_by_role("button", name="Save the day").last.tap()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible(timeout=20_000)
    assert taps(phone) == 5 < MOST_TAPS
    with database.reading() as session:
        day = session.exec(select(Workday).order_by(Workday.id.desc())).first()
        entry = session.exec(select(WorkEntry).where(WorkEntry.workday_id == day.id)).one()
    assert (day.own_min, day.done[:12]) == (390, "Two circuits")
    assert (entry.task_id, entry.finished) == (usual, True)


def test_a_day_lost_to_rain_takes_four_taps(phone, usual, database):
    phone.add_init_script(COUNT)
    phone.goto("/builds/bindery/today")
    phone.get_by_role("link", name="Log the day").tap()
    phone.get_by_role("group", name="What stopped me").get_by_label("Rain").tap()
    phone.get_by_label("A lost day: nothing could be done").tap()
    phone.get_by_role("button", name="Save the day").last.tap()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible(timeout=20_000)
    assert taps(phone) == 4
    with database.reading() as session:
        day = session.exec(select(Workday).order_by(Workday.id.desc())).first()
    assert (day.lost, day.stopped_by) == (True, "Rain")


def test_usual_hours_and_half_hours_go_together(phone, usual):
    phone.goto("/builds/bindery/workdays/log")
    phone.get_by_role("button", name="My hours: 6½ h, as usual").tap()
    phone.get_by_role("button", name="My hours: half an hour more").tap()
    expect(phone.get_by_label("My hours", exact=True)).to_have_value("7")
    phone.get_by_role("button", name="My hours: 6½ h, as usual").tap()
    expect(phone.get_by_label("My hours", exact=True)).to_have_value("6.5")


def test_without_scripts_hours_are_typed_and_no_dead_button_is_shown(old_phone, usual):
    old_phone.goto("/builds/bindery/workdays/log")
    expect(old_phone.get_by_role("button", name="My hours: 6½ h, as usual")).to_be_hidden()
    expect(old_phone.get_by_label("My hours", exact=True)).to_be_visible()
