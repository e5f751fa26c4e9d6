"""Phases in the builder's order, each with counts in words and one next step; one phase with its tasks."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, headings, links, soup, words
from webapp.plan.models import Phase, Task

TASK = {"title": "Hang the board, north", "kind": "board", "who": "helper", "low": "2½", "likely": "3:30", "high": "6"}
HTMX = {"hx-request": "true", "hx-request-type": "partial"}


@pytest.fixture
def shell(database, build):
    """A phase "Shell" with a duct under way, a board that needs it, and a slab that cures until Thursday 21 May."""
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Shell")
        duct = builders.a_task(session, phase, "Extractor duct", 1, state="under way", started_on=date(2026, 5, 9))
        board = builders.a_task(session, phase, "Ceiling board", 2)
        builders.a_need(session, board, duct)
        cure = {"wait_days": 7, "wait_reason": "cure: no load on it", "state": "done", "done_on": date(2026, 5, 14)}
        builders.a_task(session, phase, "Pour the patch", 3, kind="concrete", **cure)
        return phase.row_id


def rows_of(answer):
    return [" ".join(row.get_text(" ", strip=True).split()) for row in soup(answer).select("#phases .rows > li")]


def test_a_phase_shows_counts_in_words_and_one_next_step(client, shell):
    answer = client.get("/builds/bindery/phases")
    assert rows_of(answer) == ["1. Shell Under way: Extractor duct 1 under way, 1 open"]
    assert "%" not in words(answer)


def test_the_next_step_is_never_one_that_a_written_need_holds(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Rough")
        board, duct = (builders.a_task(session, phase, title, at) for at, title in enumerate(("Board", "Duct"), 1))
        builders.a_need(session, board, duct)
    assert rows_of(client.get("/builds/bindery/phases")) == ["1. Rough Next: Duct 2 open"]


def test_where_everything_is_held_the_next_step_says_so(client, database, build):
    with database.writing() as session:
        first = builders.a_phase(session, build, "Slab", 1)
        cure = {"state": "done", "done_on": date(2026, 5, 14), "wait_days": 7}
        pour = builders.a_task(session, first, "Pour", **cure)
        grind = builders.a_task(session, builders.a_phase(session, build, "Floor", 2), "Grind")
        builders.a_need(session, grind, pour)
    assert rows_of(client.get("/builds/bindery/phases")) == [
        "1. Slab done",
        "2. Floor Next: Grind; something comes before it 1 open",
    ]


def test_a_phase_is_added_last_and_moved_earlier(client, shell):
    assert client.post("/builds/bindery/phases", data={"title": "Board"}).status_code == 303
    assert [row[:8] for row in rows_of(client.get("/builds/bindery/phases"))] == ["1. Shell", "2. Board"]
    last = soup(client.get("/builds/bindery/phases?order=1")).select("#phases form")[-1]
    moved = client.post(last["action"], data={"to": "earlier"})
    assert moved.headers["location"].startswith("/builds/bindery/phases?order=1")
    assert [row[:8] for row in rows_of(client.get("/builds/bindery/phases"))] == ["1. Board", "2. Shell"]


def test_moving_with_htmx_gives_the_list_alone(client, shell):
    client.post("/builds/bindery/phases", data={"title": "Board"})
    answer = client.post(f"/builds/bindery/phases/{shell}/move", data={"to": "later"}, headers=HTMX)
    assert answer.status_code == 200
    assert "<html" not in answer.text
    assert [row.get_text(strip=True) for row in soup(answer).select("#phases b")] == ["1. Board", "2. Shell"]


def test_a_phase_without_a_name_is_not_added(client, build):
    answer = client.post("/builds/bindery/phases", data={"title": " ", "purpose": "so that it is tied"})
    assert answer.status_code == 422
    assert "Give the phase a name" in field_errors(answer)["title"]
    assert soup(answer).select_one("input[name=purpose]")["value"] == "so that it is tied"


def test_a_phase_is_renamed(client, shell):
    form = client.get(f"/builds/bindery/phases/{shell}/edit")
    assert soup(form).select_one("input[name=title]")["value"] == "Shell"
    client.post(f"/builds/bindery/phases/{shell}/edit", data={"title": "Dried in", "purpose": "No more tarps"})
    assert headings(client.get(f"/builds/bindery/phases/{shell}"))[0] == "Dried in"
    bad = client.post(f"/builds/bindery/phases/{shell}/edit", data={"title": "", "purpose": "No more tarps"})
    assert (bad.status_code, "title" in field_errors(bad)) == (422, True)


def test_a_phase_lists_its_tasks_in_order_with_waits_and_what_is_done(client, shell):
    text = words(client.get(f"/builds/bindery/phases/{shell}"))
    assert text.index("Extractor duct") < text.index("Ceiling board") < text.index("Pour the patch")
    assert "cure: earliest Thu 21 May" in text
    assert "under way" in text
    assert links(client.get(f"/builds/bindery/phases/{shell}"))["What stops this phase"].endswith(f"?phase={shell}")


def test_a_task_is_added_with_hours_as_builders_write_them(client, shell):
    answer = client.post(f"/builds/bindery/phases/{shell}/tasks", data=TASK)
    assert answer.status_code == 303
    page = words(client.get(f"/builds/bindery/phases/{shell}"))
    assert "“Hang the board, north” is on the list." in page
    assert "board, 2½ to 6 h, likely 3½ h, with a helper" in page


def test_adding_with_htmx_gives_the_tasks_alone_with_an_empty_form(client, shell):
    answer = client.post(f"/builds/bindery/phases/{shell}/tasks", data=TASK, headers=HTMX)
    assert answer.status_code == 200
    assert "<html" not in answer.text
    assert "Hang the board, north" in words(answer, "#tasks")
    title = soup(answer).select_one("input[name=title]")
    assert (title["value"], title.has_attr("autofocus")) == ("", True)


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        ({"title": ""}, "title", "Write what is to be done"),
        ({"kind": ""}, "kind", "Choose the kind of work"),
        ({"likely": "soon"}, "likely", "Write hours such as"),
        ({"low": ""}, "low", "Guess low"),
        ({"low": "8"}, "low", "The low guess (8 h) is more than the likely one (3½ h)."),
        ({"high": "3"}, "high", "The high guess (3 h) is less than the likely one (3½ h)."),
    ],
)
@pytest.mark.parametrize("headers", [{}, HTMX])
def test_a_wrong_task_is_not_added_and_what_was_typed_stays(client, shell, change, field, sentence, headers):
    answer = client.post(f"/builds/bindery/phases/{shell}/tasks", data=TASK | change, headers=headers)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("input[name=title]")["value"] == (TASK | change)["title"]
    assert "Hang the board" not in words(client.get(f"/builds/bindery/phases/{shell}"))


def test_an_order_against_a_need_is_allowed_and_told(client, shell):
    page = client.get(f"/builds/bindery/phases/{shell}?order=1")
    board = next(form for form in soup(page).select("#tasks form") if "Ceiling board" in form.parent.get_text())
    answer = client.post(board["action"], data={"to": "earlier"})
    told = words(client.get(answer.headers["location"].partition("#")[0]))
    assert "“Ceiling board” now stands before “Extractor duct”, which it needs, and still waits for it." in told
    later = words(client.get(f"/builds/bindery/phases/{shell}"))
    assert "Stands before “Extractor duct”, which it needs" in later


@pytest.mark.parametrize("path", ["", "/tasks", "/edit", "/move"])
def test_a_stranger_changes_no_phase(stranger, shell, path):
    address = f"/builds/bindery/phases/{shell}{path}" if path else "/builds/bindery/phases"
    assert stranger.post(address, data=TASK).status_code == 401


@pytest.mark.parametrize("path", ["/phases", "/phases/1", "/phases/1?order=1", "/tasks/1", "/tasks/1/needs"])
def test_fifty_rows_ask_the_record_as_often_as_five(client, database, build, path):
    def add(session, how_many):
        first, target = session.get(Phase, 1), session.get(Task, 1)
        for at in range(how_many):
            builders.a_task(session, builders.a_phase(session, build, f"Phase {at}", at + 2), f"Far {at}")
            near = builders.a_task(session, first, f"Near {at}", at + 2)
            builders.a_need(session, target, near)
            builders.a_need(session, builders.a_task(session, first, f"Later {at}", 200 + at, state="done"), target)

    with database.writing() as session:
        builders.a_task(session, builders.a_phase(session, build, "First"), "Target")
        add(session, 5)
    with queries(database, anew=True) as few:
        assert client.get(f"/builds/bindery{path}").status_code == 200
    with database.writing() as session:
        add(session, 50)
    with queries(database, anew=True) as many:
        assert client.get(f"/builds/bindery{path}").status_code == 200
    assert 3 < len(few) == len(many) < 12
