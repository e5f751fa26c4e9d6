"""The round from the door: surfaces are moved on it and put in where they belong."""

import pytest

from tests import builders
from tests.reading import links, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/surfaces"
NEW = {"name": "South wall", "code": "s", "kind": "wall", "facing": "S"}


@pytest.fixture
def order(client, database, build):
    with database.writing() as session:
        for position, (code, name) in enumerate([("E", "East wall"), ("W", "West wall"), ("N", "North wall")], 1):
            builders.a_surface(session, build, code, name, position=position, facing=code)

    def read():
        with database.reading() as session:
            return [surface.code for surface in store.list_surfaces(session, build.row_id)]

    return read


@pytest.mark.parametrize(
    ("code", "to", "after"),
    [
        ("W", "earlier", ["W", "E", "N"]),
        ("W", "later", ["E", "N", "W"]),
        ("E", "earlier", ["E", "W", "N"]),
        ("N", "later", ["E", "W", "N"]),
    ],
)
def test_a_surface_moves_one_place_and_stays_at_the_ends(client, order, code, to, after):
    answer = client.post(f"{BASE}/{code}/move", data={"to": to})
    assert (answer.status_code, answer.headers["location"]) == (303, f"{BASE}?order=1#round-{code}")
    assert order() == after


def test_the_key_plan_numbers_them_anew_and_the_move_stays_readable(client, order):
    client.post(f"{BASE}/W/move", data={"to": "earlier"})
    named = [link["aria-label"] for link in soup(client.get(BASE)).select(".plan svg a")]
    assert named == ["1, West wall", "2, East wall", "3, North wall"]
    assert "Place on the round: 2, now 1" in words(client.get(f"{BASE}/W"))
    assert links(client.get(f"{BASE}/W"))["Number 1 on the round: see the plan"] == f"{BASE}#plan"


def test_the_order_is_changed_on_the_sheet_of_surfaces(client, order):
    assert links(client.get(BASE))["Change the order of the round"] == f"{BASE}?order=1#round"
    page = soup(client.get(f"{BASE}?order=1"))
    forms = [form["action"] for form in page.select("#round form")]
    assert forms == [f"{BASE}/{code}/move" for code in ("E", "W", "N")]
    assert [button["aria-label"] for button in page.select("#round button")] == [
        "Later: East wall",
        "Earlier: West wall",
        "Later: West wall",
        "Earlier: North wall",
    ]


@pytest.mark.parametrize(
    ("after", "wanted"),
    [
        ("", ["E", "W", "N", "S"]),
        ("first", ["S", "E", "W", "N"]),
        ("E", ["E", "S", "W", "N"]),
        ("gone", ["E", "W", "N", "S"]),
    ],
)
def test_a_new_surface_comes_where_it_belongs(client, order, after, wanted):
    assert client.post(BASE, data=NEW | {"after": after}).status_code == 303
    assert order() == wanted


def test_a_new_surface_is_saved_once(client, order):
    sent = NEW | {"sent_id": soup(client.get(f"{BASE}/new")).select_one("[name=sent_id]")["value"]}
    assert [client.post(BASE, data=sent).status_code for _ in range(2)] == [303, 303]
    assert order() == ["E", "W", "N", "S"]


def test_a_stranger_moves_nothing(stranger, order):
    assert stranger.post(f"{BASE}/W/move", data={"to": "earlier"}).status_code in {303, 401}
    assert order() == ["E", "W", "N"]
