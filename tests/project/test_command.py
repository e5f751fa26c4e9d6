"""The command line and the real server: addresses, refusals in sentences, a clean end, a kill that loses nothing."""

import gc
import hashlib
import os
import re
import signal
import socket
import ssl
import subprocess
import sys
import threading
import warnings
from collections.abc import Iterator
from contextlib import closing, contextmanager, suppress
from dataclasses import replace
from pathlib import Path

import httpx
import pytest
from typer.testing import CliRunner, Result

from webapp import paths
from webapp.__main__ import command_line
from webapp.accounts import actions
from webapp.backup.store import looking_at
from webapp.core import serving
from webapp.core.database import Database
from webapp.values.errors import BadInput

PASSWORD = "mud and tape in may"
COMMANDS = ("serve", "demo", "backup", "restore", "check", "password")


def environment() -> dict[str, str]:
    kept = {name: value for name, value in os.environ.items() if not name.startswith("STUDBAY_")}
    return kept | {"PYTHONPATH": str(paths.ROOT), "PYTHONUNBUFFERED": "1"}


def studbay(*words: str | Path, typed: str = "", **variables: str) -> Result:
    """A command that ends by itself, run in this process; servers are real processes, see `running`."""
    with warnings.catch_warnings():
        warnings.simplefilter("ignore")  # the prompt warns that this terminal shows what is typed
        return CliRunner().invoke(command_line, [str(word) for word in words], input=typed, env=variables)


@contextmanager
def running(cwd: Path, *words: str) -> Iterator[tuple[subprocess.Popen[str], str]]:
    """A real server on a free port, and the first address it prints; killed at the end if it still runs."""
    process = subprocess.Popen(
        [sys.executable, "-m", "webapp", *words, "--port", "0"],
        cwd=cwd,
        env=environment(),
        stdout=subprocess.PIPE,
        stderr=subprocess.STDOUT,
        text=True,
    )
    guard = threading.Timer(120, process.kill)
    guard.start()
    try:
        lines: list[str] = []
        for line in process.stdout or ():
            lines.append(line)
            if line.startswith(("http://", "https://")):
                break
        else:
            pytest.fail("".join(lines))
        yield process, lines[-1].strip()
    finally:
        guard.cancel()
        with suppress(ProcessLookupError):
            process.kill()
        process.communicate()


def browser(address: str) -> httpx.Client:
    base = re.match(r"http://[^/]+", address)[0]
    return httpx.Client(base_url=base, headers={"origin": base, "accept": "text/html"}, timeout=30, trust_env=False)


def set_up(address: str) -> httpx.Client:
    client = browser(address)
    done = client.post(address, data={"name": "the builder", "password": PASSWORD, "again": PASSWORD})
    assert done.status_code == 303, done.text
    return client


def names(data: Path) -> list[str]:
    with looking_at(data / "studbay.sqlite3") as connection:
        return [name for (name,) in connection.execute("SELECT name FROM accounts_owner")]


@pytest.fixture
def record(settings, database):
    """The data folder of a builder who is set up; nothing runs on it."""
    with database.writing() as session:
        token = actions.offer_set_up(session)
        actions.set_up_owner(session, token, "the builder", actions.hash_password(PASSWORD))
    database.close()
    return settings.data


def test_help_says_what_each_command_does(tmp_path, monkeypatch):
    monkeypatch.chdir(tmp_path)
    told = studbay("--help")
    assert told.exit_code == 0
    assert all(re.search(rf"\b{command}\b", told.stdout) for command in COMMANDS)
    assert all(studbay(command, "--help").exit_code == 0 for command in COMMANDS)
    assert list(tmp_path.iterdir()) == [], "asking for help makes nothing"


def test_https_lets_the_phone_in_with_a_certificate_made_here(tmp_path):
    with running(tmp_path, "serve", "--https") as (process, address):
        told = [address]
        for line in process.stdout or ():
            told.append(line.strip())
            if re.fullmatch(r"([0-9A-F]{2} ? ?)+", line.strip()):
                break
        assert re.fullmatch(r"https://127\.0\.0\.1:\d+/set-up/[\w-]{40,}", address)
        plain = re.sub(r"//[^:]+:", "//127.0.0.1:", next(line for line in told if line.startswith("http://")))
        authority = httpx.get(f"{plain}studbay-authority.crt", trust_env=False).content
        assert hashlib.sha256(authority).hexdigest().upper() == told[-1].replace(" ", "")
        trusting = ssl.create_default_context(cadata=ssl.DER_cert_to_PEM_cert(authority))
        base = re.match(r"https://[^/]+", address)[0]
        with httpx.Client(base_url=base, verify=trusting, headers={"origin": base}, trust_env=False) as client:
            form = {"name": "the builder", "password": PASSWORD, "again": PASSWORD}
            done = client.post(address, data=form)
            assert done.status_code == 303
            assert "__Host-studbay=" in done.headers["set-cookie"]
            assert "Secure" in done.headers["set-cookie"]
            assert client.get("/phone").status_code == 200
        with pytest.raises(httpx.ConnectError, match="certificate verify failed"):
            httpx.get(address, trust_env=False)
        process.send_signal(signal.SIGINT)
        assert process.wait(30) == 0


def test_a_stop_that_comes_while_rubbish_is_collected_is_not_lost(app, settings, monkeypatch):
    """What a signal raises inside a callback of the collector is thrown away by Python; the server must not start."""
    lost = []
    monkeypatch.setattr(sys, "unraisablehook", lambda found: lost.append(found.exc_type))

    def stopped(_phase: str, _info: object) -> None:
        gc.callbacks.remove(stopped)
        signal.raise_signal(signal.SIGTERM)

    with serving.ends_softly() as asked, closing(serving.listen(replace(settings, port=0))) as opened:
        gc.callbacks.append(stopped)
        gc.collect()
        assert lost == [KeyboardInterrupt]
        serving.serve(app, opened, settings, asked)
    assert asked.is_set()


def test_the_first_start_prints_a_set_up_address_and_later_ones_do_not(tmp_path):
    with running(tmp_path, "serve") as (process, address):
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/set-up/[\w-]{40,}", address)
        assert set_up(address).get("/settings").status_code == 200
        process.send_signal(signal.SIGINT)
        assert process.wait(30) == 0
    assert [path.name for path in tmp_path.iterdir()] == ["studbay-data"]
    assert not list((tmp_path / "studbay-data").glob("*-wal")), "the file alone is the whole record"
    assert names(tmp_path / "studbay-data") == ["the builder"]
    with running(tmp_path, "serve") as (process, address):
        assert re.fullmatch(r"http://127\.0\.0\.1:\d+/", address)
        process.terminate()
        assert process.wait(30) == 0


def test_what_was_confirmed_outlives_a_kill(tmp_path):
    """Answered means on the disk (SQLite, PRAGMA synchronous=FULL): nothing folds the log in before the end here."""
    with running(tmp_path, "serve") as (process, address):
        client = set_up(address)
        for number in range(12):
            assert client.post("/settings", data={"name": f"the builder {number}"}).status_code == 303
        process.kill()
        process.wait(30)
    assert names(tmp_path / "studbay-data") == ["the builder 11"]
    with running(tmp_path, "serve") as (_, address):
        signed = browser(address).post("/sign-in", data={"name": "the builder 11", "password": PASSWORD})
        assert signed.status_code == 303


def test_a_second_server_and_a_restore_are_refused_while_a_copy_is_made(tmp_path):
    build, away = tmp_path / "build", tmp_path / "away.zip"
    with running(tmp_path, "serve", "--data", "build") as (_, address):
        set_up(address)
        second = studbay("serve", "--port", "0", "--data", build)
        assert (second.exit_code, "running on the folder" in second.stderr) == (2, True)
        made = studbay("backup", "--data", build, "--to", away)
        assert made.exit_code == 0, made.stderr
        refused = studbay("restore", away, "--data", build, "--replace")
        assert (refused.exit_code, "running on the folder" in refused.stderr) == (2, True)
    back = studbay("restore", away, "--data", tmp_path / "elsewhere")
    assert back.exit_code == 0, back.stderr
    assert names(tmp_path / "elsewhere") == ["the builder"]


def test_a_file_that_is_there_is_never_written_over(record, tmp_path):
    (tmp_path / "away.zip").write_text("mine")
    told = studbay("backup", "--data", record, "--to", tmp_path / "away.zip")
    assert (told.exit_code, "There is a file" in told.stderr) == (2, True)
    assert (tmp_path / "away.zip").read_text() == "mine"
    assert studbay("backup", "--data", record, "--to", tmp_path).exit_code == 0
    assert [path.suffix for path in tmp_path.glob("studbay-*")] == [".zip"]


def test_a_taken_port_gives_a_sentence(record):
    with closing(socket.socket()) as taken:
        taken.bind(("127.0.0.1", 0))
        taken.listen()
        told = studbay("serve", "--port", str(taken.getsockname()[1]), "--data", record)
    assert (told.exit_code, "--port 0" in told.stderr) == (2, True)


def test_an_unknown_setting_gives_a_sentence(record):
    told = studbay("check", "--data", record, STUDBAY_COLOUR="blue")
    assert (told.exit_code, "STUDBAY_COLOUR is not a setting" in told.stderr) == (2, True)


def test_check_tells_by_its_exit_code_whether_all_is_well(record):
    assert studbay("check", "--data", record).exit_code == 1, "there is no whole copy yet"
    studbay("backup", "--data", record)
    well = studbay("check", "--data", record)
    assert (well.exit_code, well.stdout.strip().splitlines()[-1]) == (0, "All is well.")
    nothing = studbay("check", "--data", record / "nowhere")
    assert (nothing.exit_code, "There is no record" in nothing.stderr) == (2, True)


def test_a_forgotten_password_is_set_anew_on_the_machine_itself(record, settings):
    short = studbay("password", "--data", record, typed="short\nshort\n")
    assert (short.exit_code, "at least 10" in short.stderr) == (2, True)
    fresh = "a stud every sixteen inches"
    assert studbay("password", "--data", record, typed=f"{fresh}\n{fresh}\n").exit_code == 0
    with closing(Database(settings.database)) as opened:
        assert actions.check_password(opened, "127.0.0.1", "the builder", fresh)
        with pytest.raises(BadInput):
            actions.check_password(opened, "127.0.0.1", "the builder", PASSWORD)


def test_a_damaged_record_is_not_opened_and_the_newest_copy_is_named(record, settings):
    studbay("backup", "--data", record)
    settings.database.write_bytes(settings.database.read_bytes()[:20000] + b"\xff" * 200_000)
    told = studbay("serve", "--port", "0", "--data", record)
    assert told.exit_code == 2
    assert re.search(r"damaged .* studbay restore \S+\.zip --replace", told.stderr, re.DOTALL)


def test_the_demo_never_mixes_with_a_record_of_ones_own(record):
    told = studbay("demo", "--port", "0", "--data", record)
    assert (told.exit_code, "record of its own" in told.stderr) == (2, True)


def test_the_demo_signs_in_by_itself_and_leaves_nothing_behind(tmp_path):
    with running(tmp_path, "demo") as (process, address):
        client = browser(address)
        assert client.get(address).status_code == 303
        assert client.get("/settings").status_code == 200
        process.send_signal(signal.SIGINT)
        assert process.wait(30) == 0
    assert list(tmp_path.iterdir()) == []
