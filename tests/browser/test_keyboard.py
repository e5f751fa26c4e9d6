"""The laptop without a mouse: everything is reached with Tab, chosen with Space, sent with Enter, and seen."""

from datetime import date

import pytest
from playwright.sync_api import Page, expect

from tests import builders

FOCUSED = r"""() => {
  const at = document.activeElement, box = at.getBoundingClientRect();
  const width = (one) => {
    const style = getComputedStyle(one);
    return style.outlineStyle === "none" ? 0 : parseFloat(style.outlineWidth);
  };
  let ring = 0;
  for (let one = at; one && one !== document.body; one = one.parentElement) ring = Math.max(ring, width(one));
  const bar = document.querySelector(".reach")?.getBoundingClientRect();
  const stuck = bar && getComputedStyle(document.querySelector(".reach")).position === "sticky";
  const label = at.labels?.[0] ?? at;
  const beside = stuck && at.closest("main") && !at.closest(".reach");
  const under = beside && box.bottom > bar.top + 1 && box.top < bar.bottom;
  return {
    tag: at.tagName,
    name: (at.getAttribute("aria-label") || label.innerText || at.value || "").replace(/\s+/g, " ").trim(),
    ring,
    seen: box.width > 1 && box.bottom > 0 && box.top < innerHeight && !under,
  };
}"""
"""what has the focus: its name, how wide its ring is or that of its ruled cell, and whether it
can be seen and does not lie under the bottom bar"""
MOST = 120


@pytest.fixture
def ready(database, build) -> None:
    """One task that can start, and a visit that comes today."""
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        wall = builders.a_surface(session, build)
        builders.a_task(session, phase, "Pull the circuit", kind="wiring")
        inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(wall,), code="ROUGH")
        builders.a_visit(session, inspection, date(2026, 5, 16), outcome="asked")


def tab_to(page: Page, name: str, key: str = "Tab") -> None:
    """Press Tab until the thing of this name has the focus; every stop on the way must be seen."""
    for _ in range(MOST):
        page.keyboard.press(key)
        at = page.evaluate(FOCUSED)
        if at["tag"] == "BODY":
            continue
        assert at["ring"] >= 2, f"no ring on {at['name'] or at['tag']}"
        assert at["seen"], f"{at['name'] or at['tag']} has the focus and cannot be seen"
        if at["name"].startswith(name):
            return
    raise AssertionError(f"{name} is not reached with {key}")


def test_the_first_stop_skips_to_the_sheet(desk, ready):
    desk.goto("/builds/bindery/today")
    desk.keyboard.press("Tab")
    skip = desk.get_by_role("link", name="Skip to the sheet")
    expect(skip).to_be_focused()
    expect(skip).to_be_in_viewport()
    desk.keyboard.press("Enter")
    desk.keyboard.press("Tab")
    assert desk.evaluate("document.activeElement.closest('main') !== null"), "the next stop is in the sheet itself"


@pytest.mark.parametrize("device", ["desk", "phone"])
def test_the_day_is_logged_with_the_keyboard_only(request, device, ready):
    page = request.getfixturevalue(device)
    page.goto("/builds/bindery/today")
    tab_to(page, "Log the day")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", level=1)).to_have_text("Log the day")
    tab_to(page, "My hours: half an hour less")
    tab_to(page, "My hours")
    page.keyboard.type("5.5")
    tab_to(page, "Pull the circuit")
    page.keyboard.press("Space")
    tab_to(page, "Finished Pull the circuit")
    page.keyboard.press("Space")
    tab_to(page, "What got done, what came")
    page.keyboard.type("Circuit pulled.")
    tab_to(page, "Not said")
    page.keyboard.press("ArrowDown")
    expect(page.get_by_label("Dry")).to_be_checked()
    tab_to(page, "Save the day")
    page.keyboard.press("Enter")
    expect(page.get_by_role("heading", name="Saved.")).to_be_focused()
    expect(page.locator(".lede")).to_contain_text("5½ h my own")
    tab_to(page, "Look at the day")
    page.keyboard.press("Enter")
    expect(page.locator("main")).to_contain_text("Circuit pulled.")


@pytest.mark.parametrize("device", ["desk", "phone"])
def test_a_result_is_recorded_with_the_keyboard_only(request, device, ready):
    page = request.getfixturevalue(device)
    page.goto("/builds/bindery/inspections/ROUGH")
    tab_to(page, "Record the result")
    page.keyboard.press("Enter")
    expect(page.get_by_role("group", name="East wall")).to_be_visible()
    tab_to(page, "Passed")
    page.keyboard.press("ArrowLeft")
    page.keyboard.press("ArrowRight")
    expect(page.get_by_role("group", name="East wall").get_by_label("Passed", exact=True)).to_be_checked()
    tab_to(page, "What I want to remember of it")
    page.keyboard.type("Quick, friendly.")
    tab_to(page, "Save the result")
    page.keyboard.press("Space")
    expect(page.get_by_role("status")).to_have_text("The result is on record.")


def test_the_enter_key_in_a_field_saves_and_does_nothing_else(desk, ready):
    desk.goto("/builds/bindery/phases/1")
    desk.get_by_label("Task", exact=True).focus()
    desk.keyboard.type("Mud and tape")
    desk.keyboard.press("Tab")
    desk.keyboard.type("Board")
    desk.keyboard.press("Shift+Tab")
    desk.keyboard.press("Enter")
    expect(desk.locator("#tasks").get_by_role("link", name="Mud and tape")).to_be_visible()
    expect(desk.get_by_label("Task", exact=True)).to_be_focused()


def test_going_backwards_nothing_is_hidden_under_the_bar_either(phone, ready):
    phone.goto("/builds/bindery/workdays/log")
    phone.get_by_role("button", name="Save the day").last.focus()
    tab_to(phone, "What got done, what came", key="Shift+Tab")
    tab_to(phone, "My hours", key="Shift+Tab")


def test_a_moved_line_keeps_the_keyboard_where_it_is(desk, ready, database, build):
    with database.writing() as session:
        builders.a_phase(session, build, "Paint", 2)
        builders.a_phase(session, build, "Floor", 3)
    desk.goto("/builds/bindery/phases?order=1")
    desk.get_by_role("button", name="Earlier: Floor").focus()
    desk.keyboard.press("Enter")
    expect(desk.locator("#phases .rows b")).to_have_text(["1. Board", "2. Floor", "3. Paint"])
    expect(desk.get_by_role("button", name="Earlier: Floor")).to_be_focused()
