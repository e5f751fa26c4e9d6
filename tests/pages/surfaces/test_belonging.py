"""The panel on a task and on a shot: which surfaces they belong to."""

import pytest

from tests import builders
from tests.reading import links, words
from webapp.surfaces import store
from webapp.surfaces.models import Surface

FRAGMENT = {"hx-request": "true"}


@pytest.fixture
def rows(database, build):
    with database.writing() as session:
        east = builders.a_surface(session, build)
        builders.a_surface(session, build, "S", "South wall", position=2)
        task = builders.a_task(session, builders.a_phase(session, build))
        return east.row_id, task.row_id, builders.a_shot(session, build).row_id


def test_a_task_closes_one_surface_and_works_on_another(client, database, build, rows):
    _east, task, _shot = rows
    path = f"/builds/bindery/tasks/{task}/surfaces"
    assert "None yet." in client.get(path, headers=FRAGMENT).text
    assert client.post(path, data={"E": "closes", "S": "works"}).status_code == 303
    panel = client.get(path, headers=FRAGMENT)
    assert "<html" not in panel.text
    assert "Closes it" in panel.text
    assert "Works on it" in panel.text
    assert "Surfaces it works on or closes" in words(client.get(path))
    client.post(path, data={"E": "", "S": "something else"})
    with database.reading() as session:
        assert store.list_task_surfaces(session, build.id) == ()


def test_what_a_task_worked_on_and_closed_before_stays_in_its_history(client, rows):
    path = f"/builds/bindery/tasks/{rows[1]}"
    client.post(f"{path}/surfaces", data={"E": "closes", "S": "works"})
    client.post(f"{path}/surfaces", data={"E": "closes", "S": "works"})
    client.post(f"{path}/surfaces", data={"S": "works"})
    history = words(client.get(path))
    assert history.count("No surface, then closes East wall, works on South wall") == 1, "the same again is no change"
    assert "Closes East wall, works on South wall, then works on South wall" in history


def test_a_done_task_closes_nothing_behind_the_gate(client, database, build, rows):
    path = f"/builds/bindery/tasks/{rows[1]}"
    assert client.post(f"{path}/finish", data={"on": "today"}).status_code == 303
    refused = client.post(f"{path}/surfaces", data={"E": "closes", "S": "works"})
    assert refused.status_code == 409
    assert "is done already, and nobody asked then whether East wall may be covered." in words(refused)
    assert links(refused)["Reopen the task"] == f"{path}#stands"
    assert links(refused)["See what East wall still owes"] == "/builds/bindery/surfaces/E/before-cover"
    with database.reading() as session:
        assert store.list_task_surfaces(session, build.id) == ()
    assert client.post(f"{path}/surfaces", data={"S": "works"}).status_code == 303, "that it worked on it may be said"
    assert client.post(f"{path}/reopen", data={"why": "the board is not up"}).status_code == 303
    assert client.post(f"{path}/surfaces", data={"E": "closes"}).status_code == 303
    assert client.post(f"{path}/finish", data={"on": "today"}).status_code == 409, "the gate asks now"


def test_a_done_task_keeps_what_it_closed_at_the_gate(client, database, build, rows):
    with database.writing() as session:
        builders.looked_at(session, build, session.get_one(Surface, rows[0]))
    path = f"/builds/bindery/tasks/{rows[1]}"
    client.post(f"{path}/surfaces", data={"E": "closes"})
    assert client.post(f"{path}/finish", data={"on": "today"}).status_code == 303
    assert client.post(f"{path}/surfaces", data={"E": "closes", "S": "works"}).status_code == 303


def test_a_shot_is_taken_of_its_surface(client, database, build, rows):
    east, _task, shot = rows
    path = f"/builds/bindery/footage/{shot}/surfaces"
    assert client.post(path, data={"E": "works"}).status_code == 303
    with database.reading() as session:
        assert [link.surface_id for link in store.list_shot_surfaces(session, build.id)] == [east]
    assert "East wall" in client.get(path, headers=FRAGMENT).text


@pytest.mark.parametrize("path", ["tasks/99", "footage/99"])
def test_what_is_not_there_has_no_surfaces(client, path):
    assert client.get(f"/builds/bindery/{path}/surfaces").status_code == 404
    assert client.post(f"/builds/bindery/{path}/surfaces", data={}).status_code == 404


def test_a_stranger_links_nothing(stranger, rows):
    assert stranger.post(f"/builds/bindery/tasks/{rows[1]}/surfaces", data={"E": "closes"}).status_code in {303, 401}
    assert stranger.post(f"/builds/bindery/footage/{rows[2]}/surfaces", data={"E": "works"}).status_code in {303, 401}
