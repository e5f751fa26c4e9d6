"""Builds the wheel, installs it in an empty environment and starts `studbay demo` from another folder."""

import os
import re
import signal
import subprocess
import sys
import tempfile
import urllib.request
import venv
import zipfile
from pathlib import Path

ROOT = Path(__file__).resolve().parent.parent
STARTS_WITHIN = 120


def build_wheel(into: Path) -> Path:
    subprocess.run(
        [sys.executable, "-m", "build", "--outdir", str(into), str(ROOT)], check=True, stdout=subprocess.DEVNULL
    )
    return next(into.glob("studbay-*.whl"))


def check_contents(wheel: Path) -> None:
    names = zipfile.ZipFile(wheel).namelist()
    for part in (
        "_bundle/templates/_shell/base.html",
        "_bundle/static/sprite.svg",
        "_bundle/migrations/env.py",
        "demo/content/tasks.csv",
    ):
        assert f"webapp/{part}" in names, f"{part} is missing in the wheel"
    outside = sorted(
        {name.partition("/")[0] for name in names}
        - {"webapp"}
        - {wheel.name.removesuffix("-py3-none-any.whl") + ".dist-info"}
    )
    assert not outside, f"the wheel would put {outside} beside other people's packages"


def read_address(server: subprocess.Popen[str]) -> str:
    assert server.stdout is not None
    for line in server.stdout:
        print("  |", line.rstrip())
        if found := re.fullmatch(r"(http://\S+)", line.strip()):
            return found.group(1)
    raise SystemExit("the demo stopped before it printed its address")


def fetch(address: str) -> str:
    """The page at `address`, with the cookie kept through the redirect."""
    opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
    with opener.open(address, timeout=30) as page:
        text = page.read().decode()
    style = re.search(r'href="(/static/[^"]+\.css[^"]*)"', text)
    assert style, "the page names no stylesheet"
    with opener.open(address.partition("/demo/")[0] + style.group(1), timeout=30) as file:
        assert file.status == 200
    return text


def main() -> None:
    with tempfile.TemporaryDirectory() as name:
        folder = Path(name)
        wheel = build_wheel(folder / "dist")
        check_contents(wheel)
        venv.create(folder / "env", with_pip=True)
        subprocess.run([folder / "env/bin/pip", "install", "-q", str(wheel)], check=True)
        elsewhere = folder / "elsewhere"
        elsewhere.mkdir()
        clean = {key: value for key, value in os.environ.items() if not key.startswith(("STUDBAY_", "PYTHON"))}
        server = subprocess.Popen(
            [folder / "env/bin/studbay", "demo", "--port", "0"],
            cwd=elsewhere,
            env=clean,
            stdout=subprocess.PIPE,
            text=True,
        )
        try:
            page = fetch(read_address(server))
            assert "Can start now" in page, "the first page is not Today"
        finally:
            server.send_signal(signal.SIGINT)
            server.wait(timeout=30)
    print("The wheel carries all it needs and starts from any folder.")


if __name__ == "__main__":
    main()
