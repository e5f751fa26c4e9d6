"""The page of copies: make one, take one along, never anybody else's file."""

import io
import sqlite3
import zipfile
from contextlib import closing

import pytest

from tests.reading import links, soup, words


def test_before_the_first_copy_the_page_leads_to_it(client):
    answer = client.get("/copies")
    assert "There is no whole copy yet" in words(answer)
    assert words(answer, "button.main") == "Make a copy now"
    assert "Take a copy with you" not in links(answer)


def test_a_copy_is_made_and_can_be_taken_along(client):
    answer = client.post("/copies")
    assert (answer.status_code, answer.headers["location"]) == (303, "/copies")
    page = client.get("/copies")
    assert "The copy is made: 0 pictures" in words(page)
    assert "made just now" in words(page)
    taken = client.get(links(page)["Take a copy with you"])
    assert taken.headers["content-type"] == "application/zip"
    assert "attachment" in taken.headers["content-disposition"]
    assert zipfile.ZipFile(io.BytesIO(taken.content)).testzip() is None


def test_a_record_with_broken_links_gives_a_sentence_and_a_way_on(client, settings):
    with closing(sqlite3.connect(settings.database)) as connection, connection:
        connection.execute("INSERT INTO plan_phase (build_id, position, title, purpose) VALUES (99, 1, 'Board', '')")
    answer = client.post("/copies")
    assert answer.status_code == 422
    assert "points at a row of plan_build that is not there" in words(answer)
    assert links(answer)
    assert list(settings.backups.iterdir()) == []


@pytest.mark.parametrize("name", ["studbay-20260516T120000Z-whole.zip", "..%2Fstudbay.sqlite3", "studbay.sqlite3"])
def test_only_copies_are_handed_out(client, name):
    assert client.get(f"/copies/{name}").status_code == 404


def test_daily_copies_are_listed_apart(client, settings):
    settings.backups.mkdir()
    (settings.backups / "studbay-20260516T120000Z-daily.zip").write_bytes(b"x" * 84_000)
    (settings.backups / "holiday.zip").write_bytes(b"not ours")
    page = client.get("/copies")
    assert "84 kB" in words(page)
    assert "holiday" not in page.text
    assert [tag["href"] for tag in soup(page).select("a[download]")] == ["/copies/studbay-20260516T120000Z-daily.zip"]


def test_a_stranger_takes_nothing(client, stranger, settings):
    client.post("/copies")
    name = next(settings.backups.glob("*.zip")).name
    assert stranger.get("/copies").status_code == 303
    assert stranger.get(f"/copies/{name}").status_code == 303
    assert stranger.post("/copies").status_code == 401
    assert len(list(settings.backups.glob("*.zip"))) == 1
