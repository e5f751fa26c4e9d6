"""Without signal, in real Chromium: what was kept is read with its age, what is recorded waits and arrives once."""

import hashlib

import pytest
from playwright.sync_api import Page, Route, expect
from sqlmodel import select

from tests import builders, pictures, sounds
from tests.browser.conftest import KEPT, all_sent
from tests.browser.test_workday_once import east
from webapp.photos.models import Photo
from webapp.workdays.models import Workday

__all__ = ["east"]
pytestmark = pytest.mark.worker
BASE = "/builds/bindery"
SOUND = sounds.a_wav(2)


FULL = """() => {
  const put = IDBObjectStore.prototype.put;
  IDBObjectStore.prototype.put = function (value, key) {
    if (value instanceof ArrayBuffer) throw new DOMException("no room", "QuotaExceededError");
    return put.call(this, value, key);
  };
}"""
"""a phone that is full, as its browser would say it"""


def taken(count: int) -> list[dict[str, object]]:
    """So many pictures as a phone hands them over, no two alike."""
    return [
        {"name": f"{n}.jpg", "mimeType": "image/jpeg", "buffer": pictures.a_jpeg(taken=f"2026:05:16 10:0{n}:00")}
        for n in range(count)
    ]


def kept(page: Page) -> None:
    """The phone was opened once with signal, and has what it keeps."""
    page.context.clock.set_fixed_time("2026-05-16T17:40:00")
    page.goto(f"{BASE}/today")
    assert page.evaluate(KEPT, BASE)


def save_a_day(page: Page) -> None:
    """Nothing of it can be sent now."""
    page.goto(f"{BASE}/workdays/log")
    page.get_by_label("What got done, what came").fill("Plates.")
    page.get_by_role("button", name="Save the day").click()
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()


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
    save_a_day(phone)
    expect(phone.locator(".strip [data-unsent]")).to_have_text("Not sent: 1")
    phone.context.set_offline(False)
    phone.goto(f"{BASE}/today")
    all_sent(phone)
    with database.reading() as session:
        assert [day.done for day in session.exec(select(Workday)).all()] == ["Plates."]


def closed_by_may(database, build) -> None:
    """North may be covered: nothing stops it."""
    with database.writing() as session:
        surface = builders.a_surface(session, build, code="N", name="North wall")
        builders.looked_at(session, build, surface)
        board = builders.a_task(session, builders.a_phase(session, build), "Board on N", state="under way")
        builders.works_on(session, board, surface, closes=True)


def test_may_be_covered_says_when_that_was_known_and_what_could_change_it(phone, build, database):
    closed_by_may(database, build)
    kept(phone)
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/surfaces/N/before-cover")
    verdict = phone.locator("[data-verdict]")
    expect(verdict).to_contain_text("May be covered")
    expect(verdict.locator(".unsure")).to_contain_text("Last known")
    expect(verdict.locator(".unsure")).to_contain_text("Nothing recorded on this phone waits.")
    phone.goto(f"{BASE}/workdays/log")
    phone.get_by_label("What got done, what came").fill("A box more.")
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    phone.goto(f"{BASE}/surfaces/N/before-cover")
    expect(verdict.locator(".unsure")).to_contain_text("Not sent yet, and could change this: Log the day.")


def test_a_no_never_turns_to_yes_without_signal(phone, east):
    kept(phone)
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/surfaces/E/before-cover")
    expect(phone.locator("[data-verdict].no")).to_contain_text("Do not cover")
    phone.goto(f"{BASE}/surfaces/E/shoot")
    phone.locator("input[type=file]").first.set_input_files(
        {"name": "a.jpg", "mimeType": "image/jpeg", "buffer": pictures.a_jpeg()}
    )
    expect(phone.locator("[data-shoot-says]")).to_contain_text("Kept on this phone")
    phone.goto(f"{BASE}/surfaces/E/before-cover")
    expect(phone.locator("[data-verdict].no")).to_contain_text("Do not cover")
    expect(phone.get_by_text("Taken, not sent yet.")).to_be_visible()


def test_a_picture_whose_line_drops_is_sent_again_and_the_others_are_not(phone, east, database, settings):
    kept(phone)
    dropped, arrived = [], []

    def drop_the_second(route: Route) -> None:
        if len(dropped) + len(arrived) == 1:
            dropped.append(route.request.url)
            route.abort("connectionreset")
        else:
            arrived.append(route.request.url)
            route.continue_()

    phone.route("**/arriving", drop_the_second)
    phone.goto(f"{BASE}/workdays/log")
    files = taken(3)
    phone.get_by_label("From this phone’s pictures").set_input_files(files)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    all_sent(phone)
    assert (len(dropped), len(arrived)) == (1, 3)
    sums = {hashlib.sha256(one["buffer"]).hexdigest() for one in files}
    with database.reading() as session:
        assert {photo.sha256 for photo in session.exec(select(Photo)).all()} == sums
        assert len(session.exec(select(Workday)).all()) == 1


def test_no_room_is_said_and_the_form_keeps_what_was_typed(phone, east):
    phone.goto(f"{BASE}/workdays/log")
    phone.wait_for_load_state("networkidle")
    phone.evaluate(FULL)  # the protocol's own limit (Storage.overrideQuotaForOrigin) did not refuse anything here
    phone.get_by_label("What got done, what came").fill("Plates.")
    files = [{"name": "a.jpg", "mimeType": "image/jpeg", "buffer": pictures.a_jpeg() + b"0" * 4_000_000}]
    phone.get_by_label("From this phone’s pictures").set_input_files(files)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("status").first).to_contain_text("This phone has no room left to keep it.")
    expect(phone.get_by_label("What got done, what came")).to_have_value("Plates.")


def test_signed_out_meanwhile_nothing_is_lost(phone, east, database, token):
    kept(phone)
    phone.context.set_offline(True)
    save_a_day(phone)
    cookies = phone.context.cookies()
    phone.context.clear_cookies()
    phone.context.set_offline(False)
    phone.goto("/not-kept")  # any page; the builder's lead to the sign-in
    phone.goto(f"{BASE}/today")
    expect(phone.get_by_role("heading", name="Sign in")).to_be_visible()
    phone.context.add_cookies(cookies)
    phone.goto(f"{BASE}/today")
    all_sent(phone)
    with database.reading() as session:
        assert len(session.exec(select(Workday)).all()) == 1


def test_an_old_page_meets_a_newer_program_says_so_and_sends_first(phone, east, app, database, monkeypatch):
    kept(phone)
    phone.context.set_offline(True)
    save_a_day(phone)
    phone.context.set_offline(False)

    with monkeypatch.context() as before:
        before.setitem(app.state.templates.globals, "version", "of-before")
        phone.goto("/settings")  # drawn anew each time
        expect(phone.locator("#newer")).to_contain_text("Studbay is newer than this page")
        all_sent(phone)
    phone.get_by_role("link", name="Load the page anew").click()
    phone.wait_for_load_state("networkidle")
    expect(phone.locator("#newer")).to_have_count(0)
    with database.reading() as session:
        assert len(session.exec(select(Workday)).all()) == 1


def test_shared_pictures_wait_with_the_rest(phone, east, database):
    kept(phone)
    share = """async (bytes) => {
      const data = new FormData();
      data.append("pictures", new File([new Uint8Array(bytes)], "gallery.jpg", { type: "image/jpeg" }));
      return (await fetch("/share", { method: "POST", body: data })).url;
    }"""
    picture = pictures.a_jpeg()
    assert phone.evaluate(share, list(picture)).endswith("/not-sent")
    phone.goto("/not-sent")
    all_sent(phone)
    with database.reading() as session:
        assert [photo.original_name for photo in session.exec(select(Photo)).all()] == ["gallery.jpg"]


def test_a_voice_note_is_heard_without_signal(phone, east):
    phone.goto(f"{BASE}/said/new")
    phone.locator("input[type=file]").set_input_files({"name": "a.wav", "mimeType": "audio/wav", "buffer": SOUND})
    phone.get_by_role("button", name="Keep it").click()
    expect(phone.get_by_role("status").first).to_contain_text("Kept as sound")
    kept(phone)
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/said")
    long = """async () => {
      const sound = document.querySelector("audio");
      sound.preload = "auto";
      sound.load();
      await new Promise((heard, not) => Object.assign(sound, { onloadeddata: heard, onerror: not }));
      return sound.duration;
    }"""
    assert phone.evaluate(long) == 2


def test_signing_out_takes_the_kept_sheets_away(phone, east):
    kept(phone)
    phone.goto("/settings")
    phone.get_by_role("button", name="Sign out").first.click()
    phone.wait_for_load_state("networkidle")
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/surfaces/E")
    expect(phone.locator("body")).not_to_contain_text("East wall")


def log_without_signal(page: Page) -> None:
    page.goto(f"{BASE}/workdays/log")
    page.wait_for_load_state("networkidle")
    page.context.set_offline(True)
    page.get_by_label("What got done, what came").fill("Plates.")
    page.get_by_role("button", name="Save the day").click()
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()


def test_the_phone_is_asked_to_keep_what_waits(phone, east):
    asks = "navigator.storage.persist = () => { globalThis.asked = true; return Promise.resolve(false); };"
    phone.add_init_script(asks)
    log_without_signal(phone)
    assert phone.evaluate("globalThis.asked")


def test_a_refusal_to_keep_it_is_said_before_it_matters(phone, east):
    phone.add_init_script("navigator.storage.persist = () => Promise.resolve(false);")
    phone.goto("/not-sent")
    phone.get_by_role("button", name="Ask the phone to keep it for good").click()
    expect(phone.locator("[data-room]")).to_contain_text("It was asked and said no.")


def test_little_room_is_said_before_it_matters(phone, east):
    phone.add_init_script("navigator.storage.estimate = () => Promise.resolve({ quota: 5e8, usage: 4.8e8 });")
    phone.goto(f"{BASE}/today")
    expect(phone.locator("#room")).to_contain_text("This phone has 19 MB left for Studbay. Make room before")


def test_the_screen_stays_awake_while_a_list_is_shot(phone, east):
    asks = "globalThis.asked = []; navigator.wakeLock.request = async (kind) => void globalThis.asked.push(kind);"
    phone.add_init_script(asks)
    phone.goto(f"{BASE}/surfaces/E/shoot")
    phone.wait_for_load_state("networkidle")
    assert phone.evaluate("globalThis.asked") == ["screen"]


def test_how_far_each_picture_has_come_is_said(phone, east):
    phone.goto(f"{BASE}/workdays/log")
    phone.wait_for_load_state("networkidle")
    watch = """() => {
      globalThis.said = [];
      const place = document.querySelector("[data-sender-says]");
      new MutationObserver(() => globalThis.said.push(place.textContent)).observe(place, { childList: true });
    }"""
    phone.evaluate(watch)
    files = taken(2)
    phone.get_by_label("From this phone’s pictures").set_input_files(files)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    said = phone.evaluate("globalThis.said")
    assert {"Picture 1 of 2: 100 %", "Picture 2 of 2: 100 %"} <= {*said}


def test_something_thrown_away_is_asked_about_once(phone, east, database):
    kept(phone)
    log_without_signal(phone)
    phone.goto("/not-sent")
    phone.get_by_role("button", name="Throw it away").click()
    expect(phone.get_by_text("It is nowhere else. Throw it away for good?")).to_be_visible()
    phone.get_by_role("button", name="Keep it", exact=True).click()
    expect(phone.get_by_text("Plates.")).to_be_visible()
    phone.get_by_role("button", name="Throw it away").click()
    phone.get_by_role("button", name="Throw it away").click()
    expect(phone.get_by_text("Everything is sent.")).to_be_visible()
    with database.reading() as session:
        assert session.exec(select(Workday)).all() == []
