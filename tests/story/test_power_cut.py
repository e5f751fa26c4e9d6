"""Scenario "Power cut": a note with five pictures is being saved as the power fails: a real server, killed."""

import hashlib
import socket
import subprocess
import sys
import threading
import time
from contextlib import contextmanager, suppress
from pathlib import Path

import httpx
import pytest
from PIL import Image
from sqlmodel import select

from tests import builders, pictures
from tests.project.test_command import environment, studbay
from tests.reading import soup, words
from webapp.accounts.guard import COOKIE
from webapp.core.database import Database
from webapp.photos.models import Photo
from webapp.photos.rules.names import original_name
from webapp.surfaces.models import PictureSlot
from webapp.workdays.models import Workday, WorkdayPhoto

BASE = "/builds/bindery"
NOTE = {"own": "2", "done": "Five pictures of the east wall.", "sent_id": "cut-1", "surface": "1", "slot": "1"}
FIVE = [pictures.a_jpeg(Image.effect_noise((700 + 90 * n, 600), 70).convert("RGB")) for n in range(5)]
FILES = [("pictures", (f"IMG_{n}.jpg", body, "image/jpeg")) for n, body in enumerate(FIVE)]


@pytest.fixture
def folder(settings, database, build, token) -> Path:
    """The east wall owes a picture; one day is on record. Nothing runs on the folder."""
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        builders.looked_at(session, build, surface)
        builders.a_slot(session, surface)
        builders.a_workday(session, build, done="An earlier day")
    database.close()
    return settings.data


@contextmanager
def powered(folder: Path, token: str, port: int = 0):
    """The server on the folder; `kill -9` at the end, as the power goes."""
    command = [sys.executable, "-m", "webapp", "serve", "--data", str(folder), "--port", str(port)]
    process = subprocess.Popen(
        command, cwd=folder.parent, env=environment(), stdout=subprocess.PIPE, stderr=subprocess.STDOUT, text=True
    )
    try:
        line = next(one for one in process.stdout or () if one.startswith("http://"))
        base = line.strip().rstrip("/")
        base = "/".join(base.split("/")[:3])
        more = {"headers": {"origin": base, "accept": "text/html"}, "cookies": {COOKIE: token}, "trust_env": False}
        with httpx.Client(base_url=base, timeout=30, **more) as client:
            yield process, client
    finally:
        with suppress(ProcessLookupError):
            process.kill()
        process.communicate()


def on_record(folder: Path) -> tuple[int, int, set[str], bool]:
    """Notes with these words, their pictures, SHA-256 of every picture known, whether the owed one is filled."""
    database = Database(folder / "studbay.sqlite3")
    with database.reading() as session:
        notes = session.exec(select(Workday).where(Workday.done == NOTE["done"])).all()
        found = session.exec(select(WorkdayPhoto)).all()
        known = {photo.sha256 for photo in session.exec(select(Photo))}
        filled = session.exec(select(PictureSlot)).one().photo_id is not None
    database.close()
    return len(notes), len(found), known, filled


def assert_whole_or_nothing(folder: Path) -> bool:
    """Whether the note is there; then all of it is, to the byte, else nothing of it counts for anything."""
    notes, with_it, known, filled = on_record(folder)
    photos = folder / "photos"
    for sha256 in known:
        body = (photos / original_name(sha256)).read_bytes()
        assert hashlib.sha256(body).hexdigest() == sha256, "no half picture is on record"
    assert (notes, with_it, filled) in {(0, 0, False), (1, 5, True)}
    checked = studbay("check", "--data", folder)
    assert "The record is sound" in checked.output
    assert "missing" not in checked.output and "damaged" not in checked.output, checked.output
    return notes == 1


def test_cut_while_the_third_picture_arrives_nothing_is_saved_and_the_same_sending_saves_it_all(folder, token):
    with powered(folder, token) as (process, client):
        request = client.build_request("POST", f"{BASE}/workdays/log", data=NOTE, files=FILES)
        body = request.read()
        at = body.index(FIVE[2]) + len(FIVE[2]) // 2
        lines = [f"POST {BASE}/workdays/log HTTP/1.1", f"Host: {client.base_url.netloc.decode()}"]
        lines += [f"{name}: {value}" for name, value in request.headers.items() if name != "host"]
        with socket.create_connection((client.base_url.host, client.base_url.port)) as wire:
            wire.sendall("\r\n".join([*lines, "", ""]).encode() + body[:at])
            time.sleep(0.5)
            process.kill()
            process.wait(30)
    assert not assert_whole_or_nothing(folder)
    with powered(folder, token) as (_, client):
        assert "An earlier day" in words(client.get(f"{BASE}/workdays"))
        assert "may be covered" not in soup(client.get(f"{BASE}/surfaces/E/before-cover")).h1.get_text()
        saved = client.post(f"{BASE}/workdays/log", data=NOTE, files=FILES)
        assert saved.status_code == 303
    assert assert_whole_or_nothing(folder)


@pytest.mark.parametrize("after", [0.01, 0.05, 0.12, 0.25])
def test_cut_at_any_moment_the_note_is_whole_or_not_there_and_never_twice(folder, token, after):
    with powered(folder, token) as (process, client):
        client.get(f"{BASE}/workdays/log")
        answers: list[int] = []

        def send() -> None:
            with suppress(httpx.HTTPError):
                answers.append(client.post(f"{BASE}/workdays/log", data=NOTE, files=FILES).status_code)

        sending = threading.Thread(target=send)
        sending.start()
        time.sleep(after)
        process.kill()
        process.wait(30)
        sending.join(30)
    there = assert_whole_or_nothing(folder)
    assert there or answers != [303], "what was confirmed is there"
    with powered(folder, token) as (_, client):
        again = client.post(f"{BASE}/workdays/log", data=NOTE, files=FILES)
        assert again.status_code == 303
        assert "Five pictures of the east wall." in words(client.get(again.headers["location"].partition("/saved")[0]))
    assert assert_whole_or_nothing(folder), "sent again with its own id it is there once"
