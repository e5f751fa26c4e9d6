"""Pencil marks on a picture become offsets: tapped, typed, linked both ways; what only a picture says is marked so."""

from datetime import UTC, datetime

import pytest

from tests import builders, pictures
from tests.builders import INCH
from tests.counting import queries
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import store

BASE = "/builds/bindery"
READ = f"{BASE}/pictures/1/read"
MARKS = pictures.a_jpeg(pictures.corners_image(400, 300), taken="2026:05:09 17:48:00")


@pytest.fixture
def wall(client, database, build):
    """161 in by 108 in, measured from NE; a picture of it, four to three."""
    with database.writing() as session:
        east = builders.a_surface(session, build, origin_corner="NE")
        builders.a_surface(session, build, "N", "North wall", facing="N", position=2)
    client.post(f"{BASE}/pictures", data={"surface": "E"}, files=[("pictures", ("a.jpg", MARKS))])
    return east


def keep(client, *rows: dict[str, str], **more: str):
    """`rows`: at, what, x, y, kind, known, out of each spot."""
    sent = {"surface": "E", "rows": str(len(rows))} | more
    for number, row in enumerate(rows, 1):
        sent |= {f"{name}_{number}": value for name, value in row.items()}
    return client.post(READ, data=sent)


def items(database):
    with database.reading() as session:
        return store.list_items(session, 1)


def points(database):
    with database.reading() as session:
        return store.list_points(session, 1)


def test_the_picture_leads_to_it_and_it_begins_at_the_picture_s_surface(client, wall):
    page = client.get(links(client.get(f"{BASE}/pictures/1"))["Read it off: marks, a sketch"])
    assert soup(page).select_one("#f-surface option[selected]")["value"] == "E"
    assert {tag["name"] for tag in soup(page).select("input[type=image]")} == {"small", "phone", "desk"}
    assert soup(page).select_one("image")["height"] == "300"


def test_a_tap_without_scripts_gives_a_number_and_its_fields_and_keeps_what_was_typed(client, wall, database):
    first = client.post(READ, data={"surface": "E", "rows": "0", "phone.x": "172", "phone.y": "129", "sent_id": "one"})
    assert first.status_code == 200
    page = soup(first)
    assert page.select_one("[name=at_1]")["value"] == "500000 500000", "the middle: 172 of 344, 129 of 258"
    assert page.select_one(".num text").text == "1"
    typed = {"surface": "E", "rows": "1", "at_1": "500000 500000", "what_1": "Vent", "desk.x": "448", "desk.y": "0"}
    second = soup(client.post(READ, data=typed))
    assert second.select_one("[name=at_2]")["value"] == "1000000 0"
    assert second.select_one("[name=what_1]")["value"] == "Vent"
    assert [tag.text for tag in second.select(".num text")] == ["1", "2"]
    assert points(database) == ()


def test_what_is_written_at_a_mark_becomes_a_thing_of_the_wall_linked_both_ways(client, wall, database):
    row = {"at": "250000 400000", "what": "Receptacle by the door", "x": "58", "y": "16", "kind": "receptacle"}
    answer = keep(client, row)
    assert "1 spot kept, 1 on East wall now." in words(client.get(answer.headers["location"]))
    (item,) = items(database)
    assert (item.label, item.x_nm, item.y_nm, item.is_box) == ("Receptacle by the door", 58 * INCH, 16 * INCH, True)
    assert not item.from_picture
    page = client.get(READ)
    assert links(page)["1: Receptacle by the door East wall, 4′ 10″ from NE, 1′ 4″ above the finished floor"]
    back = links(client.get(f"{BASE}/surfaces/E/items/1"))["Read off a picture: number 1"]
    assert back == f"{READ}#p-1"
    pin = soup(page).select_one("#p-1")
    assert pin["transform"] == "translate(100.0 120.0)"
    with database.reading() as session:
        placed = store.places_of_item(session, 1, item.id)
        assert len(placed) == 1
        own = store.places_of_photos(session, 1, (1,))
        assert (58 * INCH, 16 * INCH) in {(one.x_nm, one.y_nm) for one in own}, "and pinned on the drawing"


SCALE = (
    {"at": "250000 500000", "what": "Nail", "x": "40", "y": "40", "known": "1"},
    {"at": "750000 500000", "what": "Corner of the box", "x": "80", "y": "40", "known": "1"},
)
"""200 pixels are 40 in"""


def test_two_known_spots_propose_the_others_and_never_as_measured(client, wall, database):
    keep(client, *SCALE, {"at": "500000 333333", "what": "Pipe"})
    page = client.get(READ)
    assert "About 5′ 0″ from NE, 4′ 2″ above the finished floor: from the picture, not measured" in words(page)
    assert items(database) == ()
    answer = client.post(f"{READ}/3", data={"do": "picture", "kind": "stub-out"})
    assert "measure it before you rely on it" in words(client.get(answer.headers["location"]))
    (item,) = items(database)
    assert (item.x_nm, item.y_nm, item.from_picture) == (60 * INCH, 50 * INCH, True)
    for path in ("surfaces/E", "surfaces/E/items/1", "pictures/1/read", "surfaces/E/behind?x=60&y=50"):
        assert "rom the picture, not measured" in words(client.get(f"{BASE}/{path}")), path


def test_the_drawing_and_the_printed_sheet_mark_what_is_not_measured(client, wall):
    keep(client, *SCALE, {"at": "500000 333333", "what": "Pipe"})
    client.post(f"{READ}/3", data={"do": "picture", "kind": "stub-out"})
    for path in ("surfaces/E/drawing", "surfaces/E/sheet"):
        page = client.get(f"{BASE}/{path}")
        assert "Where a tag has “?” the place is read from a picture, not measured." in words(page), path
        assert any(tag.text.strip().endswith("?") for tag in soup(page).select("svg text")), path


def test_the_tape_confirms_it_and_the_mark_goes(client, wall, database):
    keep(client, *SCALE, {"at": "500000 333333", "what": "Pipe"})
    client.post(f"{READ}/3", data={"do": "picture"})
    form = soup(client.get(f"{BASE}/surfaces/E/items/1")).select_one("#item")
    sent = {tag["name"]: tag.get("value", "") for tag in form.select("input:not([type=radio])")} | {"service": "water"}
    client.post(f"{BASE}/surfaces/E/items/1", data=sent | {"x": "61"})
    assert items(database)[0].from_picture, "another number alone does not make it measured"
    del sent["from_picture"]
    client.post(f"{BASE}/surfaces/E/items/1", data=sent | {"x": "61-1/2"})
    assert not items(database)[0].from_picture
    assert "not measured" not in words(client.get(READ))
    assert "Offsets: from a picture, now by the tape" in words(client.get(f"{BASE}/surfaces/E"))


def test_the_tape_goes_before_the_picture(client, wall, database):
    keep(client, *SCALE, {"at": "500000 333333", "what": "Pipe"})
    assert {"x", "y"} <= set(field_errors(client.post(f"{READ}/3", data={"do": "tape"})))
    client.post(f"{READ}/3", data={"do": "tape", "x": "59", "y": "49-1/2"})
    (item,) = items(database)
    assert (item.x_nm, item.from_picture) == (59 * INCH, False)
    assert client.post(f"{READ}/3", data={"do": "tape", "x": "1", "y": "1"}).status_code == 422
    assert len(items(database)) == 1


def test_without_a_scale_nothing_is_proposed_and_a_wrong_one_is_said(client, wall, database):
    keep(client, {"at": "500000 333333", "what": "Pipe"})
    assert "Tap two spots that you know" in words(client.get(READ))
    assert client.post(f"{READ}/1", data={"do": "picture"}).status_code == 422
    assert items(database) == ()
    swapped = [row | {"x": x} for row, x in zip(SCALE, ("80", "40"), strict=True)]
    keep(client, *swapped)
    page = words(client.get(READ))
    assert "Are they the right way round?" in page and "About" not in page


def test_what_would_lie_off_the_wall_is_not_proposed(client, wall):
    near = {"at": "250000 500000", "what": "Nail", "x": "1", "y": "40", "known": "1"}
    keep(client, near, SCALE[1] | {"x": "41"}, {"at": "0 500000", "what": "Off it"})
    assert "About" not in words(client.get(READ))


def test_what_is_wrong_is_said_beside_its_row_and_all_stays(client, wall, database):
    bad = keep(
        client,
        {"at": "1 1"},
        {"at": "2 2", "what": "Box", "x": "far", "y": "16"},
        {"at": "3 3", "known": "1", "x": "10"},
        {"at": "4 4", "what": "Too far", "x": "400", "y": "16"},
    )
    assert bad.status_code == 422
    found = field_errors(bad)
    assert {"what_1", "x_2", "x_3", "x_4"} <= set(found)
    assert "needs both" in found["x_3"]
    assert len(soup(bad).select(".num")) == 4
    assert soup(bad).select_one("#f-what_2")["value"] == "Box"
    assert points(database) == ()
    assert "Tap a spot" in words(keep(client))
    assert "Choose the surface" in field_errors(keep(client, {"at": "1 1", "what": "x"}, surface=""))["surface"]


def test_one_that_is_left_out_is_not_kept(client, wall, database):
    keep(client, {"at": "1 1", "out": "1"}, {"at": "2 2", "what": "Mark"}, {"at": "9999999 x", "what": "Nowhere"})
    assert [(one.number, one.what) for one in points(database)] == [(1, "Mark")]


def test_one_tapped_by_mistake_comes_off_and_its_number_is_not_given_again(client, wall, database):
    keep(client, {"at": "1 1", "what": "Mark"})
    client.post(f"{READ}/1", data={"do": "off"})
    assert points(database) == ()
    keep(client, {"at": "2 2", "what": "Other"})
    assert points(database)[0].number == 2
    assert client.post(f"{READ}/1", data={"do": "off"}).status_code == 404


def test_sent_twice_the_spots_are_kept_once(client, wall, database):
    row = {"at": "1 1", "what": "Mark", "x": "20", "y": "20"}
    first, second = (keep(client, row, sent_id="one") for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    assert (len(points(database)), len(items(database))) == (1, 1)


def test_on_a_slab_no_distance_is_worked_out(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "SL", "Slab", kind="slab", facing="")
    client.post(f"{BASE}/pictures", data={"surface": "SL"}, files=[("pictures", ("a.jpg", MARKS))])
    keep(client, *SCALE, {"at": "500000 333333", "what": "Pipe"}, surface="SL")
    assert "only worked out on walls" in words(client.get(READ))


def test_a_picture_of_another_build_is_not_here(client, wall, database):
    with database.writing() as session:
        photo = builders.a_photo(session, received_at=datetime(2026, 5, 9, tzinfo=UTC)).row_id
    assert client.get(f"{BASE}/pictures/{photo}/read").status_code == 404
    assert client.post(f"{BASE}/pictures/{photo}/read", data={"rows": "1"}).status_code == 404


@pytest.mark.parametrize("path", ["", "/1"])
def test_a_stranger_reads_nothing_off(stranger, client, wall, database, path):
    keep(client, {"at": "1 1", "what": "Mark"})
    data = {"surface": "E", "rows": "1", "at_1": "2 2", "what_1": "x", "do": "off"}
    assert stranger.post(f"{READ}{path}", data=data).status_code in {303, 401}
    assert len(points(database)) == 1


def test_five_and_forty_spots_cost_the_same_number_of_questions(client, wall, database):
    def asked(count: int) -> int:
        keep(client, *({"at": f"{one} 1", "what": "Mark", "x": str(20 + one), "y": "20"} for one in range(count)))
        with queries(database, anew=True) as sent:
            client.get(READ)
        return len(sent)

    assert asked(5) == asked(40)
