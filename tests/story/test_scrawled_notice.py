"""Scenario "Handwritten notice, partly spoken": three items on a photographed page, a fourth said aloud; each
is cleared in its own way, and the phase frees only when the right ones are."""

import pytest

from tests.pictures import a_jpeg
from tests.reading import links, words
from tests.story.bindery import BASE, lay_out, owed, roots, said, saved

NOTICE = ("notice.jpg", a_jpeg(), "image/jpeg")
ITEMS = ("Plates, three studs", "Staple on edge", "Label the feed", "Tidy that corner")


@pytest.fixture
def ground(client, database, build):
    with database.writing() as session:
        made = lay_out(session, build)
    rows = {f"words_{row}": words for row, words in enumerate(ITEMS, 1)}
    ways = {"clears_1": "re-visit", "clears_2": "picture sent", "clears_3": "own word", "clears_4": "own word"}
    sent = {"day": "2026-05-15", "kind_all": "passed", **said(made, S="failed"), **rows, **ways, "evidence": "notice"}
    visit = f"{BASE}/visits/{made.asked['IREL']}/result"
    saved(client.post(visit, data=sent | {"form_4": "said, not written"}, files={"paper": NOTICE}))
    return made


def step(client, item: str, do: str, **more) -> None:
    files = {"picture": ("after.jpg", a_jpeg(), "image/jpeg")} if do in {"done", "sent"} else None
    href = next(href for label, href in links(client.get(f"{BASE}/to-put-right")).items() if f"“{item}”" in label)
    saved(client.post(f"{href}/{do}", data={"on": "2026-05-16"} | more, files=files))


def test_four_items_exist_and_the_fourth_is_marked_as_said(client, ground):
    page = client.get(f"{BASE}/inspections/IREL")
    told = words(page)
    assert all(f"“{item}”" in told for item in ITEMS)
    assert told.count("Said, not written.") == 1
    assert "Failed. 15 May 2026, the inspector, notice. 4 corrections open." in told


def test_each_is_cleared_in_its_own_way_and_the_wall_is_free_only_after_the_right_ones(client, ground):
    board = f"task={ground.tasks['Board, S']}"
    assert set(ITEMS) <= set(roots(client, board))
    step(client, "Label the feed", "done")
    assert "Label the feed" in owed(client, "S"), "done is not cleared"
    step(client, "Label the feed", "clear")
    step(client, "Staple on edge", "sent")
    assert "Staple on edge" in owed(client, "S"), "the answer is still owed"
    step(client, "Staple on edge", "clear", who="the inspector", said="answered by message")
    step(client, "Plates, three studs", "done")
    still = owed(client, "S")
    assert "Plates, three studs" not in still and "Rough electrical, S" in still, "it is to be seen again"
    assert "Tidy that corner" in still
    booked = {"day": "2026-05-16", "asked_on": "2026-05-16", "booking_right": "yes"}
    client.post(f"{BASE}/inspections/IREL/visits", data=booked)
    visit = next(
        href
        for href in links(client.get(f"{BASE}/inspections/IREL")).values()
        if href.rpartition("/visits/")[2].isdecimal()
    )
    saved(client.post(f"{visit}/result", data={"day": "2026-05-16", **said(ground, S="passed")}))
    assert [one for one in owed(client, "S") if one in ITEMS] == ["Tidy that corner"], "no visit clears my own word"
    step(client, "Tidy that corner", "clear", is_done="yes")
    assert not [one for one in owed(client, "S") if one in ITEMS or "electrical" in one]
    history = words(client.get(f"{BASE}/surfaces/S/history"))
    assert history.index("Correction 4: “Tidy that corner”") < history.index("Correction 4: cleared")
