"""W6: a test is put on and taken off on the phone, with the hour, the reading and the picture of the gauge."""

import io
from datetime import date, timedelta

import pytest

from tests import builders, pictures
from tests.counting import queries
from tests.reading import field_errors, links, words
from webapp.core import clock
from webapp.surfaces.store import list_slots

BASE = "/builds/bindery"
TESTS = f"{BASE}/tests"
BEGUN = {
    "kind": "water pressure",
    "what": "hot supply",
    "day": "2026-05-16",
    "start_time": "19:05",
    "start_reading": "92 psi",
    "offer": "supply-water",
}
ENDED = {"end_day": "2026-05-16", "end_time": "19:35", "end_reading": "91 psi", "outcome": "held"}


@pytest.fixture
def west(database, build) -> dict[str, int]:
    """A wall with a hot line on it, of which a picture of the test is owed."""
    with database.writing() as session:
        wall = builders.a_surface(session, build, "W", "West wall")
        line = builders.a_line(session, build, "HW", name="Hot water", kind="water", service="water")
        builders.an_item(session, wall, "Hot stub", service="water", line_id=line.row_id)
        builders.a_slot(session, wall, 1, what="Gauge of the water test", made_from="test:water")
        return {"line": line.row_id, "wall": wall.row_id}


def put_on(client, files=None, **more) -> str:
    answer = client.post(TESTS, data=BEGUN | more, files=files)
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def taken_off(client, path, files=None, **more):
    answer = client.post(f"{path}/end", data=ENDED | more, files=files)
    assert answer.status_code == 303, answer.text


def a_gauge() -> dict:
    return {"start_photo": ("g.jpg", io.BytesIO(pictures.a_jpeg(taken="2026:05:16 19:05:00")), "image/jpeg")}


def test_a_test_that_is_on_is_shown_today(client, west):
    path = put_on(client, line=west["line"])
    assert "Test on since 19:05" in words(client.get(f"{BASE}/today"))
    assert "HW hot supply, 92 psi" in words(client.get(f"{BASE}/today"))
    taken_off(client, path)
    assert "Test on since" not in words(client.get(f"{BASE}/today"))


def test_one_from_yesterday_says_the_day(client, app, west):
    put_on(client, line=west["line"])
    app.dependency_overrides[clock.today] = lambda: date(2026, 5, 16) + timedelta(days=1)
    assert "Test on since Sat 16 May, 19:05" in words(client.get(f"{BASE}/today"))


def test_the_needle_is_told_and_nothing_is_judged(client, west):
    path = put_on(client, line=west["line"])
    taken_off(client, path)
    page = words(client.get(path))
    assert "From 92 psi to 91 psi , 19:05 to 19:35, 30 min" in page
    assert "Asked for: working pressure or more, 15 min. From: IRC P2503.7." in page
    assert "92 psi at 19:05, about 634 kPa, 6.3 bar" in page
    assert "your local authority decides" in page
    assert "passed" not in page.lower()


def test_it_runs_over_midnight(client, app, west):
    path = put_on(client, start_time="22:00", start_reading="to the brim")
    app.dependency_overrides[clock.today] = lambda: date(2026, 5, 17)
    taken_off(client, path, end_day="2026-05-17", end_time="6:30 am", end_reading="to the brim")
    assert "22:00 to 06:30 on Sun 17 May, 8 h 30 min" in words(client.get(path))


def test_an_end_before_the_beginning_is_asked_about_and_what_was_typed_stays(client, west):
    path = put_on(client, start_time="19:05")
    answer = client.post(f"{path}/end", data=ENDED | {"end_time": "06:30"})
    assert answer.status_code == 422
    assert "It began at 19:05 that day. Was it the day after?" in field_errors(answer)["end_time"]
    assert 'value="06:30"' in answer.text and 'value="91 psi"' in answer.text


def test_bad_words_get_a_sentence_each(client):
    answer = client.post(TESTS, data={"kind": "by ear", "day": "2031-01-01", "start_time": "26:00"})
    assert answer.status_code == 422
    told = field_errors(answer)
    assert {"what", "day", "start_time", "start_reading"} <= set(told)


def test_the_gauge_fills_the_picture_that_is_owed_of_the_test(client, database, build, west):
    put_on(client, a_gauge(), line=west["line"])
    with database.reading() as session:
        (slot,) = list_slots(session, build.row_id)
    assert slot.settled


def test_it_is_shown_at_its_line_and_on_its_surface(client, west):
    path = put_on(client, line=west["line"])
    assert f"{TESTS}/of/line/HW" in links(client.get(f"{BASE}/services/HW"), "#tests").values()
    assert path in links(client.get(f"{TESTS}/of/line/HW")).values()
    assert path in links(client.get(f"{TESTS}/of/surface/W")).values()
    assert client.get(f"{TESTS}/of/door/W").status_code == 404


def test_put_right_keeps_what_stood_there(client, west):
    path = put_on(client, line=west["line"])
    taken_off(client, path)
    sent = BEGUN | ENDED | {"line": west["line"], "end_reading": "90 psi", "why": "read it wrong", "offer": ""}
    sent |= {"wanted": "working pressure or more, 15 min", "wanted_source": "IRC P2503.7"}
    assert "why" in field_errors(client.post(f"{path}/right", data=sent | {"why": ""}))
    assert client.post(f"{path}/right", data=sent).status_code == 303
    page = words(client.get(path))
    assert "Reading at the end: 91 psi, now 90 psi" in page
    assert "read it wrong" in page
    assert page.count(", now ") == 1


def test_done_again_or_taken_back_it_stays_readable(client, west):
    first = put_on(client, line=west["line"])
    taken_off(client, first)
    second = put_on(client, line=west["line"], again=first.rpartition("/")[2])
    assert "It was done again since." in words(client.get(first))
    assert "why" in field_errors(client.post(f"{second}/back", data={"on": "2026-05-16"}))
    client.post(f"{second}/back", data={"on": "2026-05-16", "why": "wrong gauge"})
    assert "Taken back on 16 May 2026: wrong gauge." in words(client.get(second))
    assert "Test on since" not in words(client.get(f"{BASE}/today"))


def test_a_change_of_the_line_after_the_test_is_pointed_out(client, west):
    path = put_on(client, line=west["line"])
    taken_off(client, path)
    assert "was changed" not in words(client.get(path))
    line = {"code": "HW", "name": "Hot water, new way", "kind": "water", "service": "water", "poles": "1"}
    assert client.post(f"{BASE}/services/HW/edit", data=line).status_code == 303
    assert "after this test" in words(client.get(path))


def test_pressing_the_button_twice_puts_one_on(client):
    assert put_on(client, sent_id="once") == put_on(client, sent_id="once")
    assert words(client.get(TESTS)).count("Hot supply") == 1


def test_the_list_costs_the_same_for_five_and_for_fifty(client, database, west):
    counts = []
    for many in (5, 45):
        for _ in range(many):
            put_on(client, line=west["line"])
        with queries(database, anew=True) as asked:
            assert client.get(TESTS).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]


def test_the_house_file_says_what_was_read_and_leaves_out_what_was_taken_back(client, west):
    stays, wrong = put_on(client, line=west["line"]), put_on(client, what="cold supply")
    taken_off(client, stays)
    assert client.post(f"{wrong}/back", data={"on": "2026-05-16", "why": "the wrong line"}).status_code == 303
    told = words(client.get(f"{BASE}/house-file"))
    assert "From 92 psi to 91 psi. I saw: held." in told
    assert "No verdict." in told
    assert "old supply" not in told
