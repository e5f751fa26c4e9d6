"""The list of builds, and the first start."""

import pytest

from tests import builders
from tests.reading import field_errors, headings, links, soup, words

NEW = {"name": "Bench house", "what": "A shed becoming a workshop", "length_unit": "mm", "currency": "eur"}


@pytest.fixture
def first_start(app, token, client):
    """The builder before anything is written down: the build of the cast is put aside."""
    with app.state.database.writing() as session:
        session.connection().exec_driver_sql("DELETE FROM plan_build")
    return client


def test_the_first_start_is_kind_and_asks_for_a_name(first_start):
    answer = first_start.get("/builds")
    assert headings(answer)[0] == "A clean sheet"
    assert "Nothing is recorded yet" in words(answer)
    assert soup(answer).select_one("form#build input[name=name]")


def test_a_build_begun_opens_on_its_empty_phases(client):
    answer = client.post("/builds", data=NEW)
    assert (answer.status_code, answer.headers["location"]) == (303, "/builds/bench-house/phases")
    page = client.get("/builds/bench-house/phases")
    assert headings(page)[:2] == ["A clean sheet", "Start with one"]
    assert "“Bench house” is begun." in words(page)
    assert "/builds/bench-house/permits" in links(page).values()


def test_several_builds_live_in_one_installation(client):
    client.post("/builds", data=NEW)
    found = links(client.get("/builds"))
    assert [words for words in found if "house" in words or "Bindery" in words] == [
        "Bench house A shed becoming a workshop",
        "Bindery A garage becoming a bindery",
    ]


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        ({"name": " "}, "name", "Give the build a name; it heads every sheet."),
        ({"name": "bindery"}, "name", "already"),
        ({"currency": "dollars"}, "currency", "three letters"),
        ({"currency": ""}, "currency", "three letters"),
        ({"length_unit": "ells"}, "length_unit", "Choose one of the list."),
    ],
)
def test_what_is_wrong_is_said_beside_its_field_and_the_rest_stays(client, change, field, sentence):
    answer = client.post("/builds", data=NEW | change)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    kept = soup(answer).select_one("input[name=what]")
    assert kept["value"] == NEW["what"]
    assert len(links(client.get("/builds"))) == 1


def test_a_stranger_neither_sees_nor_adds_builds(stranger, build):
    assert stranger.get("/builds").headers["location"].startswith("/sign-in")
    assert stranger.post("/builds", data=NEW).status_code == 401


def test_pages_of_two_builds_do_not_mix(client, database):
    with database.writing() as session:
        other = builders.a_build(session, "Shed")
        task = builders.a_task(session, builders.a_phase(session, other), "Roof the shed")
        number, phase = task.row_id, task.phase_id
    assert client.get(f"/builds/bindery/tasks/{number}").status_code == 404
    assert client.get(f"/builds/bindery/phases/{phase}").status_code == 404
    assert client.post(f"/builds/bindery/tasks/{number}/start").status_code == 404
    assert "Roof the shed" in words(client.get(f"/builds/shed/tasks/{number}"))
