"""Several pictures at once: the clock shifted and back, before or after insulation, placed; and what follows."""

from datetime import date

import pytest

from tests import builders, pictures
from tests.counting import queries
from tests.reading import field_errors, headings, links, soup, words
from webapp.photos.store import list_changes, list_photos
from webapp.surfaces import actions, store
from webapp.surfaces.rules.owed import SlotState

BASE = "/builds/bindery"
SET = f"{BASE}/pictures/set"


def a_shot(number: int, taken: str = "") -> bytes:
    """Each its own bytes; on 9 May at 17:4x unless said otherwise, or of unknown time for "no"."""
    taken = taken or f"2026:05:09 17:4{number}:30"
    image = pictures.corners_image(90 + 6 * number, 60)
    return pictures.a_png(image) if taken == "no" else pictures.a_jpeg(image, taken=taken)


@pytest.fixture
def wall(database, build):
    with database.writing() as session:
        east = builders.a_surface(session, build)
        builders.a_surface(session, build, "N", "North wall", facing="N", position=2)
        return east.row_id


@pytest.fixture
def three(client, wall):
    """Two with a time of their own, one without; all came at once, placed on the east wall."""
    files = [("pictures", (f"{n}.jpg", a_shot(n, "no" if n == 3 else ""))) for n in (1, 2, 3)]
    assert client.post(f"{BASE}/pictures", data={"surface": "E"}, files=files).status_code == 303
    return [1, 2, 3]


def do(client, what: str, photos: list[int], **fields: object):
    ids = [str(one) for one in photos]
    data = {"do": what, "photo": ids, "came": ".".join(ids), "way": "later"} | fields
    return client.post(SET, data=data)


def times(database) -> dict[int, tuple[str | None, str]]:
    with database.reading() as session:
        return {one.id: (one.taken_at, one.taken_from) for one in list_photos(session, range(1, 9))}


def taken_back(client, answer):
    page = soup(client.get(answer.headers["location"]))
    form = page.select_one("form[action$='/set/back']")
    return client.post(form["action"], data={tag["name"]: tag["value"] for tag in form.select("input")})


def test_the_list_offers_a_day_those_that_came_together_and_ticked_ones(client, three):
    page = client.get(f"{BASE}/pictures")
    assert links(page)["All 2 together"] == f"{SET}?day=2026-05-09"
    assert [tag["value"] for tag in soup(page).select("#ticked [name=photo]")] == ["3", "2", "1"]
    assert soup(page).select_one("#ticked")["method"] == "get"
    assert headings(client.get(f"{SET}?day=2026-05-09"))[0] == "2 pictures together"
    assert headings(client.get(links(client.get(f"{BASE}/pictures/1"))["All that came together"]))[0].startswith("3 ")
    further = links(client.get(f"{SET}?photo=1&photo=2"))
    assert further["All that came together: 3"] == f"{SET}?came_with=1"
    assert "All of 9 May: 2" in links(client.get(f"{SET}?photo=1"))
    assert "No picture is meant" in words(client.get(f"{SET}?day=31&came=x"))


def test_an_hour_off_is_put_right_for_all_and_what_has_no_time_stays_without(client, three, database):
    answer = do(client, "shift", three, hours="1")
    assert answer.status_code == 303
    assert times(database) == {
        1: ("2026-05-09T18:41:30", "owner"),
        2: ("2026-05-09T18:42:30", "owner"),
        3: (None, "unknown"),
    }
    page = words(client.get(answer.headers["location"]))
    assert "2 shifted, 1 h later, 1 has no time of its own." in page
    assert "Taken was: 2026-05-09T17:41:30 (camera)" in words(client.get(f"{BASE}/pictures/1"))


def test_a_shift_is_taken_back_as_one_and_the_camera_s_own_word_is_there_again(client, three, database):
    before = times(database)
    answer = do(client, "shift", three, way="earlier", days="1", minutes="30")
    assert times(database)[1] == ("2026-05-08T17:11:30", "owner")
    back = taken_back(client, answer)
    assert times(database) == before
    assert "2 pictures as before." in words(client.get(back.headers["location"]))
    with database.reading() as session:
        assert len(list_changes(session, 1)) == 2, "both are in its history"


def test_the_way_back_is_in_the_history_of_each_picture_later_too(client, three, database):
    do(client, "shift", three, hours="1")
    page = client.get(f"{BASE}/pictures/2")
    (way,) = [href for said, href in links(page).items() if said.startswith("Taken was")]
    shown = client.get(way)
    assert "2 pictures shifted in one go" in words(shown)


def test_what_was_said_anew_since_is_left_when_the_shift_is_taken_back(client, three, database):
    answer = do(client, "shift", three, hours="1")
    client.post(f"{BASE}/pictures/1/date", data={"day": "7 May"})
    back = taken_back(client, answer)
    assert times(database)[1] == ("2026-05-07T00:00:00", "owner")
    assert times(database)[2] == ("2026-05-09T17:42:30", "camera")
    assert "1 picture as before. 1 had another time said since and stayed." in words(
        client.get(back.headers["location"])
    )


def test_one_picture_tells_when_it_was_really_taken_and_the_others_follow(client, three, database):
    do(client, "shift", three, anchor="2", real_day="10 May", real_time="18:12")
    assert times(database)[1] == ("2026-05-10T18:11:30", "owner")
    assert times(database)[2] == ("2026-05-10T18:12:30", "owner")


def test_only_those_that_are_ticked_are_shifted(client, three, database):
    client.post(SET, data={"do": "shift", "photo": "2", "came": "1.2.3", "way": "later", "days": "1"})
    assert times(database)[1] == ("2026-05-09T17:41:30", "camera")
    assert times(database)[2][0] == "2026-05-10T17:42:30"


def test_what_is_mistyped_is_said_beside_its_field_and_stays(client, three, database):
    before = times(database)
    bad = do(client, "shift", three, hours="one", minutes="-5")
    assert set(field_errors(bad)) == {"hours", "minutes"}
    assert soup(bad).select_one("#f-hours")["value"] == "one"
    assert len(soup(bad).select("[name=photo][checked]")) == 3
    assert "By how much?" in field_errors(do(client, "shift", three))["days"]
    assert "On which day" in field_errors(do(client, "shift", three, anchor="1"))["real_day"]
    assert "time of its own" in field_errors(do(client, "shift", three, anchor="3", real_day="9 May"))["anchor"]
    both = do(client, "shift", three, hours="1", anchor="1", real_day="9 May", real_time="18:00")
    assert "Say one of both" in field_errors(both)["days"]
    nothing = do(client, "shift", three, anchor="1", real_day="9 May", real_time="17:41")
    assert "shifts nothing" in field_errors(nothing)["real_day"]
    assert "out of the calendar" in field_errors(do_far(client, database))["days"]
    ticks = client.post(SET, data={"do": "shift", "came": "1.2.3", "hours": "1", "way": "later"})
    assert ticks.status_code == 422
    assert "Tick the pictures" in words(ticks)
    assert {one: times(database)[one] for one in three} == before


def do_far(client, database):
    """A picture whose camera began to count in the year 1."""
    with database.writing() as session:
        far = builders.a_photo(session, taken_at="0001-01-02T00:00:00").row_id
        actions.place_picture(session, 1, far, 1)
    return do(client, "shift", [far], way="earlier", days="9")


def test_a_time_after_the_picture_came_is_refused_and_one_before_the_build_is_asked_about(client, three, database):
    with database.writing() as session:
        phase = builders.a_phase(session, session.get_one(builders.Build, 1))
        builders.a_task(session, phase, started_on=date(2026, 5, 1))
    late = do(client, "shift", three, days="3660")
    assert "2 pictures of them would then be taken after coming here" in field_errors(late)["days"]
    early = do(client, "shift", three, way="earlier", days="10")
    assert "of 29 April 2026, before anything of this build (1 May 2026)" in field_errors(early)["days"]
    assert soup(early).select_one("[name=sure]") is not None
    assert do(client, "shift", three, way="earlier", days="10", sure="yes").status_code == 303
    assert times(database)[1][0] == "2026-04-29T17:41:30"


def test_sure_does_not_help_a_time_that_cannot_be(client, three, database):
    assert do(client, "shift", three, days="3660", sure="yes").status_code == 422


def test_a_day_by_my_word_moves_by_whole_days_alone_and_is_said(client, three, database):
    client.post(f"{BASE}/pictures/3/date", data={"day": "8 May"})
    answer = do(client, "shift", three, hours="1")
    assert "2 shifted, 1 h later, 1 has only a day, which no hour moves." in words(
        client.get(answer.headers["location"])
    )
    do(client, "shift", [3], days="1")
    assert times(database)[3] == ("2026-05-09T00:00:00", "owner")


def test_what_was_taken_behind_the_board_proves_nothing_and_the_closing_says_so(client, three, database, build):
    """Closed on 9 May; the camera was two days early, so the pictures are of the board."""
    with database.writing() as session:
        slot = builders.a_slot(session, session.get_one(builders.Surface, 1), 4, what="Whole wall").row_id
        actions.fill_slot(session, slot, 1)
        actions.mark_covered(session, 1, date(2026, 5, 9), "me", "board", [])
    answer = do(client, "shift", three, days="2")
    with database.reading() as session:
        assert store.list_slots(session, build.id)[0].state is SlotState.TAKEN_TOO_LATE
    page = client.get(answer.headers["location"])
    assert "1 owed picture (number 4) proves nothing now." in words(page)
    assert "taken after the surface was closed" in words(client.get(f"{BASE}/surfaces/E"))
    back = taken_back(client, answer)
    with database.reading() as session:
        assert store.list_slots(session, build.id)[0].state is SlotState.FILLED
    assert "1 owed picture (number 4) now proves what was open." in words(client.get(back.headers["location"]))


def test_a_picture_shifted_behind_a_covering_by_mistake_proves_nothing_either(client, three, database, build):
    with database.writing() as session:
        surface = session.get_one(builders.Surface, 1)
        slot = builders.a_slot(session, surface, 1, what="Whole wall").row_id
        actions.fill_slot(session, slot, 1)
        builders.a_slot(session, surface, 2, what="Each box")
        builders.looked_at(session, build, surface)
    covered = {"extent": "all of it", "on": "9 May", "how": "the board lay there", "hours": "2"}
    assert client.post(f"{BASE}/surfaces/E/covered-already", data=covered).status_code == 303
    with database.reading() as session:
        assert store.list_slots(session, build.id)[0].settled, "taken on the day itself, before the board"
    do(client, "shift", three, days="1")
    with database.reading() as session:
        assert not store.list_slots(session, build.id)[0].settled


def test_before_or_after_insulation_is_said_for_all(client, three, database):
    answer = do(client, "before", three)
    assert "3 pictures: before insulation." in words(client.get(answer.headers["location"]))
    with database.reading() as session:
        assert {one.stage for one in store.list_places(session, 1)} == {"before"}
    do(client, "general", [1])
    with database.reading() as session:
        assert sorted(one.stage for one in store.list_places(session, 1)) == ["before", "before", "general"]


def test_a_stage_is_not_said_where_there_is_no_surface_or_the_owed_picture_says_otherwise(client, three, database):
    with database.writing() as session:
        slot = builders.a_slot(session, session.get_one(builders.Surface, 1), 4, picture_set="after").row_id
        actions.fill_slot(session, slot, 2)
    client.post(f"{BASE}/pictures", files=[("pictures", ("4.jpg", a_shot(4)))])
    page = words(client.get(do(client, "before", [1, 2, 4]).headers["location"]))
    assert "1 picture: before insulation; 1 is of no surface yet; 1 fills an owed picture that says otherwise." in page


def test_all_are_placed_on_a_surface_which_stays_the_last_one(client, three, database):
    assert "Choose the surface" in field_errors(do(client, "place", three))["surface"]
    answer = do(client, "place", three, surface="N")
    assert "3 pictures placed on North wall." in words(client.get(answer.headers["location"]))
    with database.reading() as session:
        assert sum(one.surface_id == 2 for one in store.list_places(session, 1)) == 3
    page = soup(client.get(f"{BASE}/pictures"))
    assert page.select_one("#f-surface option[selected]")["value"] == "N"


def test_sent_twice_it_is_shifted_once(client, three, database):
    first, second = (do(client, "shift", three, hours="1", sent_id="one") for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    assert times(database)[1][0] == "2026-05-09T18:41:30"


def test_pictures_of_another_build_are_neither_shown_nor_shifted(client, three, database):
    with database.writing() as session:
        shed = builders.a_build(session, "Shed")
        other = builders.a_photo(session, taken_at="2026-05-09T10:00:00").row_id
        actions.place_picture(session, shed.row_id, other, None)
    assert len(soup(client.get(f"{SET}?photo={other}&photo=1")).select("[name=photo]")) == 1
    assert do(client, "shift", [other], hours="1").status_code == 422
    back = do(client, "shift", [1], hours="1").headers["location"].partition("back=")[2]
    assert client.post("/builds/shed/pictures/set/back", data={"back": back}).status_code == 404
    assert client.post(f"{SET}/back", data={"back": ""}).status_code == 404
    assert times(database)[other] == ("2026-05-09T10:00:00", "camera")


@pytest.mark.parametrize("path", ["", "/back"])
def test_a_stranger_shifts_nothing(stranger, client, three, database, path):
    answer = stranger.post(
        f"{SET}{path}", data={"do": "shift", "photo": "1", "came": "1", "way": "later", "hours": "1"}
    )
    assert answer.status_code in {303, 401}
    assert times(database)[1] == ("2026-05-09T17:41:30", "camera")


def test_five_and_fifty_pictures_cost_the_same_number_of_questions(client, wall, database):
    def asked(count: int) -> int:
        with database.writing() as session:
            for number in range(count):
                photo = builders.a_photo(session, taken_at=f"2026-05-09T10:{number:02}:00").row_id
                actions.place_picture(session, 1, photo, 1)
        with queries(database, anew=True) as sent:
            client.get(f"{SET}?day=2026-05-09")
        return len(sent)

    assert asked(5) == asked(45)
