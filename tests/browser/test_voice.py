"""A note recorded for real in Chromium, with its own made-up microphone; and what stands there without one."""

import shutil
from collections.abc import Iterator

import pytest
from playwright.sync_api import Browser, Page, expect

from tests import builders, sounds
from tests.browser.conftest import FLAGS, PHONE, WHERE, all_sent, watched
from webapp.voice.files import find_sound
from webapp.voice.store import list_notes

WALL = "/builds/bindery/surfaces/E"
MICROPHONE = ["--use-fake-device-for-media-stream", "--use-fake-ui-for-media-stream"]

PLAYED = """async (sound) => {
  await sound.play();
  await new Promise((heard) => sound.addEventListener("timeupdate", () => sound.currentTime > 0.2 && heard()));
  return sound.currentTime;
}"""
DENIED = """() => {
  navigator.mediaDevices.getUserMedia = () => Promise.reject(new DOMException("no", "NotAllowedError"));
}"""


@pytest.fixture(scope="module")
def hearing(chromium: Browser) -> Iterator[Browser]:
    """A Chromium with a microphone: it beeps, and nobody is asked."""
    found = next(path for name in WHERE if (path := shutil.which(name)))
    browser = chromium.browser_type.launch(executable_path=found, args=[*FLAGS, *MICROPHONE])
    yield browser
    browser.close()


@pytest.fixture
def wall(database, build) -> None:
    with database.writing() as session:
        builders.a_surface(session, build)


@pytest.fixture
def talking(hearing: Browser, address: str, token: str, wall) -> Iterator[Page]:
    with watched(hearing, address, token, permissions=["microphone"], **PHONE) as page:
        yield page


def notes(database):
    with database.reading() as session:
        return list_notes(session, 1)


def test_three_taps_from_the_wall_and_what_was_said_is_kept_and_can_be_heard(talking, database, settings):
    page = talking
    page.goto(WALL)
    page.get_by_role("link", name="Say it").click()
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.get_by_role("timer")).to_have_text("0:02", timeout=8_000)
    page.get_by_role("button", name="Stop and keep it").click()
    expect(page.get_by_role("status").first).to_contain_text("Kept as sound, at East wall.")
    (note,) = notes(database)
    assert note.media_type == "audio/webm"
    assert note.said_at and note.seconds >= 2
    body = find_sound(settings.voice, note.sha256).read_bytes()
    assert body.startswith(b"\x1aE\xdf\xa3") and b"A_OPUS" in body
    heard = page.locator("audio.heard")
    assert heard.evaluate(PLAYED) > 0.2


def test_it_can_be_heard_first_and_recorded_again_before_it_is_kept(talking, database):
    page = talking
    page.goto("/builds/bindery/said/new")
    for button in ("Record", "Record again"):
        page.get_by_role("button", name=button, exact=True).click()
        expect(page.get_by_role("timer")).to_have_text("0:01", timeout=8_000)
        page.get_by_role("button", name="Stop and hear it").click()
        expect(page.get_by_label("What was just recorded")).to_be_visible()
    assert page.evaluate("document.querySelector('[name=sound]').files.length") == 1
    page.get_by_role("button", name="Keep it", exact=True).click()
    expect(page.get_by_role("status").first).to_contain_text("Say later where it belongs")
    assert len(notes(database)) == 1


def test_without_signal_the_recording_waits_on_the_phone_and_goes_by_itself(talking, database):
    page = talking
    page.goto("/builds/bindery/said/new?about=surface/E")
    page.get_by_role("button", name="Record", exact=True).click()
    expect(page.get_by_role("timer")).to_have_text("0:01", timeout=8_000)
    page.context.set_offline(True)
    page.get_by_role("button", name="Stop and keep it").click()
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    assert notes(database) == ()
    page.context.set_offline(False)
    all_sent(page)
    (note,) = notes(database)
    assert (note.about_kind, note.media_type) == ("surface", "audio/webm")


def test_a_browser_told_not_to_give_the_microphone_says_so_and_a_file_still_goes(phone, wall, tmp_path, database):
    path = tmp_path / "memo.wav"
    path.write_bytes(sounds.a_wav())
    phone.goto("/builds/bindery/said/new")
    phone.evaluate(DENIED)
    phone.get_by_role("button", name="Record", exact=True).click()
    expect(phone.locator("[data-recorder-says]")).to_contain_text("told not to give the microphone")
    phone.get_by_label("A sound from this phone or laptop").set_input_files(path)
    expect(phone.locator("[data-recorder-says]")).to_contain_text("When it was said is not known")
    phone.get_by_role("button", name="Keep it", exact=True).click()
    expect(phone.get_by_role("status").first).to_contain_text("Kept as sound")
    assert notes(database)[0].said_at is None


def test_an_address_without_https_says_why_there_is_no_microphone(phone, wall, address):
    """Chromium counts 127.0.0.1 as secure; a name of this machine over plain http is not."""
    phone.add_init_script("Object.defineProperty(globalThis, 'isSecureContext', { value: false })")
    phone.goto("/builds/bindery/said/new")
    expect(phone.locator("[data-recorder-says]")).to_contain_text("only to https or to this machine itself")
    expect(phone.get_by_role("button", name="Record", exact=True)).to_be_hidden()


def test_it_works_without_scripts(old_phone, wall, tmp_path, database):
    path = tmp_path / "memo.wav"
    path.write_bytes(sounds.a_wav())
    old_phone.goto("/builds/bindery/said/of/surface/E")
    old_phone.get_by_role("link", name="Say it").click()
    old_phone.get_by_label("A sound from this phone or laptop").set_input_files(path)
    old_phone.get_by_role("button", name="Keep it", exact=True).click()
    expect(old_phone.get_by_role("status")).to_contain_text("Kept as sound, at East wall.")
    old_phone.get_by_label("What is said in it").fill("Vent two inches off.")
    old_phone.get_by_role("button", name="Write it down").click()
    assert notes(database)[0].words == "Vent two inches off."
