"""A trench on its sheet: tied points, depths, the usual covers and cautions."""

import pytest

from tests import builders
from tests.reading import field_errors, headings, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/surfaces/TR"
TIE = {"name": "Bend", "x": "348", "from_a": "porch corner", "a": "353", "from_b": "garage corner", "b": "358"}
INCH = builders.INCH


@pytest.fixture
def trench(database, build):
    with database.writing() as session:
        made = builders.a_surface(
            session,
            build,
            "TR",
            "Feeder trench",
            kind="trench",
            length_nm=696 * INCH,
            height_nm=30 * INCH,
            origin_corner="house wall",
            far_corner="garage wall",
        )
        return made.row_id


@pytest.fixture
def ties(client, database, build, trench):
    def read():
        with database.reading() as session:
            return store.list_ties(session, build.row_id)

    return read


def test_a_tied_point_is_kept_exactly_and_shown_with_both_ties(client, ties):
    assert client.post(f"{BASE}/ties", data=TIE | {"a": "353 1/16"}).status_code == 303
    (tie,) = ties()
    assert (tie.x_nm, tie.a_nm, tie.b_nm) == (348 * INCH, 353 * INCH + INCH // 16, 358 * INCH)
    page = client.get(BASE)
    assert "P1 Bend" in words(page)
    assert "from A, porch corner" in words(page)
    assert "from B, garage corner" in words(page)
    assert len(soup(page).select("#ties svg")) == 3, "narrow, wide and the number of the view"


def test_a_tied_point_is_saved_once(client, ties):
    form = soup(client.get(f"{BASE}/ties/new"))
    sent = TIE | {"sent_id": form.select_one("[name=sent_id]")["value"]}
    assert [client.post(f"{BASE}/ties", data=sent).status_code for _ in range(2)] == [303, 303]
    assert len(ties()) == 1


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"name": ""}, "name", "what is there"),
        ({"x": "700"}, "x", "lies outside"),
        ({"x": "-3"}, "x", "below zero"),
        ({"a": "0"}, "a", "more than zero"),
        ({"b": "301 ft"}, "b", "longer than any surface"),
        ({"from_b": ""}, "from_b", "second"),
        ({"from_b": "Porch  corner"}, "from_b", "take a second one"),
        ({"a": "soon"}, "a", ""),
    ],
)
def test_a_tie_that_cannot_be_is_said_beside_its_field(client, ties, typed, field, sentence):
    answer = client.post(f"{BASE}/ties", data=TIE | typed)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("[name=from_a]")["value"] == "porch corner"
    assert ties() == ()


def test_two_points_whose_ties_cannot_both_be_are_named(client, ties):
    client.post(f"{BASE}/ties", data=TIE)
    answer = client.post(f"{BASE}/ties", data=TIE | {"name": "End", "x": "360", "a": "400"})
    said = field_errors(answer)["a"]
    assert "“Bend” is 1′ 0″ from here along the trench" in said
    assert "from porch corner differ by 3′ 11″" in said
    assert client.post(f"{BASE}/ties/1", data=TIE | {"gone": "1"}).status_code == 303
    assert client.post(f"{BASE}/ties", data=TIE | {"name": "End", "x": "360", "a": "400"}).status_code == 303


def test_a_tie_put_right_keeps_what_it_was_and_one_no_longer_good_comes_back(client, ties):
    client.post(f"{BASE}/ties", data=TIE)
    client.post(f"{BASE}/ties/1", data=TIE | {"a": "352"})
    assert "A: 29′ 5″, now 29′ 4″" in words(client.get(BASE))
    client.post(f"{BASE}/ties/1", data=TIE | {"gone": "1"})
    assert "No longer good since 16 May 2026" in words(client.get(BASE))
    assert soup(client.get(f"{BASE}/ties/1")).select_one("button[name=there]")
    client.post(f"{BASE}/ties/1", data=TIE | {"there": "1"})
    page = words(client.get(BASE))
    assert "No longer good" not in page
    assert "Gone since: 16 May 2026, now nothing" in page


def test_depths_are_listed_and_a_change_is_asked_about_kindly(client, database, build, trench):
    with database.writing() as session:
        surface = session.get_one(builders.Surface, trench)
        builders.a_run(session, surface, (8, 24), (348, 24), (686, 18), label="Feeder")
        builders.a_run(session, surface, (8, 12), (686, 12), label="Tape")
        builders.a_run(session, surface, (686, 24), (686, 0), label="Riser")
    page = client.get(BASE)
    assert "How deep it lies" in headings(page)
    rows = [" ".join(row.get_text(" ").split()) for row in soup(page).select("#depths tbody tr")]
    assert len(rows) == 2, "what only goes up has no depth along the trench"
    assert "Feeder 1′ 6″" in rows[0]
    assert "It changes between 29′ 0″ and 57′ 2″. If that is meant, say so in its note." in rows[0]
    assert "Tape 1′ 0″ The same from 8″ to 57′ 2″." in rows[1]


def test_the_usual_covers_and_the_locate_service_are_named_with_their_source(client, trench):
    page = words(client.get(BASE))
    assert "NEC Table 300.5" in page
    assert "your local authority decides" in page
    assert "one-call locate service before you dig" in page
    assert "29 CFR 1926.652" in page


def test_a_wall_is_not_tied(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "E", "East wall")
    assert client.get("/builds/bindery/surfaces/E/ties/new").status_code == 404
    assert "Found again from outside" not in headings(client.get("/builds/bindery/surfaces/E"))


def test_a_stranger_ties_nothing(stranger, ties):
    assert stranger.post(f"{BASE}/ties", data=TIE).status_code in {303, 401}
    assert ties() == ()
