"""Scenario "Part passed": rough electrical on N, E, S, W and the ceiling; all but S passes."""

import pytest

from tests.reading import links, soup, words
from tests.story.bindery import BASE, answer_of, lay_out, owed, roots, said, saved


@pytest.fixture
def ground(client, database, build):
    with database.writing() as session:
        made = lay_out(session, build)
    passed = dict.fromkeys("NEWC", "passed")
    corrections = {
        "words_1": "Plates on three studs",
        "on_1": made.walls["S"],
        "words_2": "Two-gang box not grounded",
        "on_2": made.walls["S"],
    }
    sent = {"day": "2026-05-15", **said(made, S="failed", **passed), **corrections}
    saved(client.post(f"{BASE}/visits/{made.asked['IREL']}/result", data=sent))
    return made


def test_s_shows_both_corrections_and_may_not_be_covered(client, ground):
    assert answer_of(client, "S") == "Do not cover"
    assert {"Plates on three studs", "Two-gang box not grounded", "Rough electrical, S"} <= set(owed(client, "S"))


@pytest.mark.parametrize("code", ["N", "E", "W", "C"])
def test_the_others_are_free_from_electrical_but_still_stopped_by_insulation(client, ground, code):
    still = owed(client, code)
    assert not [title for title in still if "electrical" in title]
    assert f"Insulation, {code}" in still and f"Batts, {code}" in still


def test_the_board_phase_says_exactly_that(client, ground):
    page = client.get(f"{BASE}/what-stops?phase={ground.phases['Board']}")
    told = roots(client, f"phase={ground.phases['Board']}")
    assert "Plates on three studs" in told and "Two-gang box not grounded" in told
    assert {f"Batts, {code}" for code in "NEWC"} <= set(told)
    assert "Batts, S" not in told, "it waits for the two corrections itself"
    surfaces = words(page, ".surfs")
    assert all(name in surfaces for name in ("North wall", "East wall", "South wall", "West wall", "Ceiling"))


def test_the_list_for_the_re_visit_holds_two_items_not_the_whole_job(client, ground):
    shown = client.get(f"{BASE}/inspections/IREL/again")
    told = words(shown)
    assert "South wall: 2 corrections to show." in told
    assert [one.get_text() for one in soup(shown).select("main .rev b")] == [
        "“Plates on three studs”",
        "“Two-gang box not grounded”",
    ]
    assert not [name for name in ("North wall", "East wall", "West wall", "Ceiling") if name in told]


def test_the_re_visit_asks_for_s_alone_once_both_are_put_right(client, ground):
    sheet = links(client.get(f"{BASE}/surfaces/S/before-cover"))
    for title in ("Plates on three studs", "Two-gang box not grounded"):
        href = next(href for label, href in sheet.items() if label.startswith(title))
        saved(client.post(f"{href}/done", data={"on": "2026-05-16"}))
    told = roots(client, f"task={ground.tasks['Batts, S']}")
    assert told == ["Ask for the visit: Rough electrical, S again"]
    page = soup(client.get(f"{BASE}/inspections/IREL"))
    assert "Part passed: all but S" in page.get_text(" ", strip=True)
