"""One template, three ways: a whole page, a fragment that htmx puts in its place, and the same address opened alone."""

import pytest
from playwright.sync_api import Page, Response, expect

from tests import builders

PHASE = "/builds/bindery/phases/1"


@pytest.fixture
def phase(database, build) -> int:
    """A phase with two tasks, the second of which needs the first; gives the second one's id."""
    with database.writing() as session:
        made = builders.a_phase(session, build)
        first = builders.a_task(session, made, "Pull the circuit", 1)
        second = builders.a_task(session, made, "Hang the board", 2)
        builders.a_need(session, second, first)
        return second.row_id


def write_task(page: Page, title: str) -> Response:
    page.get_by_label("Task", exact=True).fill(title)
    page.get_by_label("Kind of work").select_option(label="Board")
    with page.expect_response(lambda answer: answer.url.endswith("/tasks")) as found:
        page.get_by_role("button", name="Write it down").click()
    return found.value


def mark_the_document(page: Page) -> None:
    """A mark that only survives while the browser does not load the page anew."""
    page.evaluate("document.body.dataset.sameDocument = 'yes'")


def same_document(page: Page) -> bool:
    return page.evaluate("document.body.dataset.sameDocument === 'yes'")


def back(page: Page) -> None:
    """The button of the browser. The page may load itself once more, so nothing is waited for here."""
    page.evaluate("setTimeout(() => history.back())")


def forward(page: Page) -> None:
    page.evaluate("setTimeout(() => history.forward())")


def test_a_task_is_added_in_place_and_the_next_one_can_be_typed_at_once(phone, phase):
    phone.goto(PHASE)
    mark_the_document(phone)
    answer = write_task(phone, "Mud and tape")
    assert (answer.status, "<html" in answer.text()) == (200, False)
    expect(phone.locator("#tasks").get_by_role("link", name="Mud and tape")).to_be_visible()
    assert same_document(phone)
    expect(phone.get_by_label("Task", exact=True)).to_be_focused()
    expect(phone.get_by_label("Task", exact=True)).to_have_value("")
    phone.reload()
    expect(phone.locator("#tasks").get_by_role("link", name="Mud and tape")).to_be_visible()


def test_a_refused_line_shows_its_sentence_in_place_and_keeps_what_was_typed(phone, phase):
    phone.goto(PHASE)
    mark_the_document(phone)
    phone.get_by_label("Likely").fill("soon")
    answer = write_task(phone, "Mud and tape")
    assert (answer.status, "<html" in answer.text()) == (422, False)
    expect(phone.get_by_role("alert")).to_contain_text("Not saved yet.")
    expect(phone.get_by_label("Likely")).to_have_attribute("aria-invalid", "true")
    expect(phone.get_by_label("Likely")).to_have_value("soon")
    expect(phone.get_by_label("Task", exact=True)).to_have_value("Mud and tape")
    assert same_document(phone)
    phone.get_by_label("Likely").fill("2")
    phone.get_by_role("button", name="Write it down").click()
    expect(phone.locator("#tasks").get_by_role("link", name="Mud and tape")).to_be_visible()


def test_the_panel_of_stops_comes_by_itself_and_its_address_is_a_page_of_its_own(phone, phase):
    with phone.expect_response(lambda answer: answer.url.endswith("/stops")) as found:
        phone.goto(f"/builds/bindery/tasks/{phase}")
    assert found.value.text().lstrip().startswith('<div class="stops-panel">')
    expect(phone.locator(".stops-panel")).to_contain_text("Pull the circuit")
    expect(phone.get_by_role("link", name="See what stops this task")).to_have_count(0)
    phone.goto(f"/builds/bindery/tasks/{phase}/stops")
    expect(phone.get_by_role("heading", level=1)).to_have_text("What stops “Hang the board”?")
    expect(phone.get_by_role("navigation", name="Sheets")).to_be_visible()
    expect(phone.locator(".stops-panel")).to_contain_text("Pull the circuit")


def test_an_order_changed_in_place_is_the_order_of_the_page(phone, phase):
    phone.goto(f"{PHASE}?order=1")
    mark_the_document(phone)
    phone.get_by_role("button", name="Earlier: Hang the board").click()
    lines = phone.locator("#tasks .rows b")
    expect(lines).to_have_text(["Hang the board", "Pull the circuit"])
    assert same_document(phone)
    phone.reload()
    expect(lines).to_have_text(["Hang the board", "Pull the circuit"])


def test_a_choice_shows_its_tasks_in_place(phone, phase, database, build):
    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build, "Rough-in", 2), "Set the boxes")
    phone.goto(f"/builds/bindery/tasks/{phase}/needs")
    mark_the_document(phone)
    phone.get_by_label("From phase").select_option(label="Rough-in")
    expect(phone.get_by_label("Comes first")).to_contain_text("Set the boxes")
    assert same_document(phone)


def test_going_back_shows_the_whole_page_as_it_is_now(phone, phase):
    phone.goto(PHASE)
    write_task(phone, "Mud and tape")
    link = phone.locator("#tasks").get_by_role("link", name="Mud and tape")
    link.click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Mud and tape")
    back(phone)
    expect(phone.get_by_role("navigation", name="Sheets")).to_be_visible()
    expect(link).to_be_visible()
    forward(phone)
    expect(phone.get_by_role("heading", level=1)).to_have_text("Mud and tape")


def test_going_back_never_shows_an_answer_that_has_changed_since(phone, phase, address):
    phone.goto(f"/builds/bindery/tasks/{phase}/stops")
    expect(phone.locator(".stops-panel")).to_contain_text("Pull the circuit")
    phone.goto("/builds/bindery/phases")
    on = {"on": "16 May 2026"}
    answer = phone.request.post("/builds/bindery/tasks/1/finish", form=on, headers={"origin": address})
    assert answer.ok
    back(phone)
    expect(phone.locator(".stops-panel")).to_contain_text("Nothing stops it. It can start today.")


def test_going_back_keeps_what_was_typed(phone, phase):
    phone.goto("/builds/bindery/phases")
    phone.get_by_label("What it is for").fill("Closing the walls")
    phone.locator("#phases").get_by_role("link", name="Board").click()
    expect(phone.get_by_role("heading", level=1)).to_have_text("Board")
    back(phone)
    expect(phone.get_by_role("heading", level=1)).to_have_text("Phases")
    expect(phone.get_by_label("What it is for")).to_have_value("Closing the walls")


def test_a_day_that_is_refused_comes_back_in_place_with_what_was_typed(phone, phase):
    phone.goto("/builds/bindery/workdays/log")
    mark_the_document(phone)
    phone.get_by_label("My hours", exact=True).fill("55")
    phone.get_by_label("What got done, what came").fill("Boxes set.")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("alert")).to_contain_text("Not saved yet.")
    expect(phone.get_by_role("alert")).to_be_focused()
    expect(phone.get_by_label("What got done, what came")).to_have_value("Boxes set.")
    assert same_document(phone)
    phone.get_by_label("My hours", exact=True).fill("5.5")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_focused()
    back(phone)
    expect(phone.get_by_role("heading", level=1)).to_have_text("Log the day")
