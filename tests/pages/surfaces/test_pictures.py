"""Pictures come in, get a place and a date, and are counted once."""

from datetime import UTC, datetime

import pytest
from PIL import Image

from tests import builders, pictures
from tests.reading import field_errors, headings, links, soup, words
from webapp.surfaces import store
from webapp.surfaces.models import PicturePlace
from webapp.surfaces.rules.owed import SlotState

BASE = "/builds/bindery/pictures"
DATED = pictures.a_jpeg(taken="2026:05:09 17:48:00")


@pytest.fixture
def east(database, build):
    with database.writing() as session:
        return builders.a_surface(session, build).row_id


@pytest.fixture
def slot(database, east):
    with database.writing() as session:
        return builders.a_slot(session, session.get_one(builders.Surface, east), 6, what="Drain and supply").row_id


def send(client, *bodies: bytes, names: tuple[str, ...] = (), **fields: object):
    names = names or tuple(f"{number}.jpg" for number in range(len(bodies)))
    files = [("pictures", (name, body)) for name, body in zip(names, bodies, strict=True)]
    return client.post(BASE, data=fields, files=files or [("nothing", ("", b""))])


def slots(database, build):
    with database.reading() as session:
        return store.list_slots(session, build.id)


def test_several_pictures_are_kept_and_the_next_ones_begin_at_the_same_surface(client, database, build, east):
    answer = send(client, DATED, pictures.a_png(), surface="E")
    assert (answer.status_code, answer.headers["location"]) == (303, f"{BASE}?surface=E")
    page = client.get(f"{BASE}?surface=E")
    assert "2 pictures, 1 of unknown date" in words(page)
    assert soup(page).select_one("#f-surface option[selected]")["value"] == "E"


def test_the_same_picture_twice_is_counted_once_and_said_to_be(client, east):
    send(client, DATED, surface="E")
    send(client, DATED, surface="E")
    page = words(client.get(BASE))
    assert "1 picture, 0 of unknown date" in page
    assert "was here already and is counted once" in page


def test_a_dated_picture_settles_what_was_owed(client, database, build, slot):
    answer = send(client, DATED, slot=str(slot))
    assert answer.headers["location"] == "/builds/bindery/surfaces/E#owed"
    assert slots(database, build)[0].settled


def test_an_undated_one_leads_to_its_date_and_settles_it_only_then(client, database, build, slot):
    answer = send(client, pictures.a_png(), slot=str(slot))
    assert answer.headers["location"] == f"{BASE}/1#date"
    assert slots(database, build)[0].state is SlotState.DATE_UNKNOWN
    page = client.get(f"{BASE}/1")
    assert "does not prove what was open when" in words(page)
    bad = client.post(f"{BASE}/1/date", data={"day": "30 February", "time": "25:00"})
    assert set(field_errors(bad)) == {"day", "time"}
    assert soup(bad).select_one("#f-time")["value"] == "25:00"
    assert client.post(f"{BASE}/1/date", data={"day": "9 May", "time": "17:48"}).status_code == 303
    assert slots(database, build)[0].settled
    page = words(client.get(f"{BASE}/1"))
    assert "9 May 2026, 17:48, as you said" in page
    assert "Taken was: unknown" in page


def test_a_date_after_its_arrival_is_refused_beside_the_field(client, east):
    send(client, pictures.a_png())
    answer = client.post(f"{BASE}/1/date", data={"day": "2199-01-01"})
    assert "it was not taken after that" in field_errors(answer)["day"]


def test_an_owed_picture_takes_one_picture_but_all_of_them_are_kept(client, database, build, slot):
    answer = send(client, DATED, pictures.a_png(), slot=str(slot))
    assert answer.status_code == 422
    assert "takes one picture" in field_errors(answer)["slot"]
    assert "2 pictures kept" in words(answer)
    assert slots(database, build)[0].state is SlotState.OWED
    assert "2 pictures, 1 of unknown date" in words(client.get(BASE))


def test_a_file_that_is_no_picture_is_named_and_the_others_are_kept(client, east):
    answer = send(client, DATED, b"%PDF-1.7", names=("a.jpg", "plan.pdf"), surface="E")
    assert answer.status_code == 422
    assert "“plan.pdf” is a PDF" in words(answer)
    assert "1 picture kept on E." in words(answer)
    assert "1 picture, 0 of unknown date" in words(answer)


def test_sending_nothing_says_so(client, east):
    answer = send(client, surface="E")
    assert answer.status_code == 422
    assert "Choose one picture" in words(answer)


def test_a_picture_larger_than_the_limit_is_named(client, east):
    answer = send(client, DATED + b"\0" * (31 * 1024 * 1024), names=("huge.jpg",))
    assert answer.status_code == 422
    assert "“huge.jpg” is larger than 30 MB" in words(answer)


def test_pictures_stand_by_day_by_surface_and_by_unknown_date(client, east):
    send(client, DATED, surface="E")
    send(client, pictures.a_png())
    by_day, by_surface, unknown = (client.get(f"{BASE}{query}") for query in ("", "?by=surface", "?by=unknown"))
    assert "9 May 2026" in words(by_day)
    assert "Not placed yet" in words(by_surface)
    assert "set it" in words(unknown)
    assert "9 May 2026 East wall" not in words(unknown)


def test_one_picture_shows_both_times_its_places_and_its_original(client, database, east):
    send(client, DATED, surface="E")
    answer = client.get(f"{BASE}/1")
    page = words(answer)
    assert "Taken 9 May 2026, 17:48, as the camera wrote Came" in page
    assert links(answer)["Download the original"] == f"/photos/{pictures.sha256(DATED)}/original"
    assert links(answer)["East wall"] == "/builds/bindery/surfaces/E"


def test_a_picture_gets_further_places_and_loses_a_slot_it_does_not_show(client, database, build, east, slot):
    with database.writing() as session:
        item = builders.an_item(session, session.get_one(builders.Surface, east)).row_id
    send(client, DATED)
    assert "Choose where" in field_errors(client.post(f"{BASE}/1/place", data={}))["surface"]
    assert client.post(f"{BASE}/1/place", data={"item": str(item), "slot": str(slot)}).status_code == 303
    page = words(client.get(f"{BASE}/1"))
    assert "East wall: Receptacle" in page
    assert "Fills E 6: Drain and supply" in page
    assert client.post(f"{BASE}/1/not-that", data={"slot": str(slot)}).status_code == 303
    assert slots(database, build)[0].state is SlotState.OWED
    assert client.post(f"{BASE}/1/not-that", data={"slot": "99"}).status_code == 404


def test_a_wrong_place_is_taken_back_and_stays_readable(client, database, build, east):
    send(client, DATED, surface="E")
    with database.reading() as session:
        [place] = store.list_places(session, build.row_id)
    assert client.post(f"{BASE}/1/not-there", data={"place": "99"}).status_code == 404
    assert client.post(f"{BASE}/1/not-there", data={"place": str(place.id)}).status_code == 303
    page = words(client.get(f"{BASE}/1"))
    assert "It has no place yet." in page and "Place was: East wall" in page
    with database.reading() as session:
        assert [one.surface_id for one in store.list_places(session, build.row_id)] == [None]


def test_what_it_still_fills_there_is_said(client, database, build, slot):
    send(client, DATED, surface="E", slot=str(slot))
    with database.reading() as session:
        [place] = store.list_places(session, build.row_id)
    answer = client.post(f"{BASE}/1/not-there", data={"place": str(place.id)})
    assert answer.status_code == 409 and "It fills the owed picture" in words(answer)


def test_the_words_of_a_picture_are_what_a_screen_reader_reads(client, app, east):
    send(client, DATED, surface="E")
    app.state.making.wait_idle()
    assert soup(client.get(f"{BASE}/1")).select_one("img")["alt"] == "East wall"
    assert client.post(f"{BASE}/1/caption", data={"caption": "Tape along the floor"}).status_code == 303
    assert soup(client.get(f"{BASE}/1")).select_one("img")["alt"] == "Tape along the floor"
    assert client.post(f"{BASE}/1/caption", data={"caption": "x" * 301}).status_code == 422


def test_a_damaged_picture_says_so_where_it_would_stand(client, app, east):
    whole = pictures.a_jpeg(Image.effect_noise((400, 300), 80).convert("RGB"))
    send(client, whole[: len(whole) // 2], surface="E")
    app.state.making.wait_idle()
    assert "Cannot be drawn" in words(client.get(f"{BASE}/1"))


def test_a_picture_of_another_build_is_not_here(client, database):
    with database.writing() as session:
        photo = builders.a_photo(session).row_id
    assert client.get(f"{BASE}/{photo}").status_code == 404


@pytest.mark.parametrize("path", ["", "/1/date", "/1/caption", "/1/place", "/1/not-that", "/1/not-there"])
def test_a_stranger_sends_nothing(stranger, client, database, east, path):
    send(client, DATED)
    answer = stranger.post(f"{BASE}{path}", files=[("pictures", ("a.jpg", pictures.a_png()))])
    assert answer.status_code in {303, 401}
    with database.reading() as session:
        assert len(store.list_places(session, 1)) == 1


def test_sixty_pictures_are_shown_at_once_the_last_taken_first(client, database, build, east):
    """One of unknown date stands where it came, among those taken about then."""
    came = datetime(2026, 4, 28, 20, tzinfo=UTC)
    with database.writing() as session:
        for number in range(71):
            taken = {} if number == 70 else {"taken_at": f"2026-04-{1 + number // 3:02}T09:00:00"}
            photo = builders.a_photo(session, made="ready", received_at=came, **taken)
            place = {"build_id": build.row_id, "photo_id": photo.row_id, "surface_id": east, "placed_at": came}
            session.add(PicturePlace(**place))
    first = client.get(BASE)
    assert "71 pictures, 1 of unknown date" in words(first)
    assert len(soup(first).select("main img")) == 60
    days = [heading for heading in headings(first) if "Apr" in heading]
    assert "Date unknown, came" in days[0], "it came on the 28th, the last was taken on the 24th"
    assert "24 Apr" in days[1]
    second = client.get(links(first)["Older ones"])
    assert len(soup(second).select("main img")) == 11
    assert "1 Apr" in [heading for heading in headings(second) if "Apr" in heading][-1]
    assert len(soup(client.get(f"{BASE}?by=unknown")).select("main img")) == 1
