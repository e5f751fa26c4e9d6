"""What cannot be is said at its field with what stands in the way, and every mistake has a way back."""

import pytest

from tests import builders
from tests.reading import field_errors, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/surfaces/E"
WINDOW = {"kind": "window", "name": "New window", "x": "48 in", "y": "36 in", "width": "36 in", "height": "48 in"}
ITEM = {"label": "Receptacle", "service": "electric", "from_corner": "NE", "x": "14", "y": "16"}
RUN = {"label": "12-2", "service": "electric", "points": "20; 60\n90; 60"}
SURFACE = {"name": "East wall", "kind": "wall", "length": "161 in", "height": "109 in", "facing": "E"}
SURFACE |= {"origin_corner": "NE"}
INCH = builders.INCH


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        made = builders.a_surface(
            session, build, "E", "East wall", length_nm=161 * INCH, height_nm=109 * INCH, origin_corner="NE", facing="E"
        )
        return made.row_id


@pytest.fixture
def items(client, database, build, east):
    def read():
        with database.reading() as session:
            return store.list_items(session, build.row_id)

    return read


def test_an_opening_over_what_is_hidden_is_refused_with_its_names(client, items):
    client.post(f"{BASE}/items", data=ITEM | {"x": "60", "y": "50", "label": "Bench box"})
    client.post(f"{BASE}/runs", data=RUN)
    answer = client.post(f"{BASE}/openings", data=WINDOW)
    assert answer.status_code == 422
    said = "E1 Bench box lies in it, and 12-2 goes through it: move them first, or measure the opening again."
    assert said in field_errors(answer)["x"]
    assert client.post(f"{BASE}/openings", data=WINDOW | {"x": "100", "width": "30"}).status_code == 303


def test_a_sleeve_is_cut_where_something_goes_through_and_takes_more(client, items):
    client.post(f"{BASE}/items", data=ITEM | {"x": "60", "y": "50", "kind": "duct", "service": "air"})
    assert client.post(f"{BASE}/openings", data=WINDOW | {"kind": "sleeve"}).status_code == 303
    assert client.post(f"{BASE}/items", data=ITEM | {"x": "64", "y": "52", "kind": "pipe"}).status_code == 303
    assert client.post(f"{BASE}/runs", data=RUN).status_code == 303


def test_a_row_of_blocking_goes_past_a_window_on_both_sides(client, items):
    row = ITEM | {"kind": "blocking", "x": "66", "y": "50", "width": "96", "service": "framing"}
    assert client.post(f"{BASE}/items", data=row).status_code == 303
    assert client.post(f"{BASE}/openings", data=WINDOW).status_code == 303
    assert client.post(f"{BASE}/items/1", data=row | {"label": "2x8"}).status_code == 303
    short = client.post(f"{BASE}/items", data=row | {"width": "20"})
    assert "lies in the opening “New window”" in field_errors(short)["x"]


def test_a_corner_that_is_neither_end_is_said_with_both_as_buttons(client, items):
    answer = client.post(f"{BASE}/items", data=ITEM | {"from_corner": "SW"})
    assert answer.status_code == 422
    assert "East wall has no such corner. It is measured from NE or SE." in field_errors(answer)["from_corner"]
    buttons = [button["value"] for button in soup(answer).select("button[name=from_corner]")]
    assert buttons == ["NE", "SE"]
    assert items() == ()


def test_what_was_measured_from_the_far_corner_is_placed_from_there(client, items):
    client.post(f"{BASE}/items", data=ITEM | {"from_corner": "SE", "x": "14 3/8"})
    (item,) = items()
    assert (item.typed_nm, item.x_nm) == (14 * INCH + 3 * INCH // 8, 161 * INCH - 14 * INCH - 3 * INCH // 8)
    form = soup(client.get(f"{BASE}/items/{item.id}"))
    assert form.select_one("[name=x]")["value"] == "1' 2-3/8\"", "the form shows what was typed"
    assert "1′ 2⅜″ from SE" in words(client.get(BASE))
    over = client.post(f"{BASE}/items", data=ITEM | {"x": "147", "is_box": "1"})
    assert over.status_code == 303, "a thing that is no box is in nobody's way"
    client.post(f"{BASE}/items/{item.id}", data=ITEM | {"from_corner": "SE", "x": "40", "is_box": "1"})
    taken = client.post(f"{BASE}/items", data=ITEM | {"x": "121", "is_box": "1"})
    assert "is there already" in field_errors(taken)["x"], "the same place from the other end"


def test_what_was_moved_once_is_not_moved_again(client, items):
    client.post(f"{BASE}/items", data=ITEM)
    moved = {"item": "1", "to": "E", "x": "30", "y": "16"}
    assert client.post("/builds/bindery/changes", data=moved).status_code == 303
    again = client.post("/builds/bindery/changes", data=moved | {"x": "50"})
    assert again.status_code == 404
    assert "was moved from there already" in words(again)
    assert len(items()) == 2


def test_an_opening_said_to_be_gone_comes_back_unless_its_place_is_taken(client, items):
    client.post(f"{BASE}/openings", data=WINDOW)
    client.post(f"{BASE}/openings/1", data=WINDOW | {"gone": "1"})
    page = client.get(f"{BASE}/openings/1")
    assert "It is still there" in words(page)
    client.post(f"{BASE}/items", data=ITEM | {"x": "60", "y": "50"})
    taken = client.post(f"{BASE}/openings/1", data=WINDOW | {"there": "1"})
    assert "lies in it" in field_errors(taken)["x"]
    assert client.post(f"{BASE}/openings/1", data=WINDOW | {"name": "Old window"}).status_code == 303
    back = client.post(f"{BASE}/openings/1", data=WINDOW | {"there": "1", "x": "70"})
    assert back.status_code == 303
    page = words(client.get(BASE))
    assert "There no more" not in page
    assert "Gone since: 16 May 2026, now nothing" in page


def test_measures_that_leave_things_outside_are_asked_about_once(client, items):
    client.post(f"{BASE}/items", data=ITEM | {"x": "150"})
    client.post(f"{BASE}/runs", data=RUN)
    client.post(f"{BASE}/openings", data=WINDOW | {"y": "0", "x": "100"})
    short = SURFACE | {"length": "100 in"}
    asked = client.post(f"{BASE}/edit", data=short)
    assert asked.status_code == 422
    assert "With these measures E1 Receptacle and New window lie outside." in words(asked)
    assert soup(asked).select_one("button[name=outside]"), "a second press saves all the same"
    assert client.post(f"{BASE}/edit", data=short | {"outside": "1"}).status_code == 303
    page = words(client.get(BASE))
    assert "Not drawn, because outside of what the surface measures now: E1 Receptacle and New window." in page
    assert client.post(f"{BASE}/edit", data=short | {"name": "East"}).status_code == 303, "asked once only"
    assert client.post(f"{BASE}/edit", data=SURFACE).status_code == 303


@pytest.mark.parametrize(
    ("path", "data", "field"),
    [
        ("edit", SURFACE | {"length": "301 ft"}, "length"),
        ("edit", SURFACE | {"height": "-8 ft"}, "height"),
        ("edit", SURFACE | {"spacing": "0"}, "spacing"),
        ("items", ITEM | {"x": "400 ft"}, "x"),
        ("items", ITEM | {"y": "-400 ft"}, "y"),
        ("items", ITEM | {"width": "400 ft"}, "width"),
        ("openings", WINDOW | {"width": "400 ft"}, "width"),
        ("openings", WINDOW | {"y": "101 m"}, "y"),
        ("runs", RUN | {"points": "20; 60\n400 ft; 60"}, "points"),
    ],
)
def test_a_length_that_no_surface_has_is_refused_at_its_field(client, items, path, data, field):
    answer = client.post(f"{BASE}/{path}", data=data)
    assert answer.status_code == 422
    assert field in field_errors(answer)
