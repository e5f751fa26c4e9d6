"""Takes the README's pictures anew from the demo: `.venv/bin/python .ci/pictures.py` (needs Chromium on the path)."""

import re
import shutil
import signal
import subprocess
import sys
from pathlib import Path

from playwright.sync_api import Page, sync_playwright

INTO = Path(__file__).resolve().parent.parent / ".readme"
PHONE = {"viewport": {"width": 390, "height": 844}, "device_scale_factor": 2}
DESK = {"viewport": {"width": 1280, "height": 900}, "device_scale_factor": 1}
PICTURES = (
    ("today-phone", "/builds/bindery/today", "light", PHONE),
    ("before-cover-sun", "/builds/bindery/surfaces/E/before-cover", "sun", PHONE),
    ("what-stops-desk", "/builds/bindery/what-stops", "light", DESK),
    ("surfaces-blue", "/builds/bindery/surfaces", "dark", DESK),
    ("behind-phone", "/builds/bindery/surfaces/N/behind?x=54&y=84", "light", PHONE),
    ("wall-desk", "/builds/bindery/surfaces/S/drawing", "light", DESK),
    ("episode-phone", "/watch/bindery/2", "light", PHONE),
    ("no-signal-phone", "/builds/bindery/surfaces/E/before-cover", "light", PHONE),
)


def cut_off(page: Page) -> None:
    """The same page without signal: its worker has it by then, and shows it with its age."""
    page.evaluate("navigator.serviceWorker.ready.then(() => true)")
    page.reload(wait_until="networkidle")
    page.context.set_offline(True)
    page.reload()
    page.wait_for_timeout(1500)


def main() -> None:
    server = subprocess.Popen(
        [sys.executable, "-m", "webapp", "demo", "--port", "0"], stdout=subprocess.PIPE, text=True
    )
    address = next(found for line in server.stdout if (found := re.fullmatch(r"http://\S+", line.strip()))).group()
    base = address.partition("/demo/")[0]
    try:
        with sync_playwright() as playwright:
            browser = playwright.chromium.launch(
                executable_path=shutil.which("chromium"), args=["--no-sandbox", "--disable-gpu"]
            )
            for name, path, look, device in PICTURES:
                context = browser.new_context(**device)
                page = context.new_page()
                page.goto(address)
                context.add_cookies([{"name": "studbay-look", "value": look, "url": base}])
                page.goto(base + path, wait_until="networkidle")
                if name.startswith("no-signal"):
                    cut_off(page)
                page.screenshot(path=INTO / f"{name}.png")
                context.close()
            browser.close()
    finally:
        server.send_signal(signal.SIGINT)
        server.wait(timeout=30)


if __name__ == "__main__":
    main()
