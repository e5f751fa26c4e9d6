"""A real Chromium against the real program. Skipped where there is none on a user's machine, never in CI."""

import os
import shutil
import threading
import time
from collections.abc import Iterator
from datetime import date

import pytest
import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, BrowserContext, Page, sync_playwright

from webapp.accounts.guard import COOKIE
from webapp.core import clock

FLAGS = [
    "--no-sandbox",
    "--disable-gpu",
    "--disable-quic",
    "--no-first-run",
    "--disable-background-networking",
    "--disable-component-update",
    "--disable-sync",
]
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2, "is_mobile": True, "has_touch": True}
DESK = {"viewport": {"width": 1280, "height": 800}}
WHERE = ("chromium", "chromium-browser", "google-chrome", "chrome")


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    """All tests here are browser tests, and run in one process: two browsers on two cores are slower than one."""
    for item in items:
        if "tests/browser" in item.nodeid:
            item.add_marker(pytest.mark.browser)
            item.add_marker(pytest.mark.xdist_group("browser"))


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    found = next((path for name in WHERE if (path := shutil.which(name))), None)
    if found is None:
        if os.environ.get("STUDBAY_NEEDS_BROWSER") or os.environ.get("CI"):
            pytest.fail("no Chromium here, and this run may not do without")
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=FLAGS)
        yield browser
        browser.close()


@pytest.fixture
def address(app: FastAPI) -> Iterator[str]:
    """The program on a free port of this machine, over the test's own record."""
    config = uvicorn.Config(app, host="127.0.0.1", port=0, log_level="error", access_log=False)
    server = uvicorn.Server(config)
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        time.sleep(0.02)
    port = server.servers[0].sockets[0].getsockname()[1]
    yield f"http://127.0.0.1:{port}"
    server.should_exit = True
    thread.join(timeout=10)


def open_page(chromium: Browser, address: str, token: str | None, **device: object) -> BrowserContext:
    context = chromium.new_context(base_url=address, **device)
    context.set_default_timeout(10_000)
    if token:
        context.add_cookies([{"name": COOKIE, "value": token, "url": address, "httpOnly": True, "sameSite": "Lax"}])
    return context


@pytest.fixture
def phone(chromium: Browser, address: str, token: str, build: object) -> Iterator[Page]:
    """The builder's phone, signed in. Anything the strict policy refuses or a script error fails the test."""
    context = open_page(chromium, address, token, **PHONE)
    page = context.new_page()
    wrong: list[str] = []
    page.on("pageerror", lambda error: wrong.append(str(error)))
    page.on(
        "console", lambda message: wrong.append(message.text) if "Content Security Policy" in message.text else None
    )
    yield page
    context.close()
    assert wrong == []


@pytest.fixture
def viewer(chromium: Browser, address: str) -> Iterator[Page]:
    """A viewer's phone: signed out."""
    context = open_page(chromium, address, None, **PHONE)
    yield context.new_page()
    context.close()


@pytest.fixture
def today() -> date:
    """Browsers know the real day, so the program does here too."""
    return clock.today()
