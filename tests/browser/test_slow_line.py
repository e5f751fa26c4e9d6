"""The first visit over a slow line, as Chromium's own protocol makes it: 400 kbit/s, 400 ms.

The three seconds are a promise of this project (no outside source). Nothing here is judged by how quick this machine is
but by the line: the page's bytes take about a second of it, each round trip 0.4 s.
"""

from playwright.sync_api import expect

from tests.browser.conftest import PHONE, watched
from tests.browser.test_workday_once import east

__all__ = ["east"]
BASE = "/builds/bindery"
LINE = {"offline": False, "latency": 400, "downloadThroughput": 400_000 / 8, "uploadThroughput": 400_000 / 8}
READABLE = 3000
SEEN = """() => performance.getEntriesByType("paint").find((one) => one.name === "first-contentful-paint")?.startTime"""


def test_today_is_read_within_three_seconds_of_a_slow_line(chromium, address, token, east):
    with watched(chromium, address, token, **PHONE) as page:
        session = page.context.new_cdp_session(page)
        session.send("Network.enable")
        session.send("Network.emulateNetworkConditions", LINE)
        page.goto(f"{BASE}/today", wait_until="commit")
        expect(page.get_by_role("heading", name="Today")).to_be_visible()
        page.wait_for_load_state("load")
        assert page.evaluate(SEEN) < READABLE


def test_it_is_of_use_before_any_script_has_come(chromium, address, token, east):
    with watched(chromium, address, token, **PHONE) as page:
        page.route("**/*.js*", lambda _: None)  # never answered
        page.goto(f"{BASE}/today", wait_until="commit")
        page.get_by_role("link", name="Log the day").click()
        page.get_by_label("What got done, what came").fill("Plates.")
        page.get_by_role("button", name="Save the day").last.click()
        expect(page.get_by_role("heading", name="Saved.")).to_be_visible()
