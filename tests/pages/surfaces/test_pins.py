"""A picture is pinned to the drawing of its surface, and shows there."""

import pytest

from tests import builders
from tests.builders import INCH
from tests.reading import field_errors, soup, words
from webapp.surfaces import store
from webapp.surfaces.models import PicturePlace

HERE = "/builds/bindery"


@pytest.fixture
def photo(database, build):
    """A picture of the box on E."""
    with database.writing() as session:
        surface = builders.a_surface(session, build, origin_corner="NE")
        builders.a_surface(session, build, "N", "North wall", position=2)
        box = builders.an_item(session, surface, "East receptacle", is_box=True, x_nm=58 * INCH)
        made = builders.a_photo(session, made="ready", taken_at="2026-05-09T17:48:00", caption="Box, tape beside")
        place = {"build_id": build.row_id, "photo_id": made.row_id, "placed_at": builders.AT}
        session.add(PicturePlace(surface_id=surface.row_id, item_id=box.row_id, **place))
        return made.row_id


def pin(client, photo: int, **sent: str):
    return client.post(f"{HERE}/pictures/{photo}/pin", data={"surface": "E"} | sent)


def places(database, build):
    with database.reading() as session:
        return [(place.x_nm, place.y_nm) for place in store.list_places(session, build.id)]


def test_a_pinned_picture_shows_on_the_drawing_with_a_number_and_in_words(client, database, build, photo):
    assert "Where they were taken" not in words(client.get(f"{HERE}/surfaces/E"))
    assert pin(client, photo, x="30 1/2", y="1' 4\"").status_code == 303
    assert places(database, build) == [(30 * INCH + INCH // 2, 16 * INCH)]
    page = client.get(f"{HERE}/surfaces/E")
    assert "1 Box, tape beside, 9 May 2026, 17:48 2′ 6½″ from NE, 1′ 4″ above the finished floor" in words(page)
    marks = soup(page).select("svg a.pin")
    assert {mark["href"] for mark in marks} == {f"{HERE}/pictures/{photo}"}
    assert len(marks) == 1
    assert marks[0]["aria-label"] == "Picture 1: Box, tape beside, 9 May 2026, 17:48"


def test_the_form_says_what_it_is_pinned_at_and_the_pin_comes_off(client, database, build, photo):
    assert soup(client.get(f"{HERE}/pictures/{photo}")).select_one("#pin [name=off]") is None
    pin(client, photo, x="30", y="16")
    form = soup(client.get(f"{HERE}/pictures/{photo}")).select_one("#pin")
    assert form.select_one("[name=x]")["value"] == "2' 6\""
    assert form.select_one("[name=off]") is not None
    assert pin(client, photo, off="1").status_code == 303
    assert places(database, build) == [(None, None)]


def test_with_one_press_it_is_pinned_at_the_thing_it_is_of(client, database, build, photo):
    page = soup(client.get(f"{HERE}/pictures/{photo}"))
    button = page.select_one("#pin button[name=item]")
    assert button.get_text() == "Pin it at E1 East receptacle"
    assert pin(client, photo, item=button["value"]).status_code == 303
    assert places(database, build) == [(58 * INCH, 16 * INCH)]


@pytest.mark.parametrize(
    ("sent", "field", "says"),
    [
        ({"x": "20 ft", "y": "1 ft"}, "x", "lies outside"),
        ({"x": "2 ft", "y": "-1"}, "y", "below zero"),
        ({"x": "", "y": "1"}, "x", "How far from the corner"),
        ({"x": "half way", "y": "1"}, "x", ""),
    ],
)
def test_a_place_off_the_surface_is_said_at_the_field_and_what_was_typed_stays(
    client, database, build, photo, sent, field, says
):
    answer = pin(client, photo, **sent)
    assert answer.status_code == 422
    assert says in field_errors(answer)[field]
    assert soup(answer).select_one(f"#pin [name={field}]")["value"] == sent[field]
    assert places(database, build) == [(None, None)]


def test_it_is_pinned_to_no_surface_it_is_not_of(client, photo):
    assert pin(client, photo, surface="N", x="1", y="1").status_code == 404
    assert pin(client, photo, surface="X", x="1", y="1").status_code == 404
    assert pin(client, photo, item="99").status_code == 404


def test_a_stranger_pins_nothing(stranger, database, build, photo):
    assert pin(stranger, photo, x="1", y="1").status_code in {303, 401}
    assert places(database, build) == [(None, None)]
