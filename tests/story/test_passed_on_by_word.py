"""Scenario "Hired out", the side of the result: an electrician texts "passed". The phase waits for the card; my own
circuits keep their own state."""

import pytest

from tests import builders
from tests.pictures import a_jpeg
from tests.reading import field_errors, links, soup, words
from tests.story.bindery import BASE, answer_of, lay_out, needs, roots, said, saved

CARD = {"paper": ("card.jpg", a_jpeg(), "image/jpeg")}


@pytest.fixture
def ground(client, database, build):
    """His panel is on the east wall, under his own permit; the batts there wait for it."""
    with database.writing() as session:
        made = lay_out(session, build)
        his = builders.a_permit(session, build, "HIS", name="Panel permit")
        east = session.get_one(builders.Surface, made.walls["E"])
        panel = builders.an_inspection(session, his, "Panel", (east,), code="IPAN", position=9)
        made.inspections["IPAN"] = panel.row_id
        made.asked["IPAN"] = builders.a_visit(session, panel, builders.date(2026, 5, 15), outcome="asked").row_id
        needs(session, session.get_one(builders.Task, made.tasks["Batts, E"]), panel.row_id, made.walls["E"])
    texted = {"day": "2026-05-15", **said(made, E="passed"), "evidence": "their word"}
    unsigned = client.post(f"{BASE}/visits/{made.asked['IPAN']}/result", data=texted)
    assert "Whose word is it?" in field_errors(unsigned)["signed_by"]
    saved(client.post(f"{BASE}/visits/{made.asked['IPAN']}/result", data=texted | {"signed_by": "electrician"}))
    return made


def test_the_phase_waits_for_the_card_and_leads_to_the_place_that_takes_it(client, ground):
    told = roots(client, f"phase={ground.phases['Insulation']}")
    assert "Card or report: Panel, E" in told
    page = client.get(f"{BASE}/what-stops?task={ground.tasks['Batts, E']}")
    assert "Passed by word, no card or report yet, Fri 15 May." in words(page)
    assert "Waits for: hired hand" in words(page)
    assert answer_of(client, "E") == "Do not cover"
    shown = words(client.get(f"{BASE}/inspections/IPAN"))
    assert "Passed by word, no card or report yet. 15 May 2026, the electrician’s word." in shown
    way = next(href for label, href in links(page).items() if label.startswith("Card or report"))
    assert "frees nothing until that is attached" in words(client.get(way))


def test_it_clears_when_the_card_is_attached_and_what_it_rested_on_stays_readable(client, ground):
    way = next(href for href in links(client.get(f"{BASE}/inspections/IPAN")).values() if "/results/" in href)
    bare = client.post(f"{way}/paper", data={"evidence": "card signed"})
    assert "Take a picture of the paper" in field_errors(bare)["paper"]
    saved(client.post(f"{way}/paper", data={"evidence": "card signed"}, files=CARD))
    assert "Card or report: Panel, E" not in roots(client, f"phase={ground.phases['Insulation']}")
    page = words(client.get(way))
    assert "It frees this surface of this inspection." in page
    assert "the electrician’s word, now card signed" in page


def test_my_own_circuits_keep_their_own_state(client, ground):
    told = roots(client, f"task={ground.tasks['Batts, E']}")
    assert "Visit: Rough electrical, E" in told or "Record the result: Rough electrical, E" in told
    saved(
        client.post(
            f"{BASE}/visits/{ground.asked['IREL']}/result", data={"day": "2026-05-15", **said(ground, E="passed")}
        )
    )
    assert roots(client, f"task={ground.tasks['Batts, E']}") == ["Card or report: Panel, E"]
    assert soup(client.get(f"{BASE}/inspections/IREL")).get_text().count("Passed")
