"""Scenario "Same picture twice": from the phone, from the laptop under another name, and cropped."""

import io

import pytest
from PIL import Image

from tests import builders, pictures
from tests.eastwall import an_east_wall
from tests.reading import links, words
from tests.story.bindery import BASE, owed, saved
from webapp.surfaces import store

WALL = pictures.corners_image(400, 300)
A = pictures.a_jpeg(WALL, taken="2026:05:16 17:48:00")


def cropped() -> bytes:
    """As a phone crops: other bytes and measures, the time of the taking kept."""
    return pictures.a_jpeg(WALL.crop((40, 30, 360, 270)), taken="2026:05:16 17:48:00")


@pytest.fixture
def wall(database, build):
    """The wall with blocking in it, pictures 6 and 7 owed."""
    with database.writing() as session:
        made = an_east_wall(session, build)
        blocking = builders.an_item(session, made.surface, "Rail blocking", kind="blocking", service="framing")
        return {"slots": [slot.row_id for slot in made.slots], "blocking": blocking.row_id}


def send(client, name: str, body: bytes, **place: object):
    return saved(client.post(f"{BASE}/pictures", data=place, files=[("pictures", (name, body))]))


def test_it_exists_once_with_both_places_and_nothing_counts_twice(client, database, build, wall):
    send(client, "IMG_0001.jpg", A, slot=str(wall["slots"][5]))
    before = owed(client, "E")
    send(client, "blocking.jpg", A, surface="E", item=str(wall["blocking"]))
    page = client.get(f"{BASE}/pictures")
    assert "1 picture, 0 of unknown date" in words(page)
    assert "was here already and is counted once" in words(page)
    assert owed(client, "E") == before, "the cover check does not go up by the duplicate"
    with database.reading() as session:
        places = store.list_places(session, build.id)
        assert {place.photo_id for place in places} == {places[0].photo_id}
        assert {place.item_id for place in places} == {None, wall["blocking"]}
    shown = words(client.get(f"{BASE}/pictures/{places[0].photo_id}"))
    assert "East wall: Rail blocking" in shown
    assert "Fills E 6: drain and supply" in shown


def test_a_crop_is_kept_and_only_suggested_as_related(client, database, build, wall):
    send(client, "IMG_0001.jpg", A, slot=str(wall["slots"][5]))
    before = owed(client, "E")
    send(client, "IMG_0001-crop.jpg", cropped(), surface="E")
    with database.reading() as session:
        first, second = sorted({place.photo_id for place in store.list_places(session, build.id)})
        settled = [slot.number for slot in store.list_slots(session, build.id) if slot.settled]
    assert "2 pictures, 0 of unknown date" in words(client.get(f"{BASE}/pictures"))
    assert settled == [1, 2, 3, 4, 5, 6]
    assert owed(client, "E") == before
    for one, other in ((first, second), (second, first)):
        page = client.get(f"{BASE}/pictures/{one}")
        assert "Perhaps the same moment" in words(page)
        assert f"{BASE}/pictures/{other}" in links(page).values()


def test_pictures_of_other_moments_or_other_builds_are_not_suggested(client, database, build, wall):
    send(client, "a.jpg", A, surface="E")
    out = io.BytesIO()
    Image.new("RGB", (20, 20)).save(out, "PNG")
    send(client, "b.png", out.getvalue(), surface="E")
    with database.writing() as session:
        builders.a_photo(session, taken_at="2026-05-16T17:48:00")
        first = min(place.photo_id for place in store.list_places(session, build.id))
    assert "Perhaps the same moment" not in words(client.get(f"{BASE}/pictures/{first}"))
