"""The drawing on a surface's page and alone: to be read without seeing it, from either side, with ways on."""

import re

import pytest
from sqlmodel import select

from tests import builders
from tests.builders import INCH
from tests.conftest import SATURDAY
from tests.reading import headings, links, words
from webapp.surfaces.models import Opening

EAST = "/builds/bindery/surfaces/E"


@pytest.fixture
def wall(database, build):
    """The east wall with a door, a receptacle that was moved once, and a run to it."""
    with database.writing() as session:
        surface = builders.a_surface(
            session, build, origin_corner="NE", spacing_nm=16 * INCH, first_stud_nm=12 * INCH, framing="2x4"
        )
        builders.an_opening(session, surface, "Entry door", kind="door", x_nm=96 * INCH, y_nm=0, height_nm=82 * INCH)
        old = builders.an_item(session, surface, "Receptacle, first place", x_nm=30 * INCH, replaced_on=SATURDAY)
        item = builders.an_item(session, surface, "Receptacle <east>", x_nm=58 * INCH)
        builders.a_run(session, surface, (14, 30), (58, 30), (58, 16))
        builders.a_surface(session, build, "X", "Gable", position=2, length_nm=None)
        return item.row_id, old.row_id


def test_the_drawing_stands_above_the_table_of_the_same_facts(client, wall):
    page = client.get(EAST)
    found = headings(page)
    assert found.index("The elevation") < [line.startswith("Hidden in it") for line in found].index(True)
    assert page.text.count('<svg class="dwg" viewBox') == 2, "at a glance, and measured"
    assert links(page)["Alone on a sheet"] == f"{EAST}/drawing"
    assert "<desc" in page.text
    assert "Studs every 1′ 4″ on centre. 1 door. 1 receptacle. 1 electric run." in page.text
    assert "style=" not in page.text


def test_each_tag_leads_to_its_thing(client, wall):
    page = client.get(f"{EAST}/drawing").text
    item, _old = wall
    tags = re.findall(r'<a href="([^"]+)" aria-label="([^"]+)"[^>]*><path class="l2 f-paper"', page)
    assert tags == [(f"{EAST}/items/{item}", "E1, Receptacle &lt;east&gt;")] * 2
    assert client.get(tags[0][0]).status_code == 200


def test_the_legend_and_the_note_say_what_colours_and_letters_mean(client, wall):
    page = client.get(f"{EAST}/drawing")
    signs = re.findall(r'<svg class="dwg lg".*?</svg>([^<]+)</li>', page.text)
    assert signs == ["E electric", "receptacle", "opening"]
    assert "APWA Uniform Color Code" in words(page)
    assert "Measures from the NE corner and the finished floor (FF), to centres. Studs 1′ 4″ on centre." in words(page)


def test_from_the_other_side_it_is_measured_from_the_other_corner(client, wall):
    page = client.get(f"{EAST}/drawing?mirror=1")
    assert "East wall, from the other side" in words(page)
    assert "Measures from the SE corner" in words(page)
    assert ">8′ 7″</text>" in page.text, "161 in less 58 in is 103 in"
    assert links(page)["From this side"] == f"{EAST}/drawing"
    assert ">4′ 10″</text>" in client.get(f"{EAST}/drawing").text, "58 in from its own corner"


def test_what_was_replaced_is_drawn_when_asked(client, wall):
    page = client.get(f"{EAST}/drawing")
    assert "Receptacle, first place" not in page.text
    way = links(page)["With what was replaced"]
    assert way == f"{EAST}/drawing?replaced=1"
    asked = client.get(way)
    assert "Receptacle, first place" in asked.text
    assert "moved or replaced since" in words(asked)
    assert links(asked)["From the other side"] == f"{EAST}/drawing?mirror=1&replaced=1"


def test_without_its_measures_a_surface_is_not_drawn_and_says_what_is_needed(client, wall):
    page = client.get("/builds/bindery/surfaces/X/drawing")
    assert "A drawing needs the length of this surface and its height." in words(page)
    assert links(page)["Say how large it is"] == "/builds/bindery/surfaces/X/edit"
    assert "The elevation" not in headings(client.get("/builds/bindery/surfaces/X"))


def test_nobody_else_sees_a_drawing_and_no_other_surface_answers(client, stranger, wall):
    assert stranger.get(f"{EAST}/drawing", follow_redirects=False).status_code in {303, 401, 403, 404}
    assert client.get("/builds/bindery/surfaces/Q/drawing").status_code == 404


def test_a_drawing_once_made_shows_what_is_added_later(client, database, wall):
    assert ">E2</text>" not in client.get(f"{EAST}/drawing").text
    sent = {"label": "Second one", "kind": "switch", "service": "electric", "x": "80", "y": "46"}
    assert client.post(f"{EAST}/items", data=sent).status_code == 303
    assert ">E2</text>" in client.get(f"{EAST}/drawing").text
    with database.writing() as session:
        opening = session.exec(select(Opening)).one()
        opening.removed_on = SATURDAY
    assert "door" not in client.get(f"{EAST}/drawing").text


def test_the_table_calls_each_thing_as_the_drawing_does(client, wall):
    assert re.search(r'<th scope="row">E1 <a href="[^"]+">Receptacle &lt;east&gt;</a>', client.get(EAST).text)
