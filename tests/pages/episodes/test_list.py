"""The series: the one in the making first, what each holds, beginning one."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, links, soup, words

PAGE = "/builds/bindery/episodes"


def test_an_empty_series_offers_to_begin_the_first_one(client):
    page = client.get(PAGE)
    assert "None is begun yet." in words(page)
    answer = client.post(PAGE, data={"from_day": "1 May 2026"})
    assert answer.headers["location"] == f"{PAGE}/1"
    assert client.get(f"{PAGE}/1").status_code == 200


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [
        ("", "Write the first day it tells of."),
        ("soonish", "Write a day such as 2026-05-16 or 16 May 2026."),
        ("2026-05-17", "This day lies ahead. An episode begins with something that happened."),
    ],
)
def test_a_first_day_that_cannot_be_is_said_beside_the_field(client, typed, sentence):
    answer = client.post(PAGE, data={"from_day": typed})
    assert answer.status_code == 422
    assert field_errors(answer)["from_day"].endswith(sentence)
    assert soup(answer).select_one("#f-from_day")["value"] == typed


def test_a_second_one_in_the_making_is_refused(client, database, build):
    with database.writing() as session:
        builders.an_episode(session, build)
    answer = client.post(PAGE, data={"from_day": "2026-05-16"})
    assert answer.status_code == 409
    assert "Episode 1 is in the making" in words(answer)


def test_the_one_in_the_making_stands_first_with_what_it_holds(client, database, build):
    with database.writing() as session:
        builders.an_episode(session, build, 1, state="published", to_day=date(2026, 5, 8), published_at=builders.AT)
        builders.an_episode(session, build, 2, from_day=date(2026, 5, 9), title="South")
        builders.a_workday(session, build)
    page = client.get(PAGE)
    first, second = soup(page).select("main .rows > li")
    assert "South" in first.get_text() and "1 day, 5½ h" in first.get_text()
    assert "Published" in second.get_text() and "16 May 2026" in second.get_text()
    assert "In the making" in words(page) and soup(page).select("form[action$='/episodes']") == []


def test_the_line_for_viewers_can_be_written_once_something_is_public(client, stranger, database, build):
    assert client.post(f"{PAGE}/about", data={"about": "A garage"}).status_code == 404
    with database.writing() as session:
        builders.an_episode(session, build, title="South", body_md="It held.")
    client.post(f"{PAGE}/1/publish", data={"title": "South", "from_day": "2026-05-01", "text": "It held."})
    assert client.post(f"{PAGE}/about", data={"about": "A garage, bound"}).status_code == 303
    assert "A garage, bound" in words(stranger.get("/watch/bindery"))
    too_long = client.post(f"{PAGE}/about", data={"about": "x" * 201})
    assert too_long.status_code == 422 and "200 fit" in field_errors(too_long)["about"]
    assert "/watch/bindery" in links(client.get(PAGE)).values()


def test_a_stranger_can_neither_read_nor_begin(stranger, build):
    assert stranger.get(PAGE).status_code == 303
    for path in ("", "/about", "/1", "/1/take-over", "/1/publish", "/1/as-viewers", "/1/corrections", "/1/pictures/1"):
        assert stranger.post(f"{PAGE}{path}", data={}).status_code == 401, path


def test_fifty_episodes_take_as_many_queries_as_five(client, database, build):
    def counted() -> int:
        with queries(database, anew=True) as sent:
            assert client.get(PAGE).status_code == 200
        return len(sent)

    def add(numbers) -> None:
        with database.writing() as session:
            for number in numbers:
                builders.an_episode(session, build, number, state="published", to_day=date(2026, 5, 8))

    add(range(1, 6))
    few = counted()
    add(range(6, 51))
    assert counted() == few <= 8
