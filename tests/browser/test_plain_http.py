"""At a plain http address in the own network browsers hold back the worker, locks and random ids (W3C Secure Contexts);
what is recorded is kept on the phone all the same, and sent once.
"""

from dataclasses import replace

import pytest
from playwright.sync_api import expect
from sqlmodel import select

from tests import builders
from tests.browser.conftest import FLAGS, PHONE, all_sent, served, watched, where
from webapp.core import clock
from webapp.main import create_app
from webapp.workdays.models import Workday

NAME = "build.test"
BASE = "/builds/bindery"


@pytest.fixture
def phone(chromium, settings, database, build, token, today):
    """The builder's phone at a name of the own network that stands for this machine."""
    app = create_app(replace(settings, hosts=(NAME,)), database)
    app.dependency_overrides[clock.today] = lambda: today
    flags = [*FLAGS, f"--host-resolver-rules=MAP {NAME} 127.0.0.1"]
    browser = chromium.browser_type.launch(executable_path=where(), args=flags)
    with served(app) as address, watched(browser, address.replace("127.0.0.1", NAME), token, **PHONE) as page:
        yield page
    browser.close()


def test_what_is_recorded_is_kept_and_sent_all_the_same(phone, database, build):
    with database.writing() as session:
        builders.a_surface(session, build)
    phone.goto(f"{BASE}/workdays/log")
    phone.wait_for_load_state("networkidle")
    assert phone.evaluate("[isSecureContext, 'serviceWorker' in navigator, 'locks' in navigator]") == [False] * 3
    phone.get_by_label("What got done, what came").fill("Plates.")
    phone.context.set_offline(True)
    phone.get_by_role("button", name="Save the day").click()
    expect(phone.get_by_role("heading", name="Kept on this phone")).to_be_visible()
    expect(phone.locator(".strip [data-unsent]")).to_have_text("Not sent: 1")
    phone.context.set_offline(False)
    phone.goto(f"{BASE}/today")
    all_sent(phone)
    with database.reading() as session:
        assert [day.done for day in session.exec(select(Workday)).all()] == ["Plates."]


def test_what_does_not_work_is_said_plainly(phone, build):
    phone.goto("/not-sent")
    expect(phone.locator("[data-kept]")).to_contain_text("This address is not secure, so the browser keeps no sheets.")
    phone.goto("/phone")
    expect(phone.locator("main")).to_contain_text("Not here: the browser keeps no sheets.")
