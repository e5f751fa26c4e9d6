"""Boxes counted on the open wall are found again after the board, or looked for until they are."""

import pytest

from tests import builders
from tests.builders import INCH
from tests.eastwall import an_east_wall
from tests.reading import field_errors, headings, links, words
from tests.story.bindery import BASE, saved
from webapp.surfaces import actions

E = f"{BASE}/surfaces/E"


@pytest.fixture
def wall(database, build, today):
    """Four boxes counted open, four in the table; then the wall was closed."""
    with database.writing() as session:
        made = an_east_wall(session, build, filled=7)
        for at, label in enumerate(("Receptacle", "Switch", "Outside light", "Camera drop"), 1):
            builders.an_item(session, made.surface, label, is_box=True, from_corner="NE", x_nm=at * 30 * INCH)
        actions.mark_covered(session, made.surface.row_id, today, "me", "board", [])


def test_three_of_four_found_names_the_one_to_look_for_on_the_surface_and_today(client, wall):
    saved(client.post(f"{E}/boxes", data={"found": ["1", "2", "4"]}))
    sentence = "4 open, 3 found: look near E3 Outside light, 7′ 6″ from NE, 1′ 4″ above the finished floor."
    assert sentence in words(client.get(E))
    assert f"Boxes to find East wall: {sentence}" in words(client.get(f"{BASE}/today"))
    assert headings(client.get(f"{E}/before-cover"))[0] == "Closed, but not in order"
    assert "Open: 4. After closing: 3. In the table: 4 boxes." in words(client.get(E))


def test_it_is_gone_once_the_box_is_found(client, wall):
    saved(client.post(f"{E}/boxes", data={"after": "3"}))
    assert "Boxes to find" in words(client.get(f"{BASE}/today"))
    assert "write why" in field_errors(client.post(f"{E}/boxes", data={"after": "4"}))["why"]
    saved(client.post(f"{E}/boxes", data={"after": "4", "why": "The light was behind the board"}))
    assert "Boxes to find" not in words(client.get(f"{BASE}/today"))
    assert "All 4 found when counted again." in words(client.get(E))


def test_or_once_it_is_explained(client, wall):
    saved(client.post(f"{E}/boxes", data={"after": "3"}))
    question = next(href for label, href in links(client.get(f"{BASE}/today")).items() if "3 found" in label)
    saved(client.post(f"{question}/settle", data={"answer": "The drop has no box, only a ring", "on": "today"}))
    assert "Boxes to find" not in words(client.get(f"{BASE}/today"))
    assert "The drop has no box, only a ring" in words(client.get(E))


def test_counting_the_same_again_asks_no_second_time(client, wall):
    saved(client.post(f"{E}/boxes", data={"found": ["1", "2"]}))
    saved(client.post(f"{E}/boxes", data={"found": ["1", "2"], "after": "2"}))
    client.get(f"{BASE}/today")
    told = words(client.get(f"{BASE}/today"))
    assert told.count("2 found: look near") == 1, told


def test_fewer_than_are_ticked_is_questioned_at_the_field(client, wall):
    answer = client.post(f"{E}/boxes", data={"found": ["1", "2", "3"], "after": "2"})
    assert "3 are ticked as found below" in field_errors(answer)["after"]
    assert client.post(f"{E}/boxes", data={"found": "99"}).status_code == 422
