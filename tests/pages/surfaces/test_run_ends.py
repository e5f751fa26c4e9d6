"""A run begins and ends at things on record and goes on from surface to surface; each leads to its whole line."""

import pytest

from tests import builders
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery/surfaces"
INCH = builders.INCH
UP = {"label": "12-2", "line": "C01", "points": "58 in; 16 in\n58 in; 109 in", "from_item": "2", "to_item": "3"}
OVER = {"label": "12-2", "line": "C01", "points": "257 in; 58 in\n41 in; 40 in", "from_item": "2", "to_item": "3"}


@pytest.fixture
def site(database, build):
    """Things 1 (panel) and 2 (box) on the east wall, 3 (light) on the ceiling, 4 (blocking), 5 in another build."""
    with database.writing() as session:
        east = builders.a_surface(session, build, "E", "East wall", height_nm=109 * INCH, origin_corner="NE")
        over = {"kind": "ceiling", "length_nm": 257 * INCH, "height_nm": 161 * INCH, "origin_corner": "NW"}
        above = builders.a_surface(session, build, "C", "Ceiling", position=2, facing="", **over)
        line = builders.a_line(session, build, "C01")
        builders.a_line(session, build, "C02", position=2, number="2")
        builders.an_item(session, east, "Panel", kind="sub-panel", x_nm=20 * INCH, y_nm=60 * INCH, width_nm=14 * INCH)
        builders.an_item(session, east, "Box", x_nm=58 * INCH, line_id=line.row_id, is_box=True)
        builders.an_item(session, above, "Light", x_nm=41 * INCH, y_nm=40 * INCH, line_id=line.row_id, is_box=True)
        builders.an_item(session, east, "Cleat", kind="blocking", service="framing")
        other = builders.a_build(session, "Shed")
        builders.an_item(session, builders.a_surface(session, other, "E"), "Not of this build")


def chosen_in(answer):
    """What is selected in each list of the form, empty where nothing is."""
    found = {one["name"]: one.select_one("[selected]") for one in soup(answer).select("#run select")}
    return {name: option["value"] if option else "" for name, option in found.items()}


def runs(database, build):
    with database.reading() as session:
        return sorted(store.list_runs(session, build.row_id), key=lambda run: run.id)


def test_a_run_goes_on_on_the_next_surface_and_is_found_from_every_side(client, database, build, site):
    assert client.post(f"{BASE}/E/runs", data=UP).status_code == 303
    assert client.post(f"{BASE}/C/runs", data=OVER | {"goes_on": "1"}).status_code == 303
    up, over = runs(database, build)
    assert (up.from_item_id, up.to_item_id, over.continues_id) == (2, 3, up.id)
    way = [one.get_text(" ", strip=True) for one in soup(client.get("/builds/bindery/services/C01")).select(".way b")]
    assert way == ["Box", "Light"]
    whole = "/builds/bindery/services/C01"
    assert links(client.get(f"{BASE}/E"))["All of C01, on every surface"] == whole
    assert links(client.get(f"{BASE}/E"), "#hidden")["C01"] == whole
    assert links(client.get(f"{BASE}/E/items/2"))["All of C01"] == whole
    assert links(client.get(f"{BASE}/E/runs/1"))["All of C01"] == whole
    assert "All of" not in words(client.get(f"{BASE}/E/items/1"))


def test_a_box_where_several_circuits_meet_leads_to_each(client, database, build, site):
    client.post(
        f"{BASE}/E/runs", data=UP | {"line": "C02", "from_item": "1", "to_item": "2", "points": "20; 60\n58; 16"}
    )
    client.post(f"{BASE}/E/runs", data=UP)
    assert list(links(client.get(f"{BASE}/E/items/2")))[:3] == ["East wall", "All of C01", "C02"]
    assert list(links(client.get(f"{BASE}/E/items/1")))[:2] == ["East wall", "All of C02"], "no line of its own"
    assert "electric C01 C02" in words(client.get(f"{BASE}/E"), "#hidden")


def test_what_the_form_shows_can_be_saved_again_unchanged(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP)
    client.post(f"{BASE}/C/runs", data=OVER | {"goes_on": "1"})
    before = runs(database, build)
    for path in ("E/runs/1", "C/runs/2"):
        shown = client.get(f"{BASE}/{path}")
        label, points = (soup(shown).select_one(f"[name={name}]") for name in ("label", "points"))
        sent = {"label": label["value"], "points": points.get_text()}
        assert client.post(f"{BASE}/{path}", data=chosen_in(shown) | sent).status_code == 303
    assert runs(database, build) == before


def test_the_things_and_stretches_to_choose_from_are_of_this_build_and_this_line(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP)
    form = soup(client.get(f"{BASE}/C/runs/new"))
    listed = [one.get_text(strip=True) for one in form.select("[name=from_item] option")]
    assert listed == ["not known", "E1 Light", "E1 Panel", "E2 Box"], "no blocking, nothing of another build"
    assert [one["label"] for one in form.select("[name=from_item] optgroup")] == ["Ceiling", "East wall"]
    assert "East wall: 12-2, ends 4′ 10″ along, 9′ 1″ up" in form.select_one("[name=goes_on]").get_text()
    other = soup(client.get(f"{BASE}/C/runs/new?line=C02")).select("[name=goes_on] option")
    assert [one.get_text() for one in other] == ["no other stretch"]
    assert len(soup(client.get(f"{BASE}/E/runs/new")).select("[name=goes_on] option")) == 1, "not on its own surface"


def test_a_run_is_begun_with_what_it_goes_on_from_or_with_its_line(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP)
    onward = links(client.get(f"{BASE}/E/runs/1"))["Ceiling"]
    begun = {"line": "C01", "service": "electric", "from_item": "2", "to_item": "3", "goes_on": "1"}
    assert chosen_in(client.get(onward)) == begun
    client.post(f"{BASE}/C/runs", data=OVER | {"goes_on": "1"})
    assert "another surface" not in words(client.get(f"{BASE}/E/runs/1")), "it goes on already"
    assert "another surface" not in words(client.get(f"{BASE}/C/runs/2")), "it ends at its light"
    named = soup(client.get(f"{BASE}/C/runs/new?line=C02"))
    assert named.select_one("[name=label]")["value"] == "Bench receptacles, 12-2"
    assert client.get(f"{BASE}/C/runs/new?line=X9").status_code == 200
    assert client.get(f"{BASE}/C/runs/new?goes_on=99").status_code == 404


@pytest.mark.parametrize(
    ("typed", "field", "sentence"),
    [
        ({"from_item": "5"}, "from_item", "Choose one of the list"),
        ({"to_item": "99"}, "to_item", "Choose one of the list"),
        ({"to_item": "2"}, "to_item", "It begins there"),
        ({"goes_on": "99"}, "goes_on", "Choose one of the list"),
        ({"goes_on": "1"}, "goes_on", "Choose one of the list"),
        ({"goes_on": "2", "line": "C02"}, "goes_on", "That stretch is of C01, this one of C02."),
        ({"goes_on": "2", "line": ""}, "goes_on", "That stretch is of C01, this one of none yet."),
        ({"points": "90 in; 16 in\n58 in; 109 in"}, "points", "The first line is not at “Box”, where this run begins."),
        ({"points": "90 in; 16 in\n58 in; 109 in"}, "points", "That is at 4' 10\"; 1' 4\""),
        ({"from_item": "", "to_item": "2"}, "points", "The last line is not at “Box”, where this run ends."),
    ],
)
def test_what_cannot_be_is_said_beside_its_field(client, database, build, site, typed, field, sentence):
    client.post(f"{BASE}/E/runs", data=UP)
    client.post(f"{BASE}/C/runs", data=OVER)
    answer = client.post(f"{BASE}/E/runs", data=UP | {"note": "by the door"} | typed)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one("[name=note]").get_text().strip() == "by the door"
    assert len(runs(database, build)) == 2


def test_a_wide_thing_is_reached_at_its_edge_and_one_on_another_surface_by_what_goes_on(client, database, build, site):
    edge = UP | {"from_item": "1", "points": "20 in; 85 in\n20 in; 109 in"}
    assert client.post(f"{BASE}/E/runs", data=edge).status_code == 303, "the top of a panel 14 in wide"
    far = UP | {"from_item": "3", "to_item": "1", "points": "20 in; 109 in\n20 in; 70 in"}
    assert client.post(f"{BASE}/E/runs", data=far).status_code == 303, "it begins on the ceiling"


def test_a_run_cannot_go_on_from_what_goes_on_from_it(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP)
    client.post(f"{BASE}/C/runs", data=OVER | {"goes_on": "1"})
    answer = client.post(f"{BASE}/E/runs/1", data=UP | {"goes_on": "2"})
    assert "goes on from this one already" in field_errors(answer)["goes_on"]


def test_what_goes_on_from_a_run_pulled_anew_goes_on_from_its_new_way(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP)
    client.post(f"{BASE}/C/runs", data=OVER | {"goes_on": "1"})
    moved = UP | {"points": "58 in; 16 in\n60 in; 16 in\n60 in; 109 in", "moved": "1"}
    assert client.post(f"{BASE}/E/runs/1", data=moved).status_code == 303
    old, over, new = runs(database, build)
    assert old.replaced_on is not None and over.continues_id == new.id
    assert "Goes on from: 12-2, now 12-2" in words(client.get(f"{BASE}/C"))
    assert "no run" not in words(client.get("/builds/bindery/services/C01"))


def test_an_end_put_right_is_told_by_its_name(client, database, build, site):
    client.post(f"{BASE}/E/runs", data=UP | {"to_item": ""})
    client.post(f"{BASE}/E/runs/1", data=UP)
    assert "To: nothing, now Light" in words(client.get(f"{BASE}/E"))
