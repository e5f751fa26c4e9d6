"""A day sent from the phone arrives once, whatever happens to the answer, and a refusal loses nothing."""

from contextlib import suppress

import pytest
from playwright.sync_api import Error, Page, Route, expect
from sqlmodel import select

from tests import builders, pictures
from tests.browser.conftest import all_sent
from webapp.workdays.models import Workday, WorkdayPhoto

LOG = "/builds/bindery/workdays/log"


def count(database, table) -> int:
    with database.reading() as session:
        return len(session.exec(select(table)).all())


@pytest.fixture
def east(database, build) -> None:
    """The east wall still owes a picture, so the board that closes it may not be finished."""
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        board = builders.a_task(session, builders.a_phase(session, build), "Hang the board on E", state="under way")
        builders.works_on(session, board, surface, closes=True)
        builders.a_slot(session, surface)


def lose_the_answer(page: Page) -> None:
    """The server gets and saves the day; the phone never hears of it."""

    def lost(route: Route) -> None:
        if route.request.method == "POST":
            with suppress(Error):  # the page may be gone by then
                route.fetch(max_redirects=0)
                route.abort("internetdisconnected")
        else:
            route.continue_()

    page.route(f"**{LOG}", lost)


def test_an_answer_lost_on_the_way_does_not_double_the_day(phone, east, database):
    phone.goto(LOG)
    phone.get_by_label("What got done, what came").fill("Plates.")
    lose_the_answer(phone)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    assert count(database, Workday) == 1
    phone.unroute_all()
    phone.goto("/builds/bindery/today")
    all_sent(phone)
    assert count(database, Workday) == 1


def test_more_words_after_a_lost_answer_lead_to_the_day_that_was_saved(phone, east, database):
    phone.goto(LOG)
    phone.get_by_label("What got done, what came").fill("Plates.")
    lose_the_answer(phone)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    phone.get_by_role("link", name="What is not sent").click()
    phone.get_by_role("link", name="Open it").click()
    expect(phone.get_by_role("status")).to_contain_text("not sent yet. What you change here takes its place.")
    expect(phone.get_by_label("What got done, what came")).to_have_value("Plates.")
    phone.get_by_label("What got done, what came").fill("Plates and straps.")
    phone.unroute_all()
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("alert")).to_contain_text("A day was saved from this page already")
    expect(phone.get_by_label("What got done, what came")).to_have_value("Plates and straps.")
    assert count(database, Workday) == 1


def test_two_days_one_after_the_other_are_two(phone, east, database):
    for words in ("Plates.", "Straps."):
        phone.goto(LOG)
        expect(phone.get_by_label("What got done, what came")).to_have_value("")
        phone.get_by_label("What got done, what came").fill(words)
        phone.get_by_role("button", name="Save the day").click()
        expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    assert count(database, Workday) == 2


def test_a_refused_finish_keeps_the_picture_and_saves_the_rest_at_one_press(phone, east, database, tmp_path):
    picture = tmp_path / "a.jpg"
    picture.write_bytes(pictures.a_jpeg())
    phone.goto(LOG)
    phone.get_by_label("Finished Hang the board on E").check()
    phone.get_by_label("From this phone’s pictures").set_input_files(picture)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("alert").first).to_contain_text("may not be finished yet")
    expect(phone.get_by_text("Kept already, no need to send again: a.jpg.")).to_be_visible()
    phone.get_by_role("button", name="keep the task as worked on").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    expect(phone.get_by_text("is kept as worked on, not finished")).to_be_visible()
    assert (count(database, Workday), count(database, WorkdayPhoto)) == (1, 1)


def test_another_day_is_asked_for_only_when_it_is_chosen(phone, east):
    phone.goto(LOG)
    expect(phone.get_by_label("Another day", exact=True)).to_be_hidden()
    phone.get_by_label("Day", exact=True).select_option("other")
    expect(phone.get_by_label("Another day", exact=True)).to_be_visible()


def test_the_form_saves_a_day_without_any_script(old_phone, east, database):
    old_phone.goto(LOG)
    old_phone.get_by_label("My hours", exact=True).fill("2½")
    old_phone.get_by_role("button", name="Save the day").last.click()
    expect(old_phone.get_by_role("heading", name="Saved.")).to_be_visible()
    assert count(database, Workday) == 1


def test_back_from_the_saved_page_is_an_empty_form_for_another_day(phone, east, database):
    phone.goto(LOG)
    phone.get_by_label("What got done, what came").fill("Plates.")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    phone.go_back()
    expect(phone.get_by_role("heading", name="Log the day")).to_be_visible()
    phone.get_by_label("What got done, what came").fill("Straps.")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    assert count(database, Workday) == 2


def test_a_fault_at_the_other_end_leaves_the_form_as_it_was(phone, east, database):
    phone.goto(LOG)
    phone.get_by_label("What got done, what came").fill("Plates.")
    phone.route(f"**{LOG}", lambda route: route.fulfill(status=413, body="Too large"))
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("status")).to_contain_text("Not saved: the other end did not take it (413).")
    expect(phone.get_by_label("What got done, what came")).to_have_value("Plates.")
