"""What a phone sends later: files first, each by itself; saved once; on the day it was recorded."""

import hashlib
import os
import time

import pytest
from sqlmodel import select

from tests import builders, pictures
from webapp.core.arriving import sweep
from webapp.photos.models import Photo
from webapp.plan.models import Task, TaskChange
from webapp.workdays.models import Workday, WorkdayPhoto

LOG = "/builds/bindery/workdays/log"
PICTURE = pictures.a_jpeg()
SUM = hashlib.sha256(PICTURE).hexdigest()


def everything(database, table):
    with database.reading() as session:
        return session.exec(select(table)).all()


def test_a_file_arrives_before_its_form_and_is_claimed_by_it(client, database, settings):
    answer = client.post("/arriving", content=PICTURE)
    assert answer.json() == {"sha256": SUM}
    assert (settings.arriving / SUM).read_bytes() == PICTURE
    sent = client.post(LOG, data={"sent_id": "a", "done": "Plates", "arrived:pictures": f"{SUM} wall one.jpg"})
    assert sent.status_code == 303
    [photo] = everything(database, Photo)
    assert (photo.sha256, photo.original_name) == (SUM, "wall one.jpg")
    assert len(everything(database, WorkdayPhoto)) == 1
    assert not (settings.arriving / SUM).exists(), "it lies in its own place now"


def test_the_same_file_arriving_twice_is_there_once(client, settings):
    for _ in range(2):
        assert client.post("/arriving", content=PICTURE).status_code == 200
    assert [path.name for path in settings.arriving.iterdir()] == [SUM]


@pytest.mark.parametrize("named", [f"{SUM} a.jpg", "../../secret a.jpg", "", "0" * 64])
def test_a_file_that_has_not_arrived_is_asked_for_again_and_nothing_is_saved(client, database, named):
    sent = client.post(LOG, data={"sent_id": "a", "done": "Plates", "arrived:pictures": named})
    assert sent.status_code == 412
    assert everything(database, Workday) == []


def test_what_is_too_large_or_empty_is_said(client, settings):
    assert "empty" in client.post("/arriving", content=b"").text
    too_much = b"0" * (max(settings.picture_mb, settings.paper_mb) * 1024 * 1024 + 1)
    answer = client.post("/arriving", content=too_much)
    assert (answer.status_code, answer.text) == (413, "This file is larger than 40 MB, so it was not kept.")
    assert list(settings.arriving.iterdir()) == []


def test_a_form_that_is_drawn_again_keeps_what_had_arrived(client, settings):
    client.post("/arriving", content=PICTURE)
    fields = {"sent_id": "a", "own": "55", "arrived:pictures": f"{SUM} a.jpg"}
    assert client.post(LOG, data=fields).status_code == 422
    assert (settings.arriving / SUM).exists()


def test_a_stranger_leaves_nothing(stranger, settings):
    assert stranger.post("/arriving", content=PICTURE).status_code == 401
    assert not settings.arriving.exists()


def test_what_nobody_claims_for_a_month_is_swept(client, settings):
    client.post("/arriving", content=PICTURE)
    sweep(settings.arriving)
    assert (settings.arriving / SUM).exists()
    before = time.time() - 31 * 24 * 3600
    os.utime(settings.arriving / SUM, (before, before))
    sweep(settings.arriving)
    assert not (settings.arriving / SUM).exists()


def test_a_form_without_an_id_of_its_own_is_saved_once(client, database, build):
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build)).row_id
    head = {"studbay-sent": "made-on-the-phone", "referer": f"http://127.0.0.1/builds/bindery/tasks/{task}"}
    first = client.post(f"/builds/bindery/tasks/{task}/start", data={"on": "today"}, headers=head)
    again = client.post(f"/builds/bindery/tasks/{task}/start", data={"on": "today"}, headers=head)
    assert (first.status_code, again.status_code) == (303, 303)
    assert again.headers["location"] == f"/builds/bindery/tasks/{task}"
    assert len(everything(database, TaskChange)) == 1


def test_what_was_drawn_again_was_not_saved_and_may_come_again(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build).row_id
    head = {"studbay-sent": "made-on-the-phone"}
    path = f"/builds/bindery/phases/{phase}/tasks"
    assert client.post(path, data={"title": ""}, headers=head).status_code == 422
    fields = {"title": "Hang the door", "kind": "board", "who": "self", "low": "1", "likely": "2", "high": "3"}
    assert client.post(path, data=fields, headers=head).status_code == 303
    assert [task.title for task in everything(database, Task)] == ["Hang the door"]


@pytest.mark.parametrize(
    ("said", "day"),
    [
        ("2026-05-14T17:40:03", "2026-05-14"),
        ("2026-05-16T00:01:00", "2026-05-16"),
        ("2026-05-17T09:00:00", "2026-05-16"),  # a clock that goes ahead
        ("2025-05-14T17:40:03", "2026-05-16"),  # longer back than a phone waits
        ("2026-04-31T17:40:03", "2026-05-16"),
        ("yesterday", "2026-05-16"),
    ],
)
def test_what_was_recorded_days_ago_means_the_day_it_was_then(client, database, build, said, day):
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build)).row_id
    client.post(f"/builds/bindery/tasks/{task}/start", data={"on": "today"}, headers={"studbay-recorded": said})
    [found] = everything(database, Task)
    assert found.started_on.isoformat() == day
