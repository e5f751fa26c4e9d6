"""Scenario 8, in real Chromium with a profile on disk: two days without signal, the phone restarted once, edits at the
desk meanwhile. Nothing is lost or doubled, times are those on site, and what clashes is put with both sides.
"""

import hashlib
from collections.abc import Iterator
from contextlib import contextmanager
from datetime import date
from pathlib import Path

import pytest
from fastapi.testclient import TestClient
from playwright.sync_api import Browser, Page, expect
from sqlmodel import select

from tests import builders, pictures, sounds
from tests.browser.conftest import FLAGS, KEPT, PHONE, all_sent, served, where
from tests.reading import soup
from webapp.accounts.guard import COOKIE
from webapp.core import clock
from webapp.photos.models import Photo
from webapp.plan.models import Task
from webapp.voice.models import VoiceNote
from webapp.workdays.models import Workday, WorkdayPhoto, WorkEntry

SOUND = sounds.a_wav()
BASE = "/builds/bindery"
LOG = f"{BASE}/workdays/log"
THURSDAY, FRIDAY = date(2026, 5, 14), date(2026, 5, 15)


@pytest.fixture
def tasks(database, build) -> tuple[int, int]:
    with database.writing() as session:
        builders.a_surface(session, build)
        phase = builders.a_phase(session, build)
        made = [builders.a_task(session, phase, title, state="under way") for title in ("Plates", "Straps")]
        return made[0].row_id, made[1].row_id


@pytest.fixture
def shots(tmp_path) -> list[Path]:
    """38 pictures, no two alike."""
    made = [tmp_path / f"{number}.jpg" for number in range(38)]
    for number, path in enumerate(made):
        path.write_bytes(pictures.a_jpeg(taken=f"2026:05:14 17:{number:02}:00"))
    return made


@contextmanager
def phone_of(chromium: Browser, folder: Path, address: str, token: str, now: str) -> Iterator[Page]:
    """The phone with its own disk; opened again it has what it had."""
    context = chromium.browser_type.launch_persistent_context(
        folder, executable_path=where(), args=FLAGS, base_url=address, **PHONE
    )
    context.add_cookies([{"name": COOKIE, "value": token, "url": address, "httpOnly": True, "sameSite": "Lax"}])
    context.clock.set_fixed_time(now)
    page = context.new_page()
    yield page
    context.close()


def log(page: Page, words: str, files: list[Path] = (), tick: str = "") -> None:
    page.goto(LOG)
    page.get_by_label("What got done, what came").fill(words)
    if tick:
        page.get_by_label(f"Finished {tick}").check()
    if files:
        page.get_by_label("From this phone’s pictures").set_input_files(list(files))
    page.get_by_role("button", name="Save the day").click()
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()


def say(page: Page) -> None:
    page.goto(f"{BASE}/said/new")
    page.locator("input[type=file]").set_input_files({"name": "say.wav", "mimeType": "audio/wav", "buffer": SOUND})
    page.get_by_role("button", name="Keep it").click()
    expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible()


def unsent(page: Page, count: int) -> None:
    expect(page.locator(".strip [data-unsent]")).to_have_text(f"Not sent: {count}")


def everything(database, table):
    with database.reading() as session:
        return session.exec(select(table)).all()


def edit_at_the_desk(client: TestClient, first: int, second: int) -> None:
    """One of the ticked tasks is renamed; the other is ticked and un-ticked again."""
    form = soup(client.get(f"{BASE}/tasks/{first}/edit")).select_one("form[data-edits]")
    fields = {one["name"]: one.get("value", "") for one in form.select("input[name]:not([type=checkbox])")}
    fields |= {one["name"]: (one.select_one("[selected]") or one.option)["value"] for one in form.select("select")}
    assert client.post(f"{BASE}/tasks/{first}/edit", data={**fields, "title": "Plates, all"}).status_code == 303
    assert client.post(f"{BASE}/tasks/{second}/finish", data={"on": "today"}).status_code == 303
    why = {"why": "One is missing", "on": "today"}
    assert client.post(f"{BASE}/tasks/{second}/reopen", data=why).status_code == 303


def first_day(phone: Page, shots: list[Path]) -> None:
    phone.goto(f"{BASE}/today")
    assert phone.evaluate(KEPT, BASE)
    phone.context.set_offline(True)
    log(phone, "First note", shots[:20], "Plates")
    log(phone, "Second note")
    unsent(phone, 2)


def second_day(phone: Page, shots: list[Path]) -> None:
    phone.context.set_offline(True)
    phone.goto(f"{BASE}/today")
    unsent(phone, 2)
    expect(phone.locator(".said.kept")).to_contain_text("Kept on this phone")
    phone.goto(LOG)
    expect(phone.get_by_label("Day", exact=True).locator("option:checked")).to_have_text("Today, Friday 15 May")
    log(phone, "Third note", shots[20:], "Straps")
    log(phone, "Fourth note")
    say(phone)
    unsent(phone, 5)


def signal_again(phone: Page) -> None:
    """All goes by itself but the tick that clashes; it is put with both sides, and the phone's is chosen."""
    phone.context.set_offline(False)
    phone.goto("/not-sent")
    expect(phone.get_by_text("1 record needs you.")).to_be_visible(timeout=60_000)
    unsent(phone, 1)
    phone.get_by_role("button", name="Look and decide").click()
    expect(phone.get_by_role("alert")).to_contain_text("Ticked here, un-ticked meanwhile")
    for words in ("“Straps” was un-ticked", "One is missing", "Here it was ticked 15 May 18:10"):
        expect(phone.locator("main")).to_contain_text(words)
    phone.get_by_role("button", name="Finished, as ticked here").click()
    expect(phone.get_by_role("heading", name="Saved.")).to_be_visible()
    all_sent(phone)


def assert_all_arrived_once(database, shots: list[Path]) -> None:
    days = everything(database, Workday)
    said = {(day.done, day.day) for day in days}
    assert len(days) == 4
    assert said == {
        ("First note", THURSDAY),
        ("Second note", THURSDAY),
        ("Third note", FRIDAY),
        ("Fourth note", FRIDAY),
    }
    sums = {hashlib.sha256(path.read_bytes()).hexdigest() for path in shots}
    assert {photo.sha256 for photo in everything(database, Photo)} == sums and len(sums) == 38
    assert len(everything(database, WorkdayPhoto)) == 38
    [note] = everything(database, VoiceNote)
    assert note.sha256 == hashlib.sha256(SOUND).hexdigest()
    assert {(task.title, task.state, task.done_on) for task in everything(database, Task)} == {
        ("Plates, all", "done", THURSDAY),
        ("Straps", "done", FRIDAY),
    }
    assert sorted(entry.finished for entry in everything(database, WorkEntry)) == [True, True]


def test_two_days_without_signal(chromium, app, database, token, build, client, tasks, shots, tmp_path):
    folder = tmp_path / "phone"
    app.dependency_overrides[clock.today] = lambda: THURSDAY
    with served(app) as address:
        with phone_of(chromium, folder, address, token, "2026-05-14T17:40:00") as phone:
            first_day(phone, shots)
        app.dependency_overrides[clock.today] = lambda: FRIDAY
        with phone_of(chromium, folder, address, token, "2026-05-15T18:10:00") as phone:
            second_day(phone, shots)
            edit_at_the_desk(client, *tasks)
            signal_again(phone)
    assert_all_arrived_once(database, shots)
