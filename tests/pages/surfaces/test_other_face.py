"""Two faces of one wall: said on one, read from both, drawn faint in each other."""

import pytest

from tests import builders
from tests.builders import INCH
from tests.reading import field_errors, links, soup, words
from webapp.surfaces import store
from webapp.surfaces.rules.back import other_face

BASE = "/builds/bindery/surfaces"


@pytest.fixture
def walls(database, build):
    """The east wall from inside and from outside, a second one, and a ceiling."""
    with database.writing() as session:
        inside = builders.a_surface(session, build, origin_corner="NE")
        more = {"position": 2, "kind": "outside face", "origin_corner": "SE"}
        outside = builders.a_surface(session, build, "EX", "East, outside", **more)
        builders.a_surface(session, build, "W", "West wall", position=3)
        builders.a_surface(session, build, "N", "North wall", position=4, length_nm=200 * INCH)
        builders.a_surface(session, build, "C", "Ceiling", position=5, kind="ceiling", facing="")
        builders.an_item(session, inside, "East receptacle", x_nm=58 * INCH)
        builders.an_item(session, outside, "Porch light", kind="light box", x_nm=40 * INCH, y_nm=78 * INCH)
        builders.a_run(session, outside, (40, 78), (40, 100))


def form_of(client, code: str) -> dict[str, str]:
    form = soup(client.get(f"{BASE}/{code}/edit")).select_one("#surface")
    sent = {field["name"]: field.get("value", "") for field in form.select("input[type=text]")}
    for chosen in form.select("select"):
        sent[chosen["name"]] = chosen.select_one("option[selected]")["value"]
    return sent


def said(client, code: str, other: str):
    return client.post(f"{BASE}/{code}/edit", data=form_of(client, code) | {"other_face": other})


def faces(database, build) -> dict[str, str]:
    with database.reading() as session:
        listed = store.list_surfaces(session, build.row_id)
    found = {one.code: other_face(one, listed) for one in listed}
    return {code: other.code for code, other in found.items() if other}


def test_said_on_one_face_it_is_read_from_both(client, database, build, walls):
    assert said(client, "E", "EX").status_code == 303
    assert faces(database, build) == {"E": "EX", "EX": "E"}
    assert links(client.get(f"{BASE}/E"))["Other face: East, outside"] == f"{BASE}/EX"
    assert links(client.get(f"{BASE}/EX"))["Other face: East wall"] == f"{BASE}/E"
    assert form_of(client, "EX")["other_face"] == "E"
    assert said(client, "EX", "E").status_code == 303, "said again on the other one nothing changes"
    assert faces(database, build) == {"E": "EX", "EX": "E"}


def test_taken_back_on_either_face_it_is_gone_from_both_and_stays_readable(client, database, build, walls):
    said(client, "E", "EX")
    assert said(client, "EX", "").status_code == 303
    assert faces(database, build) == {}
    assert "Other face: nothing, now East, outside" in words(client.get(f"{BASE}/E"))
    assert "Other face: East, outside, now nothing" in words(client.get(f"{BASE}/E"))
    assert "Other face: East wall, now nothing" in words(client.get(f"{BASE}/EX"))
    said(client, "E", "EX")
    said(client, "E", "W")
    assert faces(database, build) == {"E": "W", "W": "E"}


@pytest.mark.parametrize(
    ("code", "other", "sentence"),
    [
        ("E", "E", "its own other face"),
        ("E", "C", "Ceiling is a ceiling"),
        ("E", "N", "North wall is 16′ 8″ long, this one 13′ 5″"),
        ("W", "EX", "East, outside is the other face of East wall already"),
        ("E", "Q", "Choose one of the list."),
    ],
)
def test_what_cannot_be_the_other_face_is_said_beside_the_field(client, database, build, walls, code, other, sentence):
    said(client, "E", "EX")
    answer = said(client, code, other)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)["other_face"]
    assert faces(database, build) == {"E": "EX", "EX": "E"}


def test_only_a_wall_is_asked_for_its_other_face(client, walls):
    assert soup(client.get(f"{BASE}/C/edit")).select_one("[name=other_face]") is None
    offered = [one["value"] for one in soup(client.get(f"{BASE}/E/edit")).select("[name=other_face] option")]
    assert offered == ["", "EX", "W", "N"]


def test_the_other_face_shows_through_when_asked_for(client, walls):
    """Seen from inside the porch light, 40 in from SE, is 121 in from NE: 118 + 121 x 4 units from the left."""
    said(client, "E", "EX")
    plain = client.get(f"{BASE}/E/drawing")
    assert soup(plain).select(".through") == []
    way = links(plain)["With what is in East, outside, faint"]
    assert way == f"{BASE}/E/drawing?other=1"
    page = client.get(way)
    cable, *_ = (path["d"] for path in soup(page).select(".wide .through"))
    assert cable.startswith(f"M{118 + 121 * 4} "), cable
    assert "in the other face" in words(page, ".legend")
    assert links(page)["Without what is in East, outside"] == f"{BASE}/E/drawing"
    assert links(page)["From the other side"] == f"{BASE}/E/drawing?mirror=1&other=1"
    turned = client.get(f"{BASE}/E/drawing?mirror=1&other=1")
    cable, *_ = (path["d"] for path in soup(turned).select(".wide .through"))
    assert cable.startswith(f"M{118 + 40 * 4} "), "from outside it is 40 in from SE again"
