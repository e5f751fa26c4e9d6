"""Shoot many: pictures first, all on the surface one stands at; what they show, and their day, can be said after."""

import pytest

from tests import builders, pictures
from tests.reading import headings, links, soup, words
from webapp.surfaces import store
from webapp.surfaces.rules.owed import SlotState

BASE = "/builds/bindery"
MANY = f"{BASE}/pictures/many"
DATED = pictures.a_jpeg(taken="2026:05:09 17:48:00")
UNDATED = pictures.a_png()


@pytest.fixture
def walls(database, build):
    with database.writing() as session:
        east = builders.a_surface(session, build)
        builders.a_surface(session, build, "N", "North wall", facing="N", position=2)
        builders.an_item(session, east, "Receptacle", is_box=True)
        return builders.a_slot(session, east, 1, what="Whole wall").row_id


def send(client, *bodies: bytes, **fields: object):
    files = [("pictures", (f"{number}.jpg", body)) for number, body in enumerate(bodies)]
    return client.post(f"{BASE}/pictures", data={"on_to": "many"} | fields, files=files or [("x", ("", b""))])


def chosen(answer, field: str = "#f-surface") -> str:
    option = soup(answer).select_one(f"{field} option[selected]")
    return option["value"] if option else ""


def test_one_tap_from_a_surface_and_its_pictures_will_be_of_it(client, walls):
    way = links(client.get(f"{BASE}/surfaces/E"))["Shoot many"]
    page = client.get(way)
    assert headings(page)[0] == "Shoot many: East wall"
    assert chosen(page) == "E"
    form = soup(page).select_one("#take")
    assert form["data-behaviour"] == "sender camera"
    assert len(form["action"]) and form.select_one("[name=sent_id]")["value"]
    assert [tag.get("capture") for tag in form.select("input[type=file]")] == ["environment", None]


def test_those_that_came_are_shown_with_the_time_of_the_file_or_plainly_without(client, walls, database):
    answer = send(client, DATED, UNDATED, surface="E")
    assert answer.headers["location"] == f"{MANY}?surface=E&came=1.2"
    page = client.get(answer.headers["location"])
    assert "2 pictures kept on E." in words(page)
    assert "Taken 9 May 2026, 17:48" in words(page)
    assert "date unknown: it proves nothing yet" in words(page)
    with database.reading() as session:
        assert {place.surface_id for place in store.list_places(session, 1)} == {1}


def test_what_one_shows_and_its_day_are_said_after_and_the_shooting_goes_on(client, walls, database, build):
    page = soup(client.get(send(client, UNDATED, surface="E").headers["location"]))
    shows, said = page.select_one("form[action$='/shows']"), page.select_one("form[action$='/said']")
    data = {tag["name"]: tag["value"] for tag in said.select("input")}
    here = f"{MANY}?surface=E&came=1"
    assert client.post(said["action"], data=data).headers["location"] == here
    answer = client.post(shows["action"], data={"slot": str(walls), "item": "1", "on_to": here})
    assert answer.headers["location"] == here
    with database.reading() as session:
        (slot,) = store.list_slots(session, build.id)
        assert slot.state is SlotState.FILLED
        assert {place.item_id for place in store.list_places(session, build.id)} == {None, 1}
    assert "fills E 1: Whole wall" in words(client.get(here))


def test_the_surface_stays_the_last_one_used_wherever_pictures_are_taken(client, walls):
    send(client, DATED, surface="N")
    for path in (MANY, f"{BASE}/pictures"):
        assert chosen(client.get(path)) == "N", path
    assert chosen(client.get(f"{BASE}/workdays/log")) == "2"
    assert chosen(client.get(f"{MANY}?surface=E")) == "E", "the one stood at goes first"
    client.post(f"{BASE}/workdays/log", data={"own": "1", "surface": "1"})
    assert chosen(client.get(MANY)) == "E"
    client.post(f"{BASE}/surfaces/E/shoot", data={"slot": str(walls)}, files=[("pictures", ("a.jpg", DATED))])
    assert chosen(client.get(f"{BASE}/pictures")) == "E"


def test_a_last_surface_of_another_build_is_none_here(client, walls, database):
    with database.writing() as session:
        other = builders.a_surface(session, builders.a_build(session, "Shed"), "E", "East of the shed").row_id
    client.cookies.set("studbay-surface", str(other))
    page = client.get(MANY)
    assert headings(page)[0] == "Shoot many"
    assert chosen(page) == ""


def test_the_same_form_sent_twice_is_kept_once_and_answers_the_same(client, walls):
    first, second = (send(client, DATED, surface="E", sent_id="one") for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    assert "1 picture, 0 of unknown date" in words(client.get(f"{BASE}/pictures"))


def test_what_is_no_picture_is_named_and_the_surface_stays(client, walls):
    answer = send(client, DATED, b"%PDF-1.7", surface="N")
    assert answer.status_code == 422
    assert headings(answer)[0] == "Shoot many: North wall"
    assert "“1.jpg” is a PDF" in words(answer)
    assert "1 picture kept on N." in words(answer)
    assert soup(answer).select("#came li")
    assert "Choose one picture" in words(send(client, surface="N"))


def test_pictures_of_another_build_in_the_address_are_not_shown(client, walls, database):
    with database.writing() as session:
        photo = builders.a_photo(session).row_id
    page = client.get(f"{MANY}?surface=E&came={photo}.x.99999999999999999999")
    assert not soup(page).select("#came")


@pytest.mark.parametrize("where", ["https://elsewhere.example/x", f"{MANY}?surface=E&came=1&x=//y", "//y"])
def test_the_way_on_stays_in_this_build(client, walls, where):
    send(client, UNDATED, surface="E")
    answer = client.post(f"{BASE}/pictures/1/said", data={"day": "9 May", "on_to": where})
    assert answer.headers["location"] == f"{BASE}/pictures/1"
