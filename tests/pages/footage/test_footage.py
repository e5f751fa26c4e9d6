"""F1: what is to be filmed, and where what was filmed lies."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, headings, links, soup, words

BASE = "/builds/bindery/footage"
SHOT = {"what": "East open, slow pan", "strength": "must", "once": "1"}


@pytest.fixture
def task(database, build):
    with database.writing() as session:
        return builders.a_task(session, builders.a_phase(session, build)).row_id


def test_an_empty_list_has_one_first_step(client):
    assert f"{BASE}/new" in links(client.get(BASE)).values()


def test_a_shot_stands_before_its_task_marked_must_and_once_only(client, task):
    assert client.post(BASE, data=SHOT | {"task": str(task)}).status_code == 303
    page = client.get(BASE)
    assert "Before: Hang the board" in headings(page)
    assert "East open, slow pan must, once only" in words(page)
    assert "1 shot owed, 1 of them must" in words(page)


def test_a_shot_without_words_is_drawn_again_with_what_was_chosen(client, task):
    answer = client.post(BASE, data=SHOT | {"what": "", "task": str(task), "note": "from the ladder"})
    assert answer.status_code == 422
    assert "Say what is to be seen" in field_errors(answer)["what"]
    assert soup(answer).select_one("#f-task option[selected]")["value"] == str(task)
    assert "from the ladder" in soup(answer).select_one("#f-note").text


def test_filmed_it_moves_to_the_table_with_its_files(client, task):
    client.post(BASE, data=SHOT)
    bad = client.post(f"{BASE}/1/filmed", data={"on": "tomorrow", "where": "card 6"})
    assert "still to come" in field_errors(bad)["on"]
    assert soup(bad).select_one("#f-where")["value"] == "card 6"
    assert client.post(f"{BASE}/1/filmed", data={"on": "9 May", "where": "card 6", "files": "B071"}).status_code == 303
    assert "East open, slow pan Sat 9 May B071 card 6" in words(client.get(BASE), "table")


def test_a_wish_is_skipped_with_a_reason_that_stands_there_for_ever(client):
    client.post(BASE, data=SHOT | {"strength": "wish"})
    assert "for ever" in field_errors(client.post(f"{BASE}/1/skip", data={"why": " "}))["why"]
    assert client.post(f"{BASE}/1/skip", data={"why": "no camera"}).status_code == 303
    assert "no camera" in words(client.get(BASE), "footer")


def test_a_must_is_led_to_before_cover_instead(client):
    client.post(BASE, data=SHOT)
    answer = client.post(f"{BASE}/1/skip", data={"why": "no camera"})
    assert answer.status_code == 422
    assert "under Before cover" in words(answer)


def test_a_change_keeps_the_words_before(client):
    client.post(BASE, data=SHOT)
    assert client.post(f"{BASE}/1/edit", data=SHOT | {"what": "East open, twice"}).status_code == 303
    assert "What: East open, slow pan, now East open, twice" in words(client.get(f"{BASE}/1"))
    assert client.post(f"{BASE}/1/edit", data=SHOT | {"what": ""}).status_code == 422


def test_a_lost_file_is_owed_again(client):
    client.post(BASE, data=SHOT)
    client.post(f"{BASE}/1/filmed", data={"on": "9 May"})
    assert client.post(f"{BASE}/1/owed", data={"why": ""}).status_code == 422
    assert client.post(f"{BASE}/1/owed", data={"why": "the card is broken"}).status_code == 303
    assert "1 shot owed" in words(client.get(BASE))


def test_only_the_last_filmed_ones_stand_on_the_first_sheet(client, database, build):
    with database.writing() as session:
        for number in range(40):
            filmed = {"state": "filmed", "filmed_on": date(2026, 4, 1)}
            builders.a_shot(session, build, what=f"Take {number}", **filmed)
    page = client.get(BASE)
    assert "last 30 of 40" in words(page)
    assert "Take 0" in words(client.get(links(page)["All that was filmed"]))


def test_fifty_shots_ask_no_more_than_five(client, database, build, task):
    def filled(rows: range) -> int:
        with database.writing() as session:
            for number in rows:
                shot = builders.a_shot(session, build, what=f"Take {number}")
                shot.task_id, shot.state = task, "filmed" if number % 2 else "owed"
        with queries(database, anew=True) as asked:
            assert client.get(BASE).status_code == 200
        return len(asked)

    assert filled(range(5)) == filled(range(5, 50))


@pytest.mark.parametrize("path", ["", "/1/edit", "/1/filmed", "/1/skip", "/1/owed"])
def test_a_stranger_films_nothing(stranger, database, build, path):
    with database.writing() as session:
        builders.a_shot(session, build)
    assert stranger.post(f"{BASE}{path}", data=SHOT | {"why": "x"}).status_code in {303, 401}


def test_a_shot_that_is_not_there_says_so(client):
    assert client.get(f"{BASE}/9").status_code == 404
    assert client.post(f"{BASE}/9/filmed", data={}).status_code == 404
