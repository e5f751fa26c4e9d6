"""All surfaces before cover; and how much of the record the sheets at the gate read."""

import pytest

from tests import builders
from tests.counting import queries
from tests.pages.readiness.conftest import E
from tests.reading import links, soup, words

W2 = "/builds/bindery/before-cover"


def test_the_nearest_to_closing_stands_first_and_closed_ones_apart(client, database, build, settled, change):
    with database.writing() as session:
        north = builders.a_surface(session, build, "N", "North wall", position=0)
        builders.looked_at(session, build, north)
        builders.a_slot(session, north)
    page = client.get(W2)
    names = [item.b.get_text() for item in soup(page).select(".rows > li")]
    assert names == ["East wall", "North wall"]
    assert "2 surfaces are open; one may be covered." in words(page)
    client.post(f"{E}/cover", data={"on": "today"})
    page = client.get(W2)
    assert "Closed 16 May 2026: nothing owed" in words(page)
    assert links(page)["North wall Do not cover: 1 hard stop"].endswith("/surfaces/N/before-cover")


def test_a_build_without_surfaces_leads_to_the_first(client):
    page = client.get(W2)
    assert "No surface is drawn yet." in words(page)


@pytest.mark.parametrize("path", [W2, f"{E}/before-cover", "/builds/bindery/what-stops", "/builds/bindery/today"])
def test_a_page_asks_little_of_the_record_once_it_was_looked_over(client, database, wall, path):
    with queries(database, anew=True) as first:
        assert client.get(path).status_code == 200
    with database.writing() as session:
        builders.a_task(session, wall.phase, "Sweep the floor", 77)
    with queries(database) as after_a_write:
        assert client.get(path).status_code == 200
    with queries(database) as later:
        client.get(path)
    assert len(first) <= 42, "\n".join(first)  # one for each of the tables read, however many rows they have
    assert 0 < len(after_a_write) <= 8, "\n".join(after_a_write)
    assert later == []
