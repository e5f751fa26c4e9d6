"""Before a visit: the readiness sheet, the builder's own list of a trade, and what an inspector once asked for."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, links, soup, words
from webapp.inspections.models import AskedItem
from webapp.inspections.store import list_asked

BASE = "/builds/bindery"


@pytest.fixture
def rough(database, build):
    """A visit that is asked for, on two walls; one held before, at which something was asked for."""
    with database.writing() as session:
        walls = (builders.a_surface(session, build), builders.a_surface(session, build, "N", "North wall", position=2))
        permit = builders.a_permit(session, build)
        more = {"code": "IREL", "must_be_ready": "grounds made up, staples in view", "who_there": "me, all morning"}
        kind = builders.an_inspection(session, permit, "Rough electrical", walls, source="my handout", **more)
        before = builders.a_visit(session, kind, date(2026, 5, 7))
        result = builders.a_result(session, before, walls[0], "failed")
        builders.a_correction(session, before, result, words="Cable on edge under staple")
        ahead = builders.a_visit(session, kind, date(2026, 5, 20), outcome="asked", window="09:00 to 12:00")
        asked = {"words": "A ladder on site", "source": "asked by inspector", "asked_on": date(2026, 5, 7)}
        ids = {"build_id": build.row_id, "inspection_id": kind.row_id, "visit_id": before.row_id}
        builders.kept(session, AskedItem(stops=True, **asked, **ids))
        return {"visit": ahead.row_id, "walls": [wall.row_id for wall in walls], "build": build.row_id}


def points(client, path: str) -> dict[str, str]:
    """Words of each point to the name of its field."""
    page = soup(client.get(path))
    return {tag.legend.get_text(): tag.select_one("input")["name"] for tag in page.select(".points fieldset")}


def state(client, path: str, said: str) -> str:
    found = soup(client.get(path)).select_one(f"[name={points(client, path)[said]}][checked]")
    return found["value"] if found else ""


def test_the_sheet_says_when_who_and_what_with_what_was_asked_for_first(client, rough):
    path = f"{BASE}/visits/{rough['visit']}/ready"
    page = words(client.get(path))
    assert "Wednesday 20 May 2026, 09:00 to 12:00" in page
    assert "me, all morning" in page
    named = list(points(client, path))
    assert named[:3] == ["A ladder on site", "Grounds made up", "Staples in view"]
    assert "House number to be read from the street" in named
    assert "Asked by inspector, 7 May." in page


def test_ticks_stay_and_what_was_asked_for_is_ready_by_them(client, database, rough):
    path = f"{BASE}/visits/{rough['visit']}/ready"
    names = points(client, path)
    sent = {names["A ladder on site"]: "fine", names["Grounds made up"]: "to do"}
    assert client.post(path, data=sent).status_code == 303
    assert (state(client, path, "A ladder on site"), state(client, path, "Grounds made up")) == ("fine", "to do")
    assert "1 fine, 1 to do" in words(client.get(path))
    with database.reading() as session:
        assert list_asked(session, rough["build"])[0].done_on == date(2026, 5, 16)
    names = points(client, path)
    client.post(path, data={names["A ladder on site"]: "to do"})
    with database.reading() as session:
        assert list_asked(session, rough["build"])[0].open


def test_what_was_ready_for_the_last_visit_is_asked_again_for_the_next(client, database, rough):
    path = f"{BASE}/visits/{rough['visit']}"
    names = points(client, f"{path}/ready")
    client.post(f"{path}/ready", data={names["A ladder on site"]: "fine"})
    sent = {"day": "2026-05-16", f"kind_{rough['walls'][0]}": "failed"}
    assert client.post(f"{path}/result", data=sent).status_code == 303
    with database.writing() as session:
        kind = session.get(builders.Inspection, 1)
        again = builders.a_visit(session, kind, date(2026, 5, 27), outcome="planned").row_id
    assert state(client, f"{BASE}/visits/{again}/ready", "A ladder on site") == ""


def test_the_list_of_a_trade_is_there_from_the_start_each_point_with_its_source(client, rough):
    page = words(client.get(f"{BASE}/inspections/IREL/check"))
    assert "Grounds and splices made up in every box On 2 published lists of what fails." in page
    assert "A list of your own, no requirement. Your local authority decides." in page


def test_each_surface_has_its_own_ticks(client, rough):
    path = f"{BASE}/inspections/IREL/check"
    east, north = rough["walls"]
    name = points(client, path)["Every metal box bonded"]
    client.post(path, data={name: "fine", "surface": str(east)})
    assert state(client, f"{path}?surface={east}", "Every metal box bonded") == "fine"
    assert state(client, f"{path}?surface={north}", "Every metal box bonded") == ""


def test_points_are_added_said_otherwise_and_taken_off_with_a_reason(client, rough):
    path = f"{BASE}/inspections/IREL"
    more = f"{path}/points?use=self-check"
    client.post(more, data={"words": "Tape the panel cover", "source": "my authority’s handout"})
    assert "Tape the panel cover My authority’s handout." in words(client.get(f"{path}/check"))
    key = points(client, f"{path}/check")["Every metal box bonded"].removeprefix("state_")
    client.post(more, data={"point": key, "words": "Metal boxes: green screw in"})
    named = points(client, f"{path}/check")
    assert "Metal boxes: green screw in" in named and "Every metal box bonded" not in named
    key = named["No box fuller than its size allows"].removeprefix("state_")
    refused = client.post(more, data={"point": key, "words": "", "why": ""})
    assert "Say why it comes off the list" in field_errors(refused)["why"]
    client.post(more, data={"point": key, "why": "all boxes are deep"})
    page = words(client.get(f"{path}/check"))
    assert "No box fuller than its size allows Off the list since Sat 16 May: all boxes are deep" in page


def test_what_corrections_said_is_offered_for_the_list(client, rough):
    path = f"{BASE}/inspections/IREL"
    assert "Cable on edge under staple A correction of this inspection" in words(client.get(f"{path}/check"))
    sent = {"words": "Cable on edge under staple", "source": "asked by inspector"}
    client.post(f"{path}/points?use=self-check", data=sent)
    page = words(client.get(f"{path}/check"))
    assert "Cable on edge under staple Asked by inspector." in page
    assert "A correction of this inspection" not in page


def test_a_visit_by_video_begins_at_the_house_number(client, database, rough):
    with database.writing() as session:
        session.get(builders.Visit, rough["visit"]).remote = True
    named = list(points(client, f"{BASE}/visits/{rough['visit']}/ready"))
    first = named.index("Begin at the street with the house number in view")
    assert named[first + 1 : first + 3] == [
        "Walk clockwise, from the door around the room",
        "Tape, level and a light in your pocket, the ladder up",
    ]


def test_nothing_said_and_nonsense_change_nothing(client, rough):
    path = f"{BASE}/inspections/IREL/check"
    assert client.post(path, data={}).status_code == 303
    name = points(client, path)["Every metal box bonded"]
    assert client.post(path, data={name: "perhaps"}).status_code == 422
    empty = client.post(f"{BASE}/inspections/IREL/points?use=self-check", data={"words": ""})
    assert (empty.status_code, set(field_errors(empty))) == (422, {"words"})


def test_the_sheet_says_which_papers_are_kept_and_which_kinds_are_not_there(client, rough):
    path = f"{BASE}/visits/{rough['visit']}/ready"
    none = words(client.get(path), "#papers")
    assert "None is kept here of: cards of permits and inspections, approved plan, makers’ instructions" in none
    kept = {"at_hand": "yes", "where": "in the tube by the door"}
    client.post(f"{BASE}/papers", data=kept | {"name": "Plan set", "kind": "approved plan"})
    client.post(
        f"{BASE}/papers",
        data=kept
        | {"name": "Truss letter", "kind": "engineer's or truss paper", "about": f"surface:{rough['walls'][0]}"},
    )
    client.post(f"{BASE}/papers", data=kept | {"name": "Old bill", "kind": "invoice or receipt"})
    client.post(f"{BASE}/papers", data={"where": "at home", "name": "Not for a visit", "kind": "letter"})
    page = client.get(path)
    told = words(page, "#papers")
    assert told.startswith("Papers to have there 2 Approved plan Plan set In the tube by the door.")
    assert "Old bill" not in told and "Not for a visit" not in told
    assert "None is kept here of: cards of permits and inspections, makers’ instructions and letters." in told
    assert links(page, "#papers")["Plan set In the tube by the door."] == f"{BASE}/papers/PA01"
    for number in range(4):
        sent = {"name": f"Card, line {number}", "kind": "permit or inspection card"}
        client.post(f"{BASE}/papers", data=kept | sent)
    assert "Cards of permits and inspections: 4" in words(client.get(path), "#papers summary")


@pytest.mark.parametrize("use", ["ready", "self-check"])
def test_fifty_points_with_ticks_and_papers_ask_no_more_than_five(client, database, rough, use):
    path = f"{BASE}/visits/{rough['visit']}/ready" if use == "ready" else f"{BASE}/inspections/IREL/check"
    before, counts = len(points(client, path)), []
    for many in (5, 45):
        for number in range(many):
            sent = {"words": f"Point {many}.{number}", "source": "my own"}
            client.post(f"{BASE}/inspections/IREL/points?use={use}&visit={rough['visit']}", data=sent)
            paper = {"name": f"Card {many}.{number}", "kind": "letter", "where": "in the tube", "at_hand": "yes"}
            client.post(f"{BASE}/papers", data=paper)
        client.post(path, data=dict.fromkeys(points(client, path).values(), "fine"))
        with queries(database, anew=True) as asked:
            shown = len(soup(client.get(path)).select(".points > li"))
        counts.append((len(asked), shown - before))
    (five, rows), (fifty, more) = counts
    assert (rows, more) == (5, 50)
    assert 0 < five == fifty
