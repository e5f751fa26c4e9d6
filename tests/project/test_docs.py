"""The docs are a test: what they name is there, what is there they name, and their commands run."""

import os
import re
import shutil
import signal
import subprocess
import sys
import urllib.request
from pathlib import Path

import pytest
import typer

from webapp import __main__ as command_line
from webapp.core.settings import Settings

ROOT = Path(__file__).resolve().parents[2]
README = (ROOT / "README.md").read_text()
GUIDE = (ROOT / "DEVELOPERS.md").read_text()
SETTINGS = dict(re.findall(r'"""(STUDBAY_\w+): (.+?)"""', (ROOT / "webapp/core/settings.py").read_text()))
COMMANDS = sorted(typer.main.get_command(command_line.command_line).commands)


def test_the_readme_has_every_setting_in_the_same_words():
    table = README.split("<!-- settings -->")[1]
    told = dict(re.findall(r"^\| `(STUDBAY_\w+)` \| (.+?) \|", table, re.MULTILINE))
    assert told == SETTINGS
    assert len(SETTINGS) == len(Settings.__dataclass_fields__) - 1, "each field but `demo` is a setting"


def test_both_documents_name_every_command():
    for command in COMMANDS:
        assert f"studbay {command}" in README, command
        assert f"`studbay {command}`" in GUIDE, command


def test_the_guide_names_every_package():
    for package in (ROOT / "webapp").iterdir():
        if (package / "__init__.py").exists():
            assert f"`{package.name}`" in GUIDE, package.name


def test_the_generated_parts_of_the_guide_are_current():
    told = subprocess.run(
        [sys.executable, "-m", "cogapp", "--check", "DEVELOPERS.md"],
        cwd=ROOT,
        capture_output=True,
        text=True,
        check=False,
        env=os.environ | {"PYTHONPATH": str(ROOT)},
    )
    assert told.returncode == 0, "run `.venv/bin/cog -r DEVELOPERS.md`\n" + told.stdout + told.stderr


def test_the_pictures_of_the_readme_are_there():
    named = re.findall(r"\]\((\.readme/[^)]+)\)", README)
    assert named, "the README shows no page"
    assert [name for name in named if not (ROOT / name).is_file()] == []


def readme_lines() -> list[str]:
    return re.findall(r"^ {4}(\S.*)$", README, re.MULTILINE)


def test_the_readme_says_one_command_for_the_demo_and_one_for_the_tests():
    long = [line for line in readme_lines() if line.startswith("python3 -m venv")]
    assert len(long) == 2
    assert long[0].endswith("studbay demo")
    assert long[1].endswith("pytest")


@pytest.fixture(scope="module")
def fresh_copy(tmp_path_factory) -> Path:
    """The project as a stranger gets it: tracked and new files only, no environment."""
    copy = tmp_path_factory.mktemp("fresh") / "studbay"
    listed = subprocess.run(
        ["git", "ls-files", "-co", "--exclude-standard"], cwd=ROOT, capture_output=True, text=True, check=False
    )
    names = listed.stdout.split("\n") if listed.returncode == 0 else []
    if not any(names):
        pytest.skip("not a checkout: there is no list of the project's files to copy")
    for name in filter(None, names):
        if (ROOT / name).is_file():
            (copy / name).parent.mkdir(parents=True, exist_ok=True)
            shutil.copy(ROOT / name, copy / name)
    return copy


def test_the_readme_s_first_command_sets_everything_up_and_opens_the_example(fresh_copy):
    """Run as written, on a fresh copy; only the port is added, so that it meets nobody else's."""
    line = next(line for line in readme_lines() if line.endswith("studbay demo"))
    server = subprocess.Popen(
        ["bash", "-c", f"exec {line} --port 0" if "&&" not in line else f"{line} --port 0"],
        cwd=fresh_copy,
        stdout=subprocess.PIPE,
        text=True,
        start_new_session=True,
        env={name: value for name, value in os.environ.items() if not name.startswith("STUDBAY_")},
    )
    try:
        address = next((found for text in server.stdout if (found := re.fullmatch(r"http://\S+", text.strip()))), None)
        assert address, "no address on a line of its own"
        opener = urllib.request.build_opener(urllib.request.HTTPCookieProcessor())
        page = opener.open(address.group(), timeout=30).read().decode()
        assert "Can start now" in page
        assert "Bindery" in page
    finally:
        os.killpg(server.pid, signal.SIGINT)
        server.wait(timeout=30)


def test_the_readme_s_copies_and_checks_run_as_written(fresh_copy, tmp_path):
    """`backup`, `restore` and `check`, in the order of the README, on a record just begun."""
    studbay = Path(sys.executable).with_name("studbay")
    folder = tmp_path / "studbay-data"
    clean = {name: value for name, value in os.environ.items() if not name.startswith("STUDBAY_")}

    def run(line: str) -> str:
        words = line.replace(".venv/bin/studbay", str(studbay)).split()
        told = subprocess.run(words, cwd=tmp_path, env=clean, capture_output=True, text=True, check=False)
        assert told.returncode == 0, told.stdout + told.stderr
        return told.stdout

    server = subprocess.Popen(
        [studbay, "serve", "--port", "0"], cwd=tmp_path, env=clean, stdout=subprocess.PIPE, text=True
    )
    try:
        assert any(text.strip().startswith("http://") for text in server.stdout)
    finally:
        server.send_signal(signal.SIGINT)
        server.wait(timeout=30)
    lines = {line.split()[1]: line for line in readme_lines() if line.startswith(".venv/bin/studbay ")}
    run(lines["backup"])
    (made,) = folder.glob("backups/*.zip")
    run(lines["check"])
    kept = tmp_path / "the-copy.zip"
    shutil.copy(made, kept)
    shutil.rmtree(folder)
    run(lines["restore"].replace("studbay-data/backups/the-copy.zip", str(kept)))
    run(lines["backup"])
    run(lines["check"])
