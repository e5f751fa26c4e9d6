"""Two versions of one thing: edits of different fields merge, edits of one field are put to the builder, a tick too."""

from datetime import datetime, timedelta

import pytest
from sqlmodel import select

from tests import builders
from tests.reading import field_errors, soup, words
from webapp.core import clock
from webapp.plan.models import Task, TaskChange
from webapp.workdays.models import WorkEntry

LOG = "/builds/bindery/workdays/log"


@pytest.fixture
def task(database, build) -> int:
    with database.writing() as session:
        made = builders.a_task(session, builders.a_phase(session, build), "Hang the duct", state="under way")
        return made.row_id


def one(database, table):
    with database.reading() as session:
        return session.exec(select(table)).one()


def opened(client, path: str) -> dict[str, list[str]]:
    """The fields of the form as it is opened, as a browser would send them."""
    form = soup(client.get(path)).select_one("form[data-edits]")
    fields = {}
    for field in form.select("input[name], textarea[name], select[name]"):
        kind, name = field.get("type"), field["name"]
        if kind == "hidden" or (kind in {"checkbox", "radio"} and not field.has_attr("checked")):
            continue
        if field.name == "select":
            value = (field.select_one("option[selected]") or field.select_one("option"))["value"]
        else:
            value = field.text.removeprefix("\n") if field.name == "textarea" else field.get("value", "on")
        fields.setdefault(name, []).append(value)
    return fields


def as_sent(was: dict[str, list[str]], **changed: str) -> dict[str, list[str]]:
    return {**was, **{f"was:{name}": values for name, values in was.items()}, **{k: [v] for k, v in changed.items()}}


def test_edits_of_different_fields_merge(client, database, task):
    path = f"/builds/bindery/tasks/{task}/edit"
    was = opened(client, path)
    assert client.post(path, data={**was, "title": "Hang the bath fan's duct"}).status_code == 303
    assert client.post(path, data=as_sent(was, note="Two hangers more")).status_code == 303
    found = one(database, Task)
    assert (found.title, found.note) == ("Hang the bath fan's duct", "Two hangers more")


def test_one_field_changed_on_both_sides_shows_both_and_the_builder_chooses(client, database, task):
    path = f"/builds/bindery/tasks/{task}/edit"
    was = opened(client, path)
    client.post(path, data={**was, "title": "Desk says"})
    answer = client.post(path, data=as_sent(was, title="Phone says", note="kept"))
    assert answer.status_code == 422
    assert field_errors(answer)["title"].startswith(
        "Changed on both sides: “Desk says” elsewhere meanwhile, “Phone says” here."
    )
    assert "Save with Desk says" in words(answer) and "Save with Phone says" in words(answer)
    shown = opened(client, path)
    assert shown["title"] == ["Desk says"], "nothing is saved yet"
    redrawn = soup(answer).select_one("[name=note]")
    assert redrawn.text.strip() == "kept"
    assert client.post(path, data={**was, "title": ["Phone says", "Desk says"], "note": "kept"}).status_code == 303
    assert (one(database, Task).title, one(database, Task).note) == ("Desk says", "kept")


def test_the_same_change_on_both_sides_is_no_clash(client, database, task):
    path = f"/builds/bindery/tasks/{task}/edit"
    was = opened(client, path)
    client.post(path, data={**was, "title": "The same"})
    assert client.post(path, data=as_sent(was, title="The same")).status_code == 303


def head(moment: datetime) -> dict[str, str]:
    return {"studbay-seen": moment.isoformat(), "studbay-recorded": "2026-05-16T08:40:00"}


@pytest.fixture
def unticked(client, database, task) -> datetime:
    """Ticked and un-ticked at the desk; what the phone knew is older than both."""
    known = clock.now() - timedelta(minutes=5)
    assert client.post(f"/builds/bindery/tasks/{task}/finish", data={"on": "today"}).status_code == 303
    why = {"why": "It sags", "on": "today"}
    assert client.post(f"/builds/bindery/tasks/{task}/reopen", data=why).status_code == 303
    return known


def test_a_tick_that_was_un_ticked_meanwhile_is_put_with_both_sides(client, database, task, unticked):
    fields = {"sent_id": "a", "finished": str(task), "done": "Ducts"}
    answer = client.post(LOG, data=fields, headers=head(unticked))
    assert answer.status_code == 409
    said = words(answer)
    assert "Ticked here, un-ticked meanwhile" in said
    assert "“Hang the duct” was un-ticked" in said and "It sags" in said
    assert "Here it was ticked 16 May 08:40" in said
    buttons = {button.text for button in soup(answer).select(".btn[form=day]")}
    assert buttons == {"Finished, as ticked here", "Not finished; only worked on"}
    assert one(database, Task).state == "reopened"


@pytest.mark.parametrize(
    ("choice", "state", "finished"), [("said_here", "done", True), ("not_finished", "under way", False)]
)
def test_either_side_can_be_chosen(client, database, task, unticked, choice, state, finished):
    fields = {"sent_id": "a", "finished": str(task), "done": "Ducts", choice: str(task)}
    assert client.post(LOG, data=fields, headers=head(unticked)).status_code == 303
    assert one(database, Task).state == state
    assert one(database, WorkEntry).finished == finished


def test_what_the_phone_knew_of_is_no_clash(client, database, task, unticked):
    fields = {"sent_id": "a", "finished": str(task)}
    assert client.post(LOG, data=fields, headers=head(clock.now())).status_code == 303
    assert one(database, Task).state == "done"


def test_ticked_on_both_sides_is_agreed(client, database, task):
    known = clock.now() - timedelta(minutes=5)
    client.post(f"/builds/bindery/tasks/{task}/finish", data={"on": "today"})
    answer = client.post(LOG, data={"sent_id": "a", "finished": str(task), "done": "Ducts"}, headers=head(known))
    assert answer.status_code == 303
    assert one(database, WorkEntry).finished
    assert len([change for change in everything(database, TaskChange) if change.became == "done"]) == 1


def everything(database, table):
    with database.reading() as session:
        return session.exec(select(table)).all()


def test_a_renamed_task_keeps_its_tick(client, database, task):
    known = clock.now() - timedelta(minutes=5)
    was = opened(client, f"/builds/bindery/tasks/{task}/edit")
    client.post(f"/builds/bindery/tasks/{task}/edit", data={**was, "title": "Hang the bath fan's duct"})
    assert client.post(LOG, data={"sent_id": "a", "finished": str(task)}, headers=head(known)).status_code == 303
    assert (one(database, Task).title, one(database, Task).state) == ("Hang the bath fan's duct", "done")


def test_the_tick_of_a_task_s_own_page_says_both_sides_too(client, database, task, unticked):
    answer = client.post(f"/builds/bindery/tasks/{task}/finish", data={"on": "today"}, headers=head(unticked))
    assert answer.status_code == 409
    assert "was un-ticked" in words(answer) and "Look at “Hang the duct”" in words(answer)
