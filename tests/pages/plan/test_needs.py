"""Writing down what a task needs first: chosen from a phase, refused when it would go round in a circle."""

import itertools

import pytest

from tests import builders
from tests.reading import field_errors, headings, links, soup, words

HTMX = {"hx-request": "true", "hx-request-type": "partial"}


@pytest.fixture
def pair(database, build):
    """Extractor duct in one phase, ceiling board in another."""
    with database.writing() as session:
        duct = builders.a_task(session, builders.a_phase(session, build, "Duct rough", 1), "Extractor duct")
        board = builders.a_task(session, builders.a_phase(session, build, "Board", 2), "Ceiling board")
        return duct.row_id, board.row_id


def need(client, task, needed, phase, **more):
    data = {"phase": str(phase), "needs_id": str(needed), "strength": "hard", "lag_days": "", "reason": ""} | more
    return client.post(f"/builds/bindery/tasks/{task}/needs", data=data)


def test_tasks_are_chosen_one_phase_at_a_time(client, pair):
    _duct, board = pair
    own = soup(client.get(f"/builds/bindery/tasks/{board}/needs"))
    assert [option.get_text() for option in own.select("select[name=needs_id] option")] == ["Choose"]
    other = soup(client.get(f"/builds/bindery/tasks/{board}/needs?phase=1"))
    assert [option.get_text() for option in other.select("select[name=needs_id] option")] == [
        "Choose",
        "Extractor duct",
    ]
    part = client.get(f"/builds/bindery/tasks/{board}/needs?phase=1", headers=HTMX)
    assert "<html" not in part.text
    assert "Extractor duct" in part.text


def test_a_need_with_a_wait_and_a_reason_shows_on_both_tasks(client, pair):
    duct, board = pair
    assert need(client, board, duct, 1, lag_days="2", reason="sealant skins over").status_code == 303
    assert "Extractor duct not started, then 2 days by themselves: wait, sealant skins over" in words(
        client.get(f"/builds/bindery/tasks/{board}")
    )
    assert "Ceiling board not started, waits 2 days after this, sealant skins over" in words(
        client.get(f"/builds/bindery/tasks/{duct}")
    )


def test_a_circle_is_refused_naming_its_tasks_in_order_and_nothing_is_saved(client, pair):
    duct, board = pair
    need(client, board, duct, 1)
    answer = need(client, duct, board, 2)
    assert answer.status_code == 409
    assert headings(answer)[0] == "Not saved: these would wait for each other"
    assert "“Extractor duct” needs “Ceiling board” needs “Extractor duct”." in words(answer)
    assert links(answer)["Leave it as it was"] == f"/builds/bindery/tasks/{duct}"
    assert any(text.startswith("Look at “Ceiling board”") for text in links(answer))
    drawing = soup(answer).select_one("svg.graph")
    assert [text.get_text() for text in drawing.select("text.b")] == ["Extractor duct", "Ceiling board"]
    assert "Nothing is written down that has to come first." in words(client.get(f"/builds/bindery/tasks/{duct}"))


def test_a_long_circle_is_told_in_words_alone(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        tasks = [builders.a_task(session, phase, f"Step {at}", at) for at in range(12)]
        for before, after in itertools.pairwise(tasks):
            builders.a_need(session, after, before)
        first, last = tasks[0].row_id, tasks[-1].row_id
    answer = need(client, first, last, 1)
    assert answer.status_code == 409
    assert "“Step 0” needs “Step 11” needs “Step 10”" in words(answer)
    assert soup(answer).select_one("svg.graph") is None


def test_the_same_need_twice_is_refused_with_its_own_sentence(client, pair):
    duct, board = pair
    need(client, board, duct, 1)
    answer = need(client, board, duct, 1)
    assert answer.status_code == 409
    assert "“Ceiling board” already needs “Extractor duct”." in words(answer)


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        ({"needs_id": ""}, "needs_id", "Choose the task that comes first."),
        ({"needs_id": "99"}, "needs_id", "Choose the task that comes first."),
        ({"lag_days": "soon"}, "lag_days", "not a whole number"),
        ({"lag_days": "4000"}, "lag_days", "from 0 to 400"),
    ],
)
def test_a_need_that_cannot_be_read_keeps_what_was_typed(client, pair, change, field, sentence):
    duct, board = pair
    answer = need(client, board, duct, 1, **({"reason": "the screws"} | change))
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("input[name=reason]")["value"] == "the screws"
    assert soup(answer).select_one("input[name=phase]")["value"] == "1"


def test_a_need_is_taken_out_again_and_its_history_keeps_a_line(client, pair):
    duct, board = pair
    need(client, board, duct, 1)
    form = soup(client.get(f"/builds/bindery/tasks/{board}/needs")).select_one("form[action$=drop]")
    assert client.post(form["action"]).status_code == 303
    text = words(client.get(f"/builds/bindery/tasks/{board}"))
    assert "Nothing is written down that has to come first." in text
    assert "Needed “Extractor duct”, then need taken out" in text
    assert client.post(form["action"]).status_code == 404


def test_a_need_that_is_no_task_is_named_on_the_sheet_of_what_else_the_task_waits_for(client, database, build, pair):
    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build))
        session.connection().exec_driver_sql(
            "INSERT INTO plan_need (build_id, what_kind, what_id, what_surface_id, needs_kind, needs_id,"
            " needs_surface_id, strength, lag_days, reason) VALUES (1, 'task', 2, 0, 'inspection', 4, 7, 'hard', 0, '')"
        )
    page = client.get("/builds/bindery/tasks/2")
    assert links(page)["Also: an inspection"] == "/builds/bindery/tasks/2/waits"
    assert "No task has to come first." in words(page)
