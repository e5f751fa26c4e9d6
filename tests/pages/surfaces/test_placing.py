"""Placing on the drawing and moving what is there, as the forms send it: with scripts or by hand."""

import pytest

from tests import builders
from tests.builders import INCH
from tests.conftest import SATURDAY
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import store

EAST = "/builds/bindery/surfaces/E"
PLACE, MOVE = f"{EAST}/drawing/place", f"{EAST}/drawing/move"
SPOT = {"x": "80", "y": "46", "kind": "switch", "line": "", "label": ""}


@pytest.fixture
def wall(database, build):
    """The east wall with a door, a circuit, a water line and one receptacle."""
    with database.writing() as session:
        surface = builders.a_surface(session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH)
        builders.an_opening(session, surface, "Entry door", kind="door", x_nm=96 * INCH, y_nm=0, height_nm=82 * INCH)
        circuit = builders.a_line(session, build, "C02", name="East receptacles")
        builders.a_line(session, build, "CW", name="Cold water", kind="water", service="water", position=2)
        item = builders.an_item(
            session, surface, "East receptacle", x_nm=58 * INCH, is_box=True, line_id=circuit.row_id
        )
        return item.row_id


def items(database, build):
    with database.reading() as session:
        return sorted(store.list_items(session, build.row_id), key=lambda one: one.id)


def test_a_kind_and_a_spot_are_enough(client, database, build, wall):
    answer = client.post(PLACE, data=SPOT)
    assert answer.status_code == 303
    made = items(database, build)[-1]
    assert (made.label, made.kind, made.service, made.line, made.is_box) == (
        "Switch 1",
        "switch",
        "electric",
        "C02",
        True,
    )
    assert (made.x_nm, made.y_nm, made.from_corner) == (80 * INCH, 46 * INCH, "NE")
    assert answer.headers["location"] == f"{EAST}/drawing?new={made.id}"
    page = client.get(answer.headers["location"])
    assert words(page, ".said") == "E2: “Switch 1” is on record, on C02."
    assert [tag["aria-label"] for tag in soup(page).select("a.new")] == ["E2, Switch 1"] * 2, "in both drawings"


@pytest.mark.parametrize(
    ("kind", "line", "service", "code"),
    [
        ("blocking", "", "framing", ""),
        ("stub-out", "", "water", ""),
        ("stub-out", "CW", "water", "CW"),
        ("data box", "", "data", ""),
        ("nail plate", "", "electric", "C02"),
        ("receptacle", "none", "electric", ""),
        ("blocking", "C02", "electric", "C02"),
    ],
)
def test_the_last_circuit_is_taken_where_it_fits_and_what_is_chosen_counts(
    client, database, build, wall, kind, line, service, code
):
    assert client.post(PLACE, data=SPOT | {"kind": kind, "line": line}).status_code == 303
    made = items(database, build)[-1]
    assert (made.kind, made.service, made.line) == (kind, service, code)


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"x": "200"}, "x", "16′ 8″ lies outside: the length of this surface is 13′ 5″."),
        ({"y": "-1"}, "y", "below zero"),
        ({"x": "100", "y": "40"}, "x", "This lies in the opening “Entry door”, where nothing can be hidden."),
        ({"x": "58-1/2", "y": "16"}, "x", "“East receptacle” is there already"),
        ({"x": "far"}, "x", "Write a length"),
        ({"x": ""}, "x", "Say how far its centre is, or tap the drawing."),
    ],
)
def test_where_it_cannot_be_is_said_beside_the_field_and_all_stays(
    client, database, build, wall, typed, field, sentence
):
    sent = SPOT | {"label": "By the door", "line": "CW", "mirror": "1"} | typed
    answer = client.post(PLACE, data=sent)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    form = soup(answer).select_one("#place")
    kept = {name: form.select_one(f"[name={name}]")["value"] for name in ("x", "y", "label", "mirror")}
    assert kept == {name: sent[name] for name in kept}
    assert form.select_one("option[selected]")["value"] == "CW"
    assert form.has_attr("data-open")
    assert len(items(database, build)) == 1


def test_a_stranger_places_nothing(stranger, database, build, wall):
    assert stranger.post(PLACE, data=SPOT).status_code in {303, 401, 403}
    assert len(items(database, build)) == 1


def test_without_a_kind_nothing_is_placed(client, database, build, wall):
    answer = client.post(PLACE, data=SPOT | {"kind": ""})
    assert answer.status_code == 422
    assert "Choose what it is." in words(answer, "#place")
    assert len(items(database, build)) == 1


def test_pressed_twice_it_is_there_once(client, database, build, wall):
    sent = SPOT | {"sent_id": "b" * 24}
    first, second = client.post(PLACE, data=sent), client.post(PLACE, data=sent)
    assert first.headers["location"] == second.headers["location"]
    assert len(items(database, build)) == 2


def test_the_form_offers_what_is_used_most_here_and_another_kind_keeps_the_spot(client, wall):
    form = soup(client.get(f"{EAST}/drawing")).select_one("#place")
    kinds = [button["value"] for button in form.select("[name=kind]")]
    assert kinds[:3] == ["receptacle", "switch", "light box"]
    assert form.select_one("select option").get_text() == "the last one used here (C02), where it fits"
    other = form.select_one("[formmethod=get]")
    assert other["formaction"] == f"{EAST}/items/new"
    page = client.get(other["formaction"], params={"x": "80", "y": "46", "line": "", "label": "Thermostat"})
    fields = {name: soup(page).select_one(f"[name={name}]")["value"] for name in ("x", "y", "label", "from_corner")}
    assert fields == {"x": "80", "y": "46", "label": "Thermostat", "from_corner": "NE"}
    assert [one["value"] for one in soup(page).select("datalist option")][:2] == ["receptacle", "switch"]


def test_a_name_may_be_left_out_of_the_long_form_too(client, database, build, wall):
    assert client.post(f"{EAST}/items", data={"kind": "receptacle", "x": "20", "y": "16"}).status_code == 303
    assert items(database, build)[-1].label == "Receptacle 2"
    answer = client.post(f"{EAST}/items", data={"kind": "", "x": "30", "y": "16"})
    assert "Say what it is" in field_errors(answer)["label"]


def test_put_right_keeps_what_it_said_and_moved_keeps_the_old_place(client, database, build, wall):
    answer = client.post(MOVE, data={"item": wall, "x": "60", "y": "18", "mirror": "1"})
    assert answer.headers["location"] == f"{EAST}/drawing?mirror=1&new={wall}"
    (one,) = items(database, build)
    assert (one.x_nm, one.y_nm, one.label, one.line, one.is_box) == (
        60 * INCH,
        18 * INCH,
        "East receptacle",
        "C02",
        True,
    )
    assert "X: 4′ 10″, now 5′ 0″" in words(client.get(EAST))
    answer = client.post(MOVE, data={"item": wall, "x": "70", "y": "18", "moved": "1"})
    assert answer.headers["location"] == f"/builds/bindery/changes/new?item={wall}&to=E&x=70&y=18&corner="
    assert "Move it" in words(client.get(answer.headers["location"])), "nothing approved is touched"
    assert len(items(database, build)) == 1, "nothing is moved before that was seen"
    where = {"item": wall, "to": "E", "x": "70", "y": "18", "corner": "NE"}
    assert client.post("/builds/bindery/changes", data=where).status_code == 303
    old, new = items(database, build)
    assert (old.x_nm, old.replaced_on, old.replaced_by_id) == (60 * INCH, SATURDAY, new.id)
    assert (new.x_nm, new.label, new.line) == (70 * INCH, "East receptacle", "C02")
    again = client.post(MOVE, data={"item": old.id, "x": "75", "y": "18"})
    assert "It was moved or replaced on 16 May 2026" in field_errors(again)["x"], "what is gone is not moved"


def test_where_it_cannot_go_is_said_and_it_stays_where_it_is(client, database, build, wall):
    answer = client.post(MOVE, data={"item": wall, "x": "110", "y": "18", "moved": "1"})
    assert answer.status_code == 422
    assert "Entry door" in field_errors(answer)["x"]
    assert "E1 East receptacle" in words(answer, "#move h2")
    assert soup(answer).select_one("#move [name=x]")["value"] == "110"
    assert items(database, build)[0].x_nm == 58 * INCH
    assert client.post(MOVE, data={"item": wall, "x": "58-1/2", "y": "16"}).status_code == 303, "not in its own way"


def test_only_what_is_on_this_wall_is_moved_and_only_by_the_builder(client, stranger, wall):
    assert client.post(MOVE, data={"item": "999", "x": "1", "y": "1"}).status_code == 404
    assert client.post(MOVE, data={"x": "1", "y": "1"}).status_code == 404
    for path in (PLACE, MOVE):
        assert stranger.post(path, data=SPOT | {"item": str(wall)}, follow_redirects=False).status_code in {
            303,
            401,
            403,
        }


def test_from_the_other_side_offsets_stay_those_of_its_own_corner(client, wall):
    page = soup(client.get(f"{EAST}/drawing?mirror=1"))
    (tag,) = page.select("svg a[data-at]")
    assert tag["data-at"] == f"{58 * INCH} {16 * INCH}"
    touch = page.select_one("[data-touch]")
    assert (touch["data-mirror"], touch["data-length"], touch["data-corner"]) == ("1", str(161 * INCH), "NE")
    assert soup(client.get(f"{EAST}/drawing")).select_one("[data-touch]")["data-mirror"] == ""


def test_the_drawing_says_where_its_offsets_begin(client, wall):
    """The wall is 644 units long at four to the inch, 118 from the left; the floor lies 432 below the top at 124."""
    svg = soup(client.get(f"{EAST}/drawing")).select("svg[data-scale]")[1]
    left, zero, along, across, way = (float(part) for part in svg["data-scale"].split())
    assert (left, zero, way) == (118, 124 + 432, -1)
    assert along * INCH == pytest.approx(4)
    assert across == along


def test_a_wall_whose_studs_are_not_known_says_so_and_leads_to_where_they_are_put_in(client, database, build, wall):
    with database.writing() as session:
        builders.a_surface(session, build, "W", "West wall", position=2)
        builders.a_surface(session, build, "N", "North wall", position=3, spacing_nm=16 * INCH)
    west, north = (client.get(f"/builds/bindery/surfaces/{code}/drawing") for code in "WN")
    assert "Studs are not drawn: it is not known how far apart they stand." in words(west)
    assert links(west)["Put it in"] == "/builds/bindery/surfaces/W/edit#f-spacing"
    assert "it is not known where the first one stands" in words(north)
    assert "not known" not in words(client.get(f"{EAST}/drawing"))
