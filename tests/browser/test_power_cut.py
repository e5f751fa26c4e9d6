"""The power fails while the phone sends: it says so plainly, all of it is kept there, and it arrives once later."""

from pathlib import Path

from PIL import Image
from playwright.sync_api import Browser, expect

from tests import pictures
from tests.browser.conftest import PHONE, all_sent, open_page
from tests.story.test_power_cut import BASE, assert_whole_or_nothing, folder, powered

assert folder, "the fixture of the story"
SLOW = {"offline": False, "latency": 50, "downloadThroughput": 200_000, "uploadThroughput": 60_000}
FAST = {"offline": False, "latency": 0, "downloadThroughput": -1, "uploadThroughput": -1}
WORDS = "Five pictures of the east wall."


def test_not_sent_is_said_and_all_of_it_arrives_once_when_the_power_is_back(
    chromium: Browser,
    folder: Path,
    token: str,
    tmp_path: Path,
):
    files = []
    for number in range(5):
        path = tmp_path / f"IMG_{number}.jpg"
        path.write_bytes(pictures.a_jpeg(Image.effect_noise((700 + 90 * number, 600), 70).convert("RGB")))
        files.append(path)
    with powered(folder, token) as (process, client):
        port, address = client.base_url.port, str(client.base_url).rstrip("/")
        context = open_page(chromium, address, token, **PHONE)
        page = context.new_page()
        page.goto(f"{BASE}/workdays/log")
        page.get_by_label("What got done, what came").fill(WORDS)
        page.get_by_label("They show").select_option("1")
        page.get_by_text("A thing in it, or an owed picture").click()
        page.get_by_label("Fills the owed picture").select_option("1")
        page.get_by_label("From this phone’s pictures").set_input_files(files)
        wire = context.new_cdp_session(page)
        wire.send("Network.enable")
        wire.send("Network.emulateNetworkConditions", SLOW)
        page.get_by_role("button", name="Save the day").last.click()
        page.wait_for_timeout(1500)
        process.kill()
        process.wait(30)
        expect(page.get_by_role("heading", name="Kept on this phone")).to_be_visible(timeout=30_000)
        expect(page.locator("main")).to_contain_text("Not sent yet: 1")
    assert not assert_whole_or_nothing(folder)
    with powered(folder, token, port):
        wire.send("Network.emulateNetworkConditions", FAST)
        page.goto(f"{BASE}/today")
        all_sent(page)
        page.goto(f"{BASE}/workdays")
        expect(page.locator("main")).to_contain_text(WORDS)
        context.close()
    assert assert_whole_or_nothing(folder)
