"""A button pressed twice: the form's own id comes along both times, so one row is left and the same page answers."""

import pytest
from sqlmodel import func, select

from tests import builders
from tests.reading import soup, words
from webapp.inspections.models import Visit
from webapp.money.models import Spend
from webapp.plan.models import Phase, Task
from webapp.surfaces.models import Question

BASE = "/builds/bindery"
TASK = {"title": "Hang the board", "kind": "board", "who": "self", "low": "1", "likely": "2", "high": "3"}


@pytest.fixture
def site(database, build):
    with database.writing() as session:
        builders.a_phase(session, build)
        permit = builders.a_permit(session, build)
        builders.an_inspection(session, permit, code="IREL")
        return builders.a_fee(session, permit).row_id


SENDINGS = {
    "a visit": (Visit, "inspections/IREL", "inspections/IREL/visits", {"day": "2026-05-20", "window": "morning"}),
    "a task": (Task, "phases/1", "phases/1/tasks", TASK),
    "a phase": (Phase, "phases", "phases", {"title": "Paint", "purpose": ""}),
    "a question": (
        Question,
        "questions/new",
        "questions",
        {"words": "Where does the vent go?", "kind": "question", "surface": "", "on": "2026-05-16"},
    ),
    "a fee": (Spend, "fees/1", "fees/1/pay", {"paid_on": "2026-05-15", "paid_to": "the office"}),
}


def count(database, table) -> int:
    with database.reading() as session:
        return session.exec(select(func.count()).select_from(table)).one()


def own_id(client, page: str, action: str) -> str:
    form = soup(client.get(f"{BASE}/{page}")).select_one(f"form[action='{BASE}/{action}']")
    return form.select_one("[name=sent_id]")["value"]


@pytest.mark.parametrize("what", SENDINGS)
def test_a_form_sent_twice_leaves_one_row_and_answers_with_the_same_page(client, database, site, what):
    table, page, action, data = SENDINGS[what]
    before = count(database, table)
    sent = data | {"sent_id": own_id(client, page, action)}
    first, second = (client.post(f"{BASE}/{action}", data=sent) for _ in range(2))
    assert (first.status_code, second.status_code) == (303, 303), words(second)
    assert first.headers["location"] == second.headers["location"]
    assert count(database, table) == before + 1


@pytest.mark.parametrize("what", [what for what in SENDINGS if what not in {"a fee", "a question"}])
def test_the_same_words_in_a_form_opened_anew_are_a_second_row(client, database, site, what):
    table, page, action, data = SENDINGS[what]
    before = count(database, table)
    for _ in range(2):
        sent = data | {"sent_id": own_id(client, page, action)}
        assert client.post(f"{BASE}/{action}", data=sent).status_code == 303
    assert count(database, table) == before + 2


@pytest.mark.parametrize("what", SENDINGS)
def test_other_words_under_the_same_id_are_refused_and_not_swallowed(client, database, site, what):
    table, page, action, data = SENDINGS[what]
    sent = data | {"sent_id": own_id(client, page, action)}
    client.post(f"{BASE}/{action}", data=sent)
    after_first = count(database, table)
    name = next(iter(data))
    answer = client.post(f"{BASE}/{action}", data=sent | {name: f"{data[name]} or else"})
    assert answer.status_code == 422
    assert "This was sent once already with other words." in words(answer)
    assert count(database, table) == after_first


def test_a_task_added_in_place_is_shown_once_and_the_next_form_has_its_own_id(client, database, site):
    sent = TASK | {"sent_id": own_id(client, "phases/1", "phases/1/tasks")}
    part = {"HX-Request": "true", "HX-Request-Type": "partial"}
    first, second = (client.post(f"{BASE}/phases/1/tasks", data=sent, headers=part) for _ in range(2))
    assert (first.status_code, second.status_code) == (200, 200)
    assert count(database, Task) == 1
    assert soup(second).select_one("[name=sent_id]")["value"] != sent["sent_id"]
