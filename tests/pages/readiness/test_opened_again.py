"""A closed wall is opened up: what was let go for its first closing is owed again before the next one."""

import pytest

from tests.reading import headings, soup, words
from webapp.readiness.rules import keys

E = "/builds/bindery/surfaces/E"


@pytest.fixture
def opened(client, settled):
    """Closed with two pictures let go, and opened up the same day."""
    assert client.post(f"{E}/cover", data={"on": "today"}).status_code == 303
    assert client.post(f"{E}/open-again", data={"on": "today", "why": "a screw met the drain"}).status_code == 303
    return settled


def owed(client) -> set[str]:
    return {tag["value"] for tag in soup(client.get(f"{E}/let-go")).select("#skip input[name=what]")}


def test_what_was_let_go_before_the_opening_stops_again(client, opened):
    page = client.get(f"{E}/before-cover")
    assert headings(page)[0] == "Do not cover"
    assert owed(client) == {keys.slot(slot.row_id) for slot in opened.slots[5:]}
    assert "Let go before it was opened up" in headings(page)
    assert "These lines no longer count" in words(page)
    assert "Let go" not in headings(page)
    assert client.post(f"{E}/cover", data={"on": "today"}).status_code == 409


def test_it_may_be_let_go_anew_and_both_reasons_stay_readable(client, opened):
    for slot in opened.slots[5:]:
        anew = {"by": "me", "what": keys.slot(slot.row_id), "why": "Only the board was changed", "on": "today"}
        assert client.post(f"{E}/let-go", data=anew).status_code == 303
    assert headings(client.get(f"{E}/before-cover"))[0] == "May be covered"
    wall = words(client.get(E))
    assert wall.count("The light was gone. Counted until it was opened up, Sat 16 May.") == 2
    assert wall.count("Only the board was changed") == 2
    assert client.post(f"{E}/cover", data={"on": "today"}).status_code == 303
    latest = soup(client.get(f"{E}/before-cover")).select("table.fold")[-2]
    assert latest.get_text().count("Only the board was changed") == 2, "the new closing rests on the new reasons"
    assert "The light was gone" not in latest.get_text()


def test_the_first_closing_still_says_what_it_rested_on(client, opened):
    assert "Let go: Picture 6: drain and supply. The light was gone" in words(client.get(f"{E}/before-cover"))


def test_no_page_speaks_of_an_opening_before_there_was_one(client, settled):
    page = client.get(f"{E}/before-cover")
    assert "Let go before it was opened up" not in headings(page)
    assert "Counted until" not in words(client.get(E))
