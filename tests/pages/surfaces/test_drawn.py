"""Openings and runs are written down, put right and marked as gone; what cannot be is said beside its field."""

import pytest

from tests import builders
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/surfaces/E"
WINDOW = {"kind": "window", "name": "South window", "x": "48 in", "y": "36 in", "width": "36 in", "height": "48 in"}
CABLE = {
    "label": "12-2 to the bench",
    "line": "C01",
    "service": "electric",
    "points": "20 1/2 in; 60 in\n20 1/2 in; 16 in",
}
INCH = builders.INCH


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        builders.a_line(session, build, "C01")
        made = builders.a_surface(
            session, build, "E", "East wall", length_nm=161 * INCH, height_nm=109 * INCH, origin_corner="NE", facing="E"
        )
        return made.row_id


def kept(database, build):
    with database.reading() as session:
        return store.list_openings(session, build.row_id), store.list_runs(session, build.row_id)


def test_a_window_is_drawn_where_it_was_measured(client, database, build, east):
    assert client.post(f"{BASE}/openings", data=WINDOW).status_code == 303
    (opening,), _ = kept(database, build)
    size = (opening.x_nm, opening.y_nm, opening.width_nm, opening.height_nm)
    assert size == (48 * INCH, 36 * INCH, 36 * INCH, 48 * INCH)
    assert "Window, 3′ × 4′" in words(client.get(BASE)) or "Window, 3′ 0″ × 4′ 0″" in words(client.get(BASE))


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"x": "140 in"}, "width", "ends outside"),
        ({"y": "80 in"}, "height", "ends outside"),
        ({"x": "-3 in"}, "x", "below zero"),
        ({"x": "30 ft"}, "x", "lies outside"),
        ({"width": "0"}, "width", "more than zero"),
        ({"width": "wide"}, "width", ""),
        ({"name": ""}, "name", "name"),
        ({"height": ""}, "height", "How high"),
    ],
)
def test_an_opening_that_cannot_be_is_said_beside_its_field(client, database, build, east, typed, field, sentence):
    answer = client.post(f"{BASE}/openings", data=WINDOW | typed)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("[name=y]")["value"] == (WINDOW | typed)["y"]
    assert kept(database, build) == ((), ())


def test_two_openings_cannot_be_in_one_place_but_may_stand_side_by_side(client, database, build, east):
    client.post(f"{BASE}/openings", data=WINDOW)
    over = client.post(f"{BASE}/openings", data=WINDOW | {"name": "Second", "x": "80 in"})
    assert "“South window” is there already" in field_errors(over)["x"]
    assert client.post(f"{BASE}/openings", data=WINDOW | {"name": "Second", "x": "84 in"}).status_code == 303
    assert client.post(f"{BASE}/openings/1", data=WINDOW | {"x": "47 in"}).status_code == 303, "not in its own way"


def test_an_opening_put_right_keeps_what_it_was_and_one_that_is_gone_stays_listed(client, database, build, east):
    client.post(f"{BASE}/openings", data=WINDOW)
    client.post(f"{BASE}/openings/1", data=WINDOW | {"x": "50 in"})
    assert "X: 4′ 0″, now 4′ 2″" in words(client.get(BASE))
    assert client.post(f"{BASE}/openings/1", data=WINDOW | {"gone": "1"}).status_code == 303
    page = client.get(BASE)
    assert "There no more since 16 May 2026" in words(page)
    assert client.post(f"{BASE}/openings", data=WINDOW | {"name": "New"}).status_code == 303, "its place is free"
    old, new = sorted(kept(database, build)[0], key=lambda one: one.id)
    assert (old.removed_on is None, new.removed_on) == (False, None)


def test_a_run_goes_from_bend_to_bend(client, database, build, east):
    assert client.post(f"{BASE}/runs", data=CABLE).status_code == 303
    _, (run,) = kept(database, build)
    assert run.points == ((20 * INCH + INCH // 2, 60 * INCH), (20 * INCH + INCH // 2, 16 * INCH))
    page = client.get(BASE)
    assert "C01: 12-2 to the bench 1 stretch" in words(page)
    assert any(label.startswith("12-2 to the bench") for label in links(page))
    form = soup(client.get(f"{BASE}/runs/1"))
    again = {"points": form.select_one("[name=points]").get_text()}
    assert client.post(f"{BASE}/runs/1", data=CABLE | again).status_code == 303
    assert kept(database, build)[1] == (run,), "what the form shows is what was measured"


@pytest.mark.parametrize(
    ("points", "sentence"),
    [
        ("", "one bend a line"),
        ("20 in; 60 in", "a start and an end"),
        ("20 in; 60 in\n20 in", "Line 2: write two lengths"),
        ("20 in; 60 in\nsoon; 60 in", "Line 2:"),
        ("20 in; 60 in\n200 in; 60 in", "Line 2: "),
        ("20 in; 60 in\n60 in; 60 in", "Line 2 lies in the opening “South window”"),
        ("20 in; 60 in\n" * 61, "At most 60 bends"),
    ],
)
def test_a_run_that_cannot_be_names_its_line_and_loses_nothing(client, database, build, east, points, sentence):
    client.post(f"{BASE}/openings", data=WINDOW)
    answer = client.post(f"{BASE}/runs", data=CABLE | {"points": points, "note": "by the door"})
    assert answer.status_code == 422
    assert sentence in field_errors(answer)["points"]
    assert soup(answer).select_one("[name=note]").get_text().strip() == "by the door"
    assert kept(database, build)[1] == ()


def test_a_run_pulled_anew_keeps_its_old_way(client, database, build, east):
    client.post(f"{BASE}/runs", data=CABLE)
    moved = CABLE | {"points": "20 in; 60 in\n20 in; 30 in\n60 in; 30 in", "moved": "1"}
    assert client.post(f"{BASE}/runs/1", data=moved).status_code == 303
    _, (old, new) = kept(database, build)
    assert old.replaced_on is not None and len(new.points) == 3
    assert "Replaced on 16 May 2026" in words(client.get(BASE))


@pytest.mark.parametrize("path", ["openings", "openings/1", "runs", "runs/1"])
def test_a_stranger_draws_nothing(stranger, east, path):
    answer = stranger.post(f"{BASE}/{path}", data=WINDOW | CABLE)
    assert answer.status_code == 401 or answer.headers["location"].startswith("/sign-in")


@pytest.mark.parametrize("path", ["openings/9", "runs/9"])
def test_what_is_not_there_leads_onward(client, east, path):
    answer = client.get(f"{BASE}/{path}")
    assert answer.status_code == 404 and links(answer)


def test_nothing_is_hidden_in_a_window_and_no_box_where_another_is(client, database, build, east):
    client.post(f"{BASE}/openings", data=WINDOW)
    box = {
        "label": "Receptacle",
        "x": "20 in",
        "y": "16 in",
        "service": "electric",
        "kind": "receptacle",
        "is_box": "1",
    }
    hole = client.post(f"{BASE}/items", data=box | {"x": "60 in", "y": "40 in"})
    assert "lies in the opening “South window”" in field_errors(hole)["x"]
    assert client.post(f"{BASE}/items", data=box).status_code == 303
    twice = client.post(f"{BASE}/items", data=box | {"label": "Another", "x": "21 in"})
    assert "“Receptacle” is there already" in field_errors(twice)["x"]
    assert client.post(f"{BASE}/items", data=box | {"label": "Strap", "is_box": ""}).status_code == 303
    assert client.post(f"{BASE}/items/1", data=box | {"x": "20 1/2 in"}).status_code == 303, "not in its own way"


@pytest.mark.parametrize("path", ["openings", "runs", "items"])
def test_what_belongs_to_one_wall_is_not_put_right_by_way_of_another(client, database, build, east, path):
    with database.writing() as session:
        builders.a_surface(session, build, "N", "North wall", length_nm=257 * INCH, position=9)
    client.post(f"{BASE}/openings", data=WINDOW)
    client.post(f"{BASE}/runs", data=CABLE)
    client.post(f"{BASE}/items", data={"label": "Strap", "x": "20 in", "y": "16 in"})
    north = BASE.removesuffix("E") + "N"
    assert client.post(f"{north}/{path}/1", data=WINDOW | CABLE | {"label": "Strap", "x": "200 in"}).status_code == 404
    assert client.get(f"{north}/{path}/1").status_code == 404
    assert client.get(f"{BASE}/{path}/1").status_code == 200


@pytest.mark.parametrize("path", ["openings", "runs", "items"])
def test_pressing_twice_draws_once(client, database, build, east, path):
    sent_id = soup(client.get(f"{BASE}/{path}/new")).select_one("[name=sent_id]")["value"]
    sent = WINDOW | CABLE | {"label": "Strap", "x": "20 in", "sent_id": sent_id}
    first, second = (client.post(f"{BASE}/{path}", data=sent) for _ in range(2))
    assert (first.status_code, second.headers["location"]) == (303, first.headers["location"])
    with database.reading() as session:
        made = *kept(database, build), store.list_items(session, build.row_id)
    assert sorted(len(rows) for rows in made) == [0, 0, 1]
