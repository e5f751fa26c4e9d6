"""Pages are drawn once and kept until the next commit; nobody is ever shown an old one, nor somebody else's.

The handling of `If-None-Match` follows RFC 9110, 13.1.2 and 15.4.5.
"""

import gzip
import re
from datetime import timedelta

import pytest

from tests import builders
from tests.conftest import SATURDAY
from tests.counting import queries
from tests.reading import headings, words
from webapp.core import clock, memory, rendering

TODAY = "/builds/bindery/today"
PHASES = "/builds/bindery/phases"
OWN_ID = re.compile(r'name="sent_id" value="([0-9a-f]+)"')
PART = {"HX-Request": "true", "HX-Request-Type": "partial"}
KEPT = (
    "today",
    "what-stops",
    "before-cover",
    "surfaces/E1/before-cover",
    "phases",
    "phases/1",
    "tasks/1",
    "tasks/1/stops",
    "surfaces",
    "surfaces/E1",
    "pictures",
    "inspections",
    "inspections/FRM",
    "permits",
    "workdays",
    "workdays/log",
    "spend",
    "footage",
    "episodes",
)


@pytest.fixture
def site(database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, title="Board")
        builders.a_task(session, phase)
        surface = builders.a_surface(session, build, code="E1")
        builders.an_inspection(session, builders.a_permit(session, build), surfaces=(surface,), code="FRM")


@pytest.mark.parametrize("page", KEPT)
def test_a_page_asks_the_record_once_and_is_the_same_the_second_time(client, database, site, page):
    first = client.get(f"/builds/bindery/{page}")
    with queries(database) as asked:
        second = client.get(f"/builds/bindery/{page}")
    assert first.status_code == second.status_code == 200
    assert asked == []
    assert OWN_ID.sub("", second.text) == OWN_ID.sub("", first.text)
    assert second.headers.get("etag") == first.headers.get("etag")
    assert second.headers["cache-control"] == "private, no-cache"


@pytest.mark.parametrize("page", ["workdays/log", "spend"])
def test_a_form_saved_once_has_a_new_id_each_time_and_is_never_said_to_be_the_one_before(client, site, page):
    answers = [client.get(f"/builds/bindery/{page}") for _ in range(3)]
    ids = [found for answer in answers for found in OWN_ID.findall(answer.text)]
    assert len(set(ids)) == len(ids) >= 3
    assert not [answer for answer in answers if "etag" in answer.headers or "<once>" in answer.text]
    typed = client.post("/builds/bindery/spend", data={"what": "<once>", "total": "much"}).text
    assert "&lt;once&gt;" in typed


def test_a_write_shows_at_once(client, site):
    assert "Paint" not in words(client.get(PHASES))
    client.post(PHASES, data={"title": "Paint", "purpose": ""})
    client.cookies.delete(rendering.SAID_COOKIE)
    assert "Paint" in words(client.get(PHASES))


def test_what_another_thread_commits_beside_the_pages_shows(client, database, build, site):
    client.get(PHASES)
    with database.writing() as session:
        builders.a_phase(session, build, title="Paint", position=2)
    assert "Paint" in words(client.get(PHASES))


def test_a_save_that_fails_leaves_the_kept_page_true(client, database, build, site):
    client.get(PHASES)
    with pytest.raises(RuntimeError), database.writing() as session:
        builders.a_phase(session, build, title="Paint", position=2)
        raise RuntimeError
    assert "Paint" not in words(client.get(PHASES))


def test_each_look_and_each_day_has_its_own(client, app, site):
    plain = client.get(TODAY)
    client.cookies.set(rendering.LOOK_COOKIE, "sun")
    assert client.get(TODAY).text != plain.text
    client.cookies.delete(rendering.LOOK_COOKIE)
    app.dependency_overrides[clock.today] = lambda: SATURDAY + timedelta(days=1)
    sunday = client.get(TODAY)
    assert sunday.headers["etag"] != plain.headers["etag"]
    assert "17 May" in words(sunday)
    assert "17 May" not in words(plain)


def test_what_is_asked_in_the_address_is_told_apart(client, site):
    assert words(client.get(f"{TODAY}?time=30")) != words(client.get(f"{TODAY}?time=240"))


def test_a_part_never_gets_the_whole_page_nor_the_page_a_part(client, site):
    whole, part = client.get(PHASES), client.get(PHASES, headers=PART)
    assert "<html" in whole.text
    assert "<html" not in part.text
    assert OWN_ID.sub("", client.get(PHASES).text) == OWN_ID.sub("", whole.text)
    assert client.get(PHASES, headers=PART).text == part.text
    assert "HX-Request" in part.headers["vary"]


def test_a_stranger_never_gets_a_kept_page(client, stranger, database, site):
    etag = client.get(TODAY).headers["etag"]
    answer = stranger.get(TODAY, headers={"If-None-Match": etag})
    assert answer.status_code == 303
    assert answer.headers["location"].startswith("/sign-in")
    client.post("/sign-out")
    assert client.get(TODAY, headers={"If-None-Match": etag}).status_code == 303


def test_a_page_with_forms_is_packed_once_too_and_its_ids_are_put_in_as_it_is_sent(client, site):
    packed = []
    for _ in range(2):
        with client.stream("GET", "/builds/bindery/spend", headers={"Accept-Encoding": "gzip"}) as answer:
            packed.append(gzip.decompress(b"".join(answer.iter_raw())).decode())
    plain = client.get("/builds/bindery/spend", headers={"Accept-Encoding": "identity"})
    assert answer.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    first, second, third = (OWN_ID.sub("", text) for text in (*packed, plain.text))
    assert first == second == third
    assert len({found for text in (*packed, plain.text) for found in OWN_ID.findall(text)}) >= 3


def test_what_is_said_once_is_said_once(client, site):
    client.get(PHASES)
    client.post(PHASES, data={"title": "Paint", "purpose": ""})
    first, second = client.get(PHASES), client.get(PHASES)
    assert "is the last phase now" in words(first)
    assert "etag" not in first.headers
    assert "is the last phase now" not in words(second)


def test_who_has_the_page_already_is_told_so_until_something_changes(client, database, build, site):
    etag = client.get(TODAY).headers["etag"]
    again = client.get(TODAY, headers={"If-None-Match": f'"other", {etag}'})
    assert (again.status_code, again.content, again.headers["etag"]) == (304, b"", etag)
    assert client.get(TODAY, headers={"If-None-Match": '"other"'}).status_code == 200
    with database.writing() as session:
        builders.a_phase(session, build, title="Paint", position=2)
    assert client.get(PHASES, headers={"If-None-Match": etag}).status_code == 200


def test_a_page_is_packed_once_and_only_for_who_takes_it_packed(client, site):
    with client.stream("GET", TODAY, headers={"Accept-Encoding": "gzip"}) as answer:
        packed = b"".join(answer.iter_raw())
    plain = client.get(TODAY, headers={"Accept-Encoding": "identity"})
    assert answer.headers["content-encoding"] == "gzip"
    assert "content-encoding" not in plain.headers
    assert gzip.decompress(packed) == plain.content
    assert "Accept-Encoding" in plain.headers["vary"]


def test_a_page_too_large_is_shown_and_not_kept(client, database, site, monkeypatch):
    monkeypatch.setattr(rendering, "LARGEST_KEPT", 100)
    assert headings(client.get(PHASES)) == headings(client.get(PHASES))
    with queries(database) as asked:
        client.get(PHASES)
    assert asked


def test_no_more_is_kept_than_there_is_room_for(client, app, site, monkeypatch):
    monkeypatch.setattr(memory, "KEPT_AT_MOST", 10)
    for number in range(30):
        client.get(f"{TODAY}?time={number + 1}")
        client.get(f"/builds/bindery/tasks/{1000 + number}")
    assert len(app.state.database.memory._kept) == 10
    assert len(app.state.database.memory._working) <= 10, "a page that is not there leaves nothing behind"
