"""W1 and one surface, read and changed as the builder does."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, headings, links, soup, words
from webapp.surfaces import actions, store

BASE = "/builds/bindery/surfaces"
WALL = {"name": "East wall", "code": "e", "kind": "wall", "facing": "E", "length": "13' 5\"", "height": "9' 1-1/8\""}
ITEM = {"label": "Receptacle", "service": "electric", "from_corner": "NE", "x": "14 3/8", "y": "16"}


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        return builders.a_surface(session, build, origin_corner="NE", needs_count=True).row_id


def test_an_empty_round_has_one_first_step(client):
    answer = client.get(BASE)
    assert "clockwise from the door" in words(answer)
    assert f"{BASE}/new" in links(answer).values()


def test_a_surface_typed_in_feet_and_fractions_is_kept_exactly(client, database, build):
    answer = client.post(BASE, data=WALL)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{BASE}/E")
    with database.reading() as session:
        made = store.get_surface(session, build.id, "E")
    assert (made.length_nm, made.height_nm) == (161 * builders.INCH, 109 * builders.INCH + builders.INCH // 8)
    assert "13′ 5″" in words(client.get(f"{BASE}/E"))
    assert "9′ 1⅛″" in words(client.get(f"{BASE}/E"))


def test_what_is_wrong_stands_beside_its_field_and_what_was_typed_stays(client, east):
    answer = client.post(BASE, data=WALL | {"name": "", "length": "six feet", "height": "-3"})
    errors = field_errors(answer)
    assert answer.status_code == 422
    assert set(errors) == {"name", "code", "length", "height"}
    assert "another surface" in errors["code"]
    assert "more than zero" in errors["height"]
    assert soup(answer).select_one("#f-length")["value"] == "six feet"


def test_a_short_name_cannot_hide_a_page_of_ours(client):
    answer = client.post(BASE, data=WALL | {"code": "new"})
    assert "word of this program" in field_errors(answer)["code"]


def test_one_surface_shows_its_table_what_is_owed_and_ways_on(client, database, build, east):
    with database.writing() as session:
        surface = session.get_one(builders.Surface, east)
        line = builders.a_line(session, build, "C01")
        builders.an_item(session, surface, line_id=line.row_id, from_corner="NE")
        builders.a_slot(session, surface, 6, what="Drain and supply")
    answer = client.get(f"{BASE}/e")
    assert {"East wall", "Pictures owed Add", "Hidden in it Add", "Questions Ask one"} <= set(headings(answer))
    assert "Receptacle receptacle, electric 1′ 2″ 1′ 4″ E electric C01" in words(answer)
    assert links(answer, "body")["Before cover"] == f"{BASE}/E/before-cover"
    assert "/builds/bindery/what-stops?surface=E" in links(answer, "footer").values()
    assert any(href.startswith("/builds/bindery/surfaces/E/shoot?slot=") for href in links(answer).values())


def test_a_surface_that_is_not_there_says_so(client):
    answer = client.get(f"{BASE}/Q")
    assert answer.status_code == 404
    assert "no surface “Q”" in words(answer)


def test_changing_a_surface_shows_what_it_was(client, east):
    form = client.get(f"{BASE}/E/edit")
    assert soup(form).select_one("#f-length")["value"] == "13' 5\""
    client.post(f"{BASE}/E/edit", data=WALL | {"length": "13' 6"})
    assert "Length: 13′ 5″, now 13′ 6″" in words(client.get(f"{BASE}/E"))
    assert client.post(f"{BASE}/E/edit", data=WALL | {"name": ""}).status_code == 422


def test_an_offset_is_typed_as_builders_type_and_refused_outside_the_wall(client, database, build, east):
    bad = client.post(f"{BASE}/E/items", data=ITEM | {"x": "20'", "y": "9' 1"})
    errors = field_errors(bad)
    assert bad.status_code == 422
    assert "20′ 0″ lies outside: the length of this surface is 13′ 5″." in errors["x"]
    assert "lies outside: the height" in errors["y"]
    assert soup(bad).select_one("#f-label")["value"] == "Receptacle"
    assert client.post(f"{BASE}/E/items", data=ITEM).status_code == 303
    with database.reading() as session:
        item = store.list_items(session, build.id)[0]
    assert item.x_nm == 14 * builders.INCH + 3 * builders.INCH // 8


def test_a_thing_can_be_put_right_or_said_to_be_moved(client, database, build, east):
    client.post(f"{BASE}/E/items", data=ITEM)
    assert client.post(f"{BASE}/E/items/1", data=ITEM | {"y": "18"}).status_code == 303
    assert client.post(f"{BASE}/E/items/1", data=ITEM | {"label": ""}).status_code == 422
    moved = {"item": "1", "to": "E", "x": "30", "y": "18"}
    assert client.post("/builds/bindery/changes", data=moved).status_code == 303
    assert "Moved or replaced Sat 16 May" in words(client.get(f"{BASE}/E"))
    assert "where it was" in words(client.get(f"{BASE}/E/items/1"))


def test_another_picture_can_be_owed(client, east):
    assert client.post(f"{BASE}/E/slots", data={"what": ""}).status_code == 422
    assert client.post(f"{BASE}/E/slots", data={"what": "Duct sleeve", "strength": "wish"}).status_code == 303
    assert "Picture 1: Duct sleeve Owed before insulation. A wish" in words(client.get(f"{BASE}/E"))


def test_boxes_are_counted_and_a_changed_count_needs_a_reason(client, east):
    assert "Count the boxes" in field_errors(client.post(f"{BASE}/E/boxes", data={}))["before"]
    assert client.post(f"{BASE}/E/boxes", data={"before": "7"}).status_code == 303
    assert "write why" in field_errors(client.post(f"{BASE}/E/boxes", data={"before": "8"}))["why"]
    assert client.post(f"{BASE}/E/boxes", data={"before": "8", "why": "one was missed"}).status_code == 303
    page = words(client.get(f"{BASE}/E"))
    assert "Open: 8. After closing: not counted." in page
    assert "Boxes before: 7, now 8" in page


def test_a_closed_surface_is_opened_up_with_a_reason(client, database, east):
    assert client.post(f"{BASE}/E/open-again", data={"why": "a leak"}).status_code == 422
    with database.writing() as session:
        actions.mark_covered(
            session, east, date(2026, 5, 2), "me", "board", [("Rough electrical", "inspector", "1 May")]
        )
    bad = client.post(f"{BASE}/E/open-again", data={"why": "", "on": "1 May"})
    assert set(field_errors(bad)) == {"why", "on"}
    assert client.post(f"{BASE}/E/open-again", data={"why": "a leak", "on": "10 May"}).status_code == 303
    assert "Rested on: Rough electrical (inspector, 1 May). Opened up Sun 10 May: a leak" in words(
        client.get(f"{BASE}/E")
    )


@pytest.mark.parametrize("path", [BASE, f"{BASE}/E", "/builds/bindery/pictures"])
def test_fifty_rows_ask_no_more_than_five(client, database, build, path):
    def filled(rows: range) -> int:
        with database.writing() as session:
            for number in rows:
                code = "E" if number == 0 else f"E{number}"
                surface = builders.a_surface(session, build, code, f"Wall {number}", position=number)
                builders.an_item(session, surface)
                builders.a_question(session, build, surface)
                photo = builders.a_photo(session, taken_at="2026-05-09T17:48:00", made="broken")
                slot = builders.a_slot(session, surface, number)
                actions.place_picture(session, build.id, photo.row_id, surface.row_id, slot_id=slot.row_id)
        with queries(database, anew=True) as asked:
            assert client.get(path).status_code == 200
        return len(asked)

    five, fifty = filled(range(5)), filled(range(5, 50))
    assert five == fifty
    assert five < 36


@pytest.mark.parametrize(
    "path",
    ["", "/E/edit", "/E/boxes", "/E/open-again", "/E/items", "/E/items/1", "/E/slots"],
)
def test_a_stranger_changes_nothing(stranger, east, path):
    answer = stranger.post(f"{BASE}{path}", data=WALL | ITEM)
    assert answer.status_code in {303, 401}
    assert "/sign-in" in answer.headers.get("location", "/sign-in")
