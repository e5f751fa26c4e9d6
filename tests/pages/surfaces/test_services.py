"""Sheet W5: circuits and lines as things of their own: the list, the way of one, its form, and the panel list."""

import re

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, headings, links, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/services"
INCH = builders.INCH
CIRCUIT = {
    "kind": "circuit",
    "name": "Heat pump",
    "code": "c07",
    "number": "7-9",
    "breaker": "20 A",
    "poles": "2",
    "cable": "12-2",
    "room": "outside, south",
}


@pytest.fixture
def site(database, build):
    """An east wall and a ceiling: from a panel over two boxes of C01 on the wall to a third on the ceiling."""
    with database.writing() as session:
        east = builders.a_surface(session, build, "E", "East wall", height_nm=109 * INCH, origin_corner="NE")
        over = {"kind": "ceiling", "length_nm": 257 * INCH, "height_nm": 161 * INCH, "origin_corner": "NW"}
        above = builders.a_surface(session, build, "C", "Ceiling", position=2, facing="", **over)
        feeder = builders.a_line(session, build, "FDR", kind="feeder", name="Feeder", breaker_a=60, poles=2, cable="6")
        line = builders.a_line(session, build, "C01", number="1", room="bench", position=2)
        boxed = {"line_id": line.row_id, "is_box": True}
        panel = builders.an_item(
            session, east, "Panel", kind="sub-panel", x_nm=20 * INCH, y_nm=60 * INCH, line_id=feeder.row_id
        )
        first = builders.an_item(session, east, "First box", x_nm=58 * INCH, **boxed)
        builders.an_item(session, east, "Box nobody wired", x_nm=140 * INCH, **boxed)
        builders.an_item(session, east, "Nail plate", kind="nail plate", x_nm=30 * INCH, line_id=line.row_id)
        light = builders.an_item(session, above, "Light", kind="light box", y_nm=40 * INCH, x_nm=41 * INCH, **boxed)
        run = {"line_id": line.row_id, "label": "12-2"}
        ends = {"from_item_id": panel.row_id, "to_item_id": first.row_id}
        builders.a_run(session, east, (20, 60), (20, 16), (58, 16), **ends, **run)
        up = builders.a_run(session, east, (58, 16), (58, 109), from_item_id=first.row_id, **run)
        builders.a_run(
            session, above, (257, 58), (41, 58), (41, 40), continues_id=up.row_id, to_item_id=light.row_id, **run
        )


def lines(database, build):
    with database.reading() as session:
        return {line.code: line for line in store.list_lines(session, build.row_id)}


def test_with_no_line_the_sheet_leads_to_the_first_circuit(client):
    assert any(label.startswith("Add the first circuit") for label in links(client.get(BASE)))
    assert "W5" in words(client.get(BASE), "nav")


def test_each_line_stands_under_what_it_is_with_its_breaker_boxes_surfaces_and_drawn_length(client, site):
    page = client.get(BASE)
    assert headings(page)[:2] == ["Services", "Panel Panel list to print"]
    assert "1 circuit, 1 other line" in words(page)
    told = words(page, "#C01")
    # 44 + 38 in, 93 in, 216 + 18 in: 409 in are 34 ft 1 in.
    assert told == "E C01 Bench receptacles 20 A 12-2 3 E, C 34′ 1″"
    assert words(page, "#FDR") == "E FDR Feeder 60 A, 2 poles 6 E"


def test_a_circuit_is_followed_from_the_panel_to_its_last_box(client, site):
    page = client.get(f"{BASE}/C01")
    way = [" ".join(one.get_text(" ", strip=True).split()) for one in soup(page).select(".way > li")]
    assert way == [
        "E1 Panel East wall, 1′ 8″ from NE, 5′ 0″ above the finished floor, of FDR",
        "E 6′ 10″ on East wall",
        "E2 First box East wall, 4′ 10″ from NE, 1′ 4″ above the finished floor",
        "E 27′ 3″ on East wall Ceiling",
        "E1 Light Ceiling, 3′ 5″ from NW, 3′ 4″ across, from the same corner",
    ]
    found = links(page)
    assert found["Ceiling"] == "/builds/bindery/surfaces/C/runs/new?line=C01", "drawn on further"
    assert "/builds/bindery/surfaces/C/runs/3" in page.text
    assert found["First box East wall, 4′ 10″ from NE, 1′ 4″ above the finished floor"].endswith("/surfaces/E/items/2")
    assert "Nail plate" in words(page, "#on") and "First box" not in words(page, "#on")


def test_what_is_not_drawn_to_its_end_is_a_note_and_leads_to_where_it_is_settled(client, database, build, site):
    page = client.get(f"{BASE}/C01")
    assert words(page, "#notes") == "Not drawn to its end No run is drawn to this box. Box nobody wired, East wall"
    with database.writing() as session:
        east, line = store.get_surface(session, build.row_id, "E"), store.get_line(session, build.row_id, "C01")
        wall = session.get(builders.Surface, east.id)
        builders.a_run(session, wall, (90, 20), (99, 20), line_id=line.id, label="Loose end")
        builders.a_run(session, wall, (58, 16), (58, 50), line_id=line.id, label="Short", from_item_id=2)
        above = session.get(builders.Surface, store.get_surface(session, build.row_id, "C").id)
        builders.a_run(session, above, (257, 90), (41, 90), line_id=line.id, continues_id=5, to_item_id=5)
    told = words(client.get(f"{BASE}/C01"), "#notes")
    assert "A run on East wall begins at nothing on record. Loose end" in told
    assert "A run on East wall ends at nothing on record. Loose end" in told
    assert "A run on East wall goes on elsewhere before it meets the edge. Short" in told
    assert "It is drawn in 2 parts that no run joins." in told
    assert not re.search(r"complian|certif|verif|to code|wrong|must", told)


def test_a_run_to_a_box_that_was_moved_is_a_note(client, database, build, site):
    moved = {"item": "2", "to": "E", "x": "90 in", "y": "16 in"}
    assert client.post("/builds/bindery/changes", data=moved).status_code == 303
    assert "ends at something that was moved since: “First box”" in words(client.get(f"{BASE}/C01"), "#notes")


def test_a_circuit_is_added_and_stands_in_its_space(client, database, build):
    assert client.post(BASE, data=CIRCUIT).headers["location"] == f"{BASE}/C07"
    made = lines(database, build)["C07"]
    assert (made.service, made.number, made.breaker_a, made.poles) == ("electric", "7-9", 20, 2)
    assert "Circuit, 20 A, 2 poles, 12-2, space 7-9. Serves: outside, south." in words(client.get(f"{BASE}/C07"))
    assert "No run of it is drawn yet" in words(client.get(f"{BASE}/c07"))


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"code": "C01"}, "code", "“C01” is the short name of Bench receptacles."),
        ({"code": "c01"}, "code", "is the short name of"),
        ({"code": ""}, "code", "Give it a short name"),
        ({"code": "panel"}, "code", "a word of this program"),
        ({"code": "C 7"}, "code", "letters or figures"),
        ({"name": ""}, "name", "Say what it is"),
        ({"breaker": "twenty"}, "breaker", "“twenty” is no whole number of amperes"),
        ({"breaker": "0"}, "breaker", "From 1 to 400"),
        ({"breaker": "401"}, "breaker", "From 1 to 400"),
        ({"number": "1-3"}, "number", "Space 1 is taken by C01."),
        ({"number": "7"}, "number", "a breaker of 2 poles takes 2"),
        ({"number": "by the door"}, "number", "names no space"),
        ({"poles": "4"}, "poles", "Choose one of the list"),
        ({"kind": "water", "number": ""}, "breaker", "Only a circuit or a feeder has a breaker"),
        ({"kind": "drain", "breaker": ""}, "number", "Only a circuit or a feeder has a space"),
        ({"kind": "pump"}, "kind", "Choose one of the list"),
    ],
)
def test_what_cannot_be_is_said_beside_its_field_and_nothing_is_lost(client, database, build, typed, field, sentence):
    with database.writing() as session:
        builders.a_line(session, build, "C01", number="1")
    answer = client.post(BASE, data=CIRCUIT | typed)
    assert answer.status_code == 422
    assert sentence in words(answer, f"#e-{field}")
    assert soup(answer).select_one("[name=room]")["value"] == "outside, south"
    assert set(lines(database, build)) == {"C01"}


def test_a_line_put_right_keeps_what_it_was_and_its_boxes_follow_into_another_service(client, database, build, site):
    sent = {"kind": "low voltage", "name": "Bench network", "code": "NET", "poles": "1"}
    assert client.post(f"{BASE}/C01/edit", data=sent).headers["location"] == f"{BASE}/NET"
    page = client.get(f"{BASE}/NET")
    assert "Short name: C01, now NET" in words(page)
    assert "Breaker: 20, now nothing" in words(page)
    with database.reading() as session:
        items, runs = store.list_items(session, build.row_id), store.list_runs(session, build.row_id)
        assert {one.service for one in (*items, *runs) if one.line == "NET"} == {"data"}
    assert "Service: electric, now data" in words(client.get("/builds/bindery/surfaces/E"))
    assert client.get(f"{BASE}/C01").status_code == 404


def test_its_own_space_is_not_in_its_way(client, database, build):
    client.post(BASE, data=CIRCUIT)
    assert client.post(f"{BASE}/C07/edit", data=CIRCUIT | {"name": "Heat pump, south"}).status_code == 303
    bad = client.post(f"{BASE}/C07/edit", data=CIRCUIT | {"number": "7"})
    assert bad.status_code == 422 and field_errors(bad)["number"]
    assert lines(database, build)["C07"].name == "Heat pump, south"


def test_a_line_out_of_use_stays_listed_apart_and_gives_its_space_away(client, database, build):
    client.post(BASE, data=CIRCUIT)
    assert "still to come" in field_errors(client.post(f"{BASE}/C07/end", data={"on": "1 June"}))["on"]
    assert client.post(f"{BASE}/C07/end", data={"on": "14 May"}).status_code == 303
    page = client.get(BASE)
    assert headings(page)[:2] == ["Services", "Out of use"]
    assert "Out of use since 14 May 2026" in words(page)
    assert client.post(f"{BASE}/C07/end", data={}).status_code == 422, "once is enough"
    again = client.post(BASE, data=CIRCUIT | {"name": "Lights"})
    assert "“C07” is the short name of Heat pump, which is out of use." in field_errors(again)["code"]
    assert client.post(BASE, data=CIRCUIT | {"code": "C14"}).status_code == 303, "its space is free"
    refused = client.post(f"{BASE}/C07/use")
    assert refused.status_code == 409
    assert "Space 7 is taken by C14." in words(refused) and links(refused)["Change C07"] == f"{BASE}/C07/edit"
    client.post(f"{BASE}/C14/edit", data=CIRCUIT | {"code": "C14", "number": "2-4"})
    assert client.post(f"{BASE}/C07/use").status_code == 303
    assert lines(database, build)["C07"].ended_on is None
    assert "Out of use since: 14 May 2026, now nothing" in words(client.get(f"{BASE}/C07"))


def test_lines_of_a_kind_are_put_in_order_without_script(client, database, build):
    for number in range(1, 4):
        client.post(BASE, data={"kind": "circuit", "name": f"Lights {number}", "code": f"C{number}"})
    client.post(BASE, data={"kind": "water", "name": "Cold", "code": "CW"})
    page = soup(client.get(BASE))
    forms = {
        form["action"]: [button["value"] for button in form.select("button")] for form in page.select("#order form")
    }
    assert forms == {
        f"{BASE}/C1/move": ["later"],
        f"{BASE}/C2/move": ["earlier", "later"],
        f"{BASE}/C3/move": ["earlier"],
    }
    answer = client.post(f"{BASE}/C3/move", data={"to": "earlier"})
    assert answer.headers["location"] == f"{BASE}?order=1#order-C3"
    assert soup(client.get(f"{BASE}?order=1")).select_one("#order").has_attr("open")
    assert list(lines(database, build)) == ["C1", "C3", "C2", "CW"]
    client.post(f"{BASE}/C1/move", data={"to": "earlier"})
    assert list(lines(database, build)) == ["C1", "C3", "C2", "CW"], "the first stays the first"
    client.post(f"{BASE}/C3/end", data={})
    assert client.post(f"{BASE}/C3/move", data={"to": "later"}).status_code == 422


def test_pressing_twice_adds_once(client, database, build):
    sent_id = soup(client.get(f"{BASE}/new")).select_one("[name=sent_id]")["value"]
    first, second = (client.post(BASE, data=CIRCUIT | {"sent_id": sent_id}) for _ in range(2))
    assert first.headers["location"] == second.headers["location"] == f"{BASE}/C07"
    assert set(lines(database, build)) == {"C07"}


def test_the_panel_list_shows_each_space_as_it_lies_behind_the_door(client, database, build, site):
    client.post(BASE, data=CIRCUIT)
    client.post(BASE, data=CIRCUIT | {"code": "C02", "number": "4", "poles": "1", "name": "Lights"})
    client.post(BASE, data=CIRCUIT | {"code": "C03", "number": "", "poles": "1", "name": "Fan"})
    page = client.get(f"{BASE}/panel")
    rows = [
        [" ".join(cell.get_text(" ", strip=True).split()) for cell in row.select("th, td")]
        for row in soup(page).select(".spaces tbody tr")
    ]
    assert rows == [
        ["1", "Bench receptacles 20 A, 12-2, C01 bench", "2", "empty"],
        ["3", "empty", "4", "Lights 20 A, 12-2, C02 outside, south"],
        ["5", "empty", "6", "empty"],
        ["7-9", "Heat pump 20 A, 2 poles, 12-2, C07 outside, south", "8", "empty"],
        ["10", "empty"],
    ]
    told = words(page)
    assert "Panel East wall, 1′ 8″ from NE" in told and "Fed by FDR Feeder : 60 A, 2 poles, 6." in told
    assert "Without a space yet C03 Fan" in told
    # The wording of NEC 408.4(A), 2023 edition, is from memory.
    assert "408.4(A)" in told and "Your local authority and licensed people decide." in told


def test_half_spaces_make_a_plain_list_and_no_space_leads_onward(client, database, build):
    assert any(label.startswith("Add a circuit") for label in links(client.get(f"{BASE}/panel")))
    for half in ("1A", "1B"):
        sent = CIRCUIT | {"code": f"C{half}", "number": half, "poles": "1"}
        assert client.post(BASE, data=sent).status_code == 303
    page = soup(client.get(f"{BASE}/panel"))
    assert not page.select(".spaces")
    assert [cell.get_text() for cell in page.select("td[data-h=Space]")] == ["1A", "1B"]


@pytest.mark.parametrize("path", ["", "/C01/edit", "/C01/end", "/C01/use", "/C01/move"])
def test_a_stranger_changes_nothing(stranger, database, build, site, path):
    answer = stranger.post(f"{BASE}{path}", data=CIRCUIT)
    assert answer.status_code == 401 or answer.headers["location"].startswith("/sign-in")
    assert lines(database, build)["C01"].ended_on is None


@pytest.mark.parametrize("path", ["/X9", "/X9/edit"])
def test_what_is_not_there_leads_onward(client, path):
    answer = client.get(f"{BASE}{path}")
    assert answer.status_code == 404 and links(answer)


@pytest.mark.parametrize("path", ["", "/C01", "/panel"])
def test_a_second_look_asks_the_record_nothing(client, database, site, path):
    first = client.get(f"{BASE}{path}")
    with queries(database) as asked:
        second = client.get(f"{BASE}{path}")
    assert first.text == second.text and asked == []


@pytest.mark.parametrize("path", ["", "/C01", "/panel"])
def test_fifty_boxes_ask_no_more_than_five(client, database, build, site, path):
    def filled(numbers):
        with database.writing() as session:
            line = store.get_line(session, build.row_id, "C01")
            wall = session.get(builders.Surface, store.get_surface(session, build.row_id, "E").id)
            for number in numbers:
                box = builders.an_item(session, wall, f"Box {number}", line_id=line.id, x_nm=number * 3 * INCH)
                builders.a_run(session, wall, line_id=line.id, from_item_id=1, to_item_id=box.row_id)
                builders.a_line(session, build, f"D{number}", position=number)
        with queries(database, anew=True) as asked:
            assert client.get(f"{BASE}{path}").status_code == 200
        return len(asked)

    assert filled(range(5)) == filled(range(5, 50)) < 20
