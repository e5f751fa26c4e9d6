"""A real Chromium against the real program. Skipped where there is none on a user's machine, never in CI."""

import os
import shutil
import threading
import time
from collections.abc import Iterator
from contextlib import contextmanager

import pytest
import uvicorn
from fastapi import FastAPI
from playwright.sync_api import Browser, BrowserContext, ConsoleMessage, Page, expect, sync_playwright

from webapp.accounts.guard import COOKIE

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
ASKED_FOR = (
    "Service Worker registration blocked by Playwright",
    "The Cross-Origin-Opener-Policy header has been ignored",
    "Failed to load resource: the server responded with a status of 4",
    "Failed to load resource: net::ERR_INTERNET_DISCONNECTED",
    "Failed to load resource: net::ERR_CONNECTION_RESET",
)
"""what the console says of a refusal, or of no signal, that a test asked for"""

KEPT = """async (base) => {
  const registration = await navigator.serviceWorker.ready;
  return new Promise((done) => {
    navigator.serviceWorker.addEventListener("message", ({ data }) => data.kept !== undefined && done(data.kept));
    (navigator.serviceWorker.controller ?? registration.active).postMessage({ keep: base });
  });
}"""
"""opened with signal, the phone fetches what it keeps of a build"""


def pytest_collection_modifyitems(items: list[pytest.Item]) -> None:
    for item in items:
        if "tests/browser" in item.nodeid:
            item.add_marker(pytest.mark.browser)


def where() -> str | None:
    """The Chromium of this machine."""
    return next((path for name in WHERE if (path := shutil.which(name))), None)


@pytest.fixture(scope="session")
def chromium() -> Iterator[Browser]:
    found = where()
    if found is None:
        if os.environ.get("NEEDS_BROWSER") or os.environ.get("CI"):
            pytest.fail("no Chromium here, and this run may not do without")
        pytest.skip("no Chromium on this machine")
    with sync_playwright() as playwright:
        browser = playwright.chromium.launch(executable_path=found, args=FLAGS)
        yield browser
        browser.close()


@contextmanager
def served(app: FastAPI) -> Iterator[str]:
    """The program on a free port of this machine, with everything it does in the background."""
    server = uvicorn.Server(uvicorn.Config(app, host="127.0.0.1", port=0, log_level="error", access_log=False))
    thread = threading.Thread(target=server.run, daemon=True)
    thread.start()
    while not server.started:
        assert thread.is_alive(), "the program did not start"
        time.sleep(0.02)
    yield f"http://127.0.0.1:{server.servers[0].sockets[0].getsockname()[1]}"
    server.should_exit = True
    thread.join(timeout=10)


@pytest.fixture
def address(app: FastAPI) -> Iterator[str]:
    """The program over the test's own record."""
    with served(app) as found:
        yield found


def open_page(chromium: Browser, address: str, token: str | None, **device: object) -> BrowserContext:
    """Without the worker that keeps sheets, unless it is asked for: it would fetch a whole build beside each test."""
    context = chromium.new_context(base_url=address, **({"service_workers": "block"} | device))
    context.set_default_timeout(10_000)
    if token:
        context.add_cookies([{"name": COOKIE, "value": token, "url": address, "httpOnly": True, "sameSite": "Lax"}])
    return context


def complaints(page: Page) -> list[str]:
    """Fills up with what the browser complains of: script errors, what the strict policy refuses, faults."""
    wrong: list[str] = []

    def said(message: ConsoleMessage) -> None:
        if message.type in {"error", "warning"} and not message.text.startswith(ASKED_FOR):
            wrong.append(f"{page.url}: {message.text}")

    page.on("pageerror", lambda error: wrong.append(f"{page.url}: {error}"))
    page.on("console", said)
    return wrong


@contextmanager
def watched(chromium: Browser, address: str, token: str | None, **device: object) -> Iterator[Page]:
    """A page of its own browser; whatever the browser complains of fails the test."""
    context = open_page(chromium, address, token, **device)
    page = context.new_page()
    wrong = complaints(page)
    yield page
    context.close()
    assert wrong == []


@pytest.fixture
def phone(chromium: Browser, address: str, token: str, build: object, request: pytest.FixtureRequest) -> Iterator[Page]:
    """The builder's phone, signed in; with its worker where the test is marked so."""
    worker = "allow" if request.node.get_closest_marker("worker") else "block"
    with watched(chromium, address, token, service_workers=worker, **PHONE) as page:
        yield page


@pytest.fixture
def desk(chromium: Browser, address: str, token: str, build: object) -> Iterator[Page]:
    """The builder's laptop, signed in."""
    with watched(chromium, address, token, **DESK) as page:
        yield page


@pytest.fixture
def old_phone(chromium: Browser, address: str, token: str, build: object) -> Iterator[Page]:
    """The builder's phone with scripts switched off."""
    with watched(chromium, address, token, java_script_enabled=False, **PHONE) as page:
        yield page


@pytest.fixture
def viewer(chromium: Browser, address: str) -> Iterator[Page]:
    """A viewer's phone: signed out."""
    with watched(chromium, address, None, **PHONE) as page:
        yield page


def waiting(page: Page) -> int:
    """How much the phone itself holds."""
    return page.evaluate("async () => (await (await import('/static/js/store.js')).list()).length")


def all_sent(page: Page) -> None:
    end = time.monotonic() + 15
    while waiting(page):
        assert time.monotonic() < end, "still not sent"
        page.wait_for_timeout(100)
    expect(page.locator(".strip [data-unsent]")).to_be_hidden()
