"""Shooting straight from the list: one picture after the other, the surface stays chosen, one may fill several."""

from datetime import date

import pytest

from tests import builders, pictures
from tests.builders import INCH
from tests.reading import field_errors, headings, links, soup, words
from webapp.surfaces import actions, store
from webapp.surfaces.rules.owed import SlotState

HERE = "/builds/bindery"
SHOOT = f"{HERE}/surfaces/E/shoot"
WHOLE = pictures.a_jpeg(taken="2026:05:16 17:48:00")
BOX = pictures.a_jpeg(pictures.corners_image(80, 60), taken="2026:05:16 17:49:00")
UNDATED = pictures.a_png()


@pytest.fixture
def wall(database, build):
    """An open wall with a box; three pictures are owed of it, the last a wish."""
    with database.writing() as session:
        surface = builders.a_surface(session, build, origin_corner="NE")
        box = builders.an_item(session, surface, "East receptacle", is_box=True, x_nm=58 * INCH, from_corner="NE")
        slots = [
            builders.a_slot(session, surface, 1, what="Whole wall"),
            builders.a_slot(session, surface, 2, what="Box open", item_id=box.row_id),
            builders.a_slot(session, surface, 3, what="Label", strength="wish", picture_set="after"),
        ]
        return [slot.row_id for slot in slots]


def send(client, slot: int, body: bytes, name: str = "a.jpg"):
    return client.post(SHOOT, data={"slot": str(slot)}, files=[("pictures", (name, body))])


def slots(database, build):
    with database.reading() as session:
        return {slot.number: slot for slot in store.list_slots(session, build.id)}


def test_the_first_owed_one_is_asked_for_with_where_its_thing_is(client, wall):
    page = client.get(SHOOT)
    assert headings(page)[0] == "Picture 1: Whole wall"
    assert "3 of 3 left" in words(page)
    page = client.get(f"{SHOOT}?slot={wall[1]}")
    assert headings(page)[0] == "Picture 2: E1 Box open"
    assert "4′ 10″ from NE, 1′ 4″ above the finished floor. Before insulation." in words(page)
    assert "This one is a wish" in words(client.get(f"{SHOOT}?slot={wall[2]}"))


def test_after_sending_the_next_one_of_the_same_surface_is_asked_for(client, database, build, wall):
    answer = send(client, wall[0], WHOLE)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{SHOOT}?after={wall[0]}")
    page = client.get(answer.headers["location"])
    assert headings(page)[0] == "Picture 2: E1 Box open"
    assert "Picture 1 of E is kept." in words(page)
    assert "2 of 3 left" in words(page)
    assert soup(page).select_one("#shoot [name=slot]")["value"] == str(wall[1])
    send(client, wall[1], BOX)
    last = client.get(send(client, wall[2], pictures.a_webp()).headers["location"])
    assert headings(last)[0] == "All are taken"
    assert [slot.state for slot in slots(database, build).values()][:2] == [SlotState.FILLED, SlotState.FILLED]


def test_skipping_about_comes_back_to_the_musts_before_the_wishes(client, wall):
    page = client.get(send(client, wall[1], BOX).headers["location"])
    assert headings(page)[0] == "Picture 1: Whole wall"


def test_a_picture_for_a_box_belongs_to_the_box(client, database, build, wall):
    send(client, wall[1], BOX)
    with database.reading() as session:
        assert [(place.item_id, place.stage) for place in store.list_places(session, build.id)] == [(1, "before")]


def test_nothing_or_no_picture_is_said_and_the_same_one_stays_asked_for(client, database, build, wall):
    for answer in (client.post(SHOOT, data={"slot": str(wall[1])}), send(client, wall[1], b"%PDF-1.7", "plan.pdf")):
        assert answer.status_code == 422
        assert headings(answer)[0] == "Not kept yet."
        assert "Picture 2: E1 Box open" in headings(answer)
    assert "“plan.pdf” is a PDF" in words(answer)
    assert slots(database, build)[2].state is SlotState.OWED


def test_a_slot_of_another_surface_or_none_is_not_here(client, database, build, wall):
    with database.writing() as session:
        other = builders.a_slot(session, builders.a_surface(session, build, "N", "North wall")).row_id
    assert send(client, other, WHOLE).status_code == 404
    assert client.post(SHOOT, data={"slot": "x"}).status_code == 404


def test_an_undated_one_is_dated_with_one_press_and_the_shooting_goes_on(client, database, build, wall):
    page = client.get(send(client, wall[0], UNDATED).headers["location"])
    assert "The picture for 1: Whole wall has no date, so it proves nothing yet." in words(page)
    said = soup(page).select_one("form[action$='/said']")
    data = {tag["name"]: tag["value"] for tag in said.select("input")}
    answer = client.post(said["action"], data=data)
    assert answer.headers["location"] == SHOOT
    slot = slots(database, build)[1]
    assert slot.state is SlotState.FILLED
    assert slot.by_my_word
    assert "the day by my word" in words(client.get(f"{HERE}/surfaces/E"))


def test_my_word_is_named_in_what_the_closing_rests_on(client, wall):
    send(client, wall[0], UNDATED)
    send(client, wall[1], BOX)
    client.post(f"{HERE}/pictures/1/said", data={"day": "9 May"})
    assert "Pictures 2 of 3 me; 1 dated by my word" in words(client.get(f"{HERE}/surfaces/E/before-cover"))
    assert "as you said" in words(client.get(f"{HERE}/pictures/1"))


def test_the_way_on_after_a_date_stays_in_this_build(client, wall):
    send(client, wall[0], UNDATED)
    answer = client.post(f"{HERE}/pictures/1/said", data={"day": "9 May", "on_to": "https://elsewhere.example/x"})
    assert answer.headers["location"] == f"{HERE}/pictures/1"
    assert "Write the day" in field_errors(client.post(f"{HERE}/pictures/1/said", data={}))["day"]


def test_after_the_board_no_day_is_offered_but_one_may_be_said(client, database, build, wall):
    with database.writing() as session:
        actions.mark_covered(session, 1, date(2026, 5, 1), "me", "board", [])
    send(client, wall[0], UNDATED)
    page = client.get(f"{HERE}/pictures/1")
    assert soup(page).select_one("form[action$='/said'] button") is None
    assert "Closed Fri 1 May." in words(page)
    client.post(f"{HERE}/pictures/1/said", data={"day": "2 May"})
    assert slots(database, build)[1].state is SlotState.TAKEN_TOO_LATE
    client.post(f"{HERE}/pictures/1/said", data={"day": "30 April"})
    assert slots(database, build)[1].state is SlotState.FILLED


def test_one_picture_fills_several_and_belongs_to_things(client, database, build, wall):
    page = client.get(send(client, wall[0], WHOLE).headers["location"])
    shows = soup(page).select_one("form[action$='/shows']")
    assert [tag["value"] for tag in shows.select("[name=slot]")] == [str(wall[1]), str(wall[2])]
    assert [tag["value"] for tag in shows.select("[name=item]")] == ["1"]
    data = {"slot": [str(wall[1]), str(wall[2])], "item": ["1"], "on_to": SHOOT}
    answer = client.post(shows["action"], data=data)
    assert answer.headers["location"] == SHOOT
    assert {slot.photo_id for slot in slots(database, build).values()} == {1}
    assert client.post(shows["action"], data={}).status_code == 422
    assert client.post(shows["action"], data={"slot": "99"}).status_code == 422
    page = words(client.get(f"{HERE}/pictures/1"))
    assert "East wall: East receptacle" in page
    assert "Fills E 3: Label" in page


def test_a_picture_taken_out_of_a_slot_leaves_that_readable(client, database, build, wall):
    send(client, wall[0], WHOLE)
    send(client, wall[1], BOX)
    assert client.post(f"{HERE}/pictures/2/not-that", data={"slot": str(wall[0])}).status_code == 404
    client.post(f"{HERE}/pictures/1/not-that", data={"slot": str(wall[0])})
    assert slots(database, build)[1].state is SlotState.OWED
    assert "Filled E 1: Whole wall, until" in words(client.get(f"{HERE}/pictures/1"))


def test_the_camera_stands_beside_each_owed_picture_wherever_they_are_listed(client, wall):
    for path in (f"{HERE}/surfaces/E", f"{HERE}/surfaces/E/before-cover", f"{HERE}/pictures?surface=E"):
        page = soup(client.get(path))
        forms = page.select("form[data-behaviour=shoot]")
        assert [form.select_one("[name=slot]")["value"] for form in forms] == [str(slot) for slot in wall], path
        assert {form["action"] for form in forms} == {SHOOT}
        assert all(form.select_one("input[type=file]")["capture"] == "environment" for form in forms)
    assert links(client.get(f"{HERE}/surfaces/E"))["Picture 1"] == f"{SHOOT}?slot={wall[0]}"


@pytest.mark.parametrize("path", ["surfaces/E/shoot", "pictures/1/said", "pictures/1/shows"])
def test_a_stranger_sends_nothing(stranger, client, database, build, wall, path):
    send(client, wall[0], UNDATED)
    data = {"slot": str(wall[1]), "day": "9 May"}
    answer = stranger.post(f"{HERE}/{path}", data=data, files=[("pictures", ("a.jpg", WHOLE))])
    assert answer.status_code in {303, 401}
    assert slots(database, build)[1].state is SlotState.DATE_UNKNOWN
    assert slots(database, build)[2].state is SlotState.OWED
