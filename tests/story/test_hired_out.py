"""Scenario "Hired out": an electrician does the panel under his own permit, and texts that it passed."""

import io
from datetime import date

import pytest

from tests import builders
from tests.pdfs import a_pdf
from tests.reading import links, words
from tests.story.bindery import BASE, owed, saved

PANEL = {"trade": "electrician", "name": "N. Obody", "does": "The sub-panel", "permit": "EPN", "licence": "E-0000"}


@pytest.fixture
def site(database, build) -> dict[str, int]:
    """The wall with the panel; his permit and inspection, mine; the phase in which my circuits land in his panel."""
    with database.writing() as session:
        wall = builders.a_surface(session, build)
        phase = builders.a_phase(session, build, "Panel")
        done = {"who": "hired", "state": "done", "done_on": date(2026, 5, 14)}
        panel = builders.a_task(session, phase, "Sub-panel, by the electrician", kind="wiring", **done)
        mine = builders.a_task(session, phase, "Land my circuits", 2, kind="wiring")
        builders.a_need(session, mine, panel)
        his = builders.an_inspection(
            session, builders.a_permit(session, build, "EPN", name="Panel permit"), "Sub-panel", (wall,), code="IPAN"
        )
        own = builders.an_inspection(
            session, builders.a_permit(session, build, "ELE"), "Rough electrical", (wall,), code="IREL", position=2
        )
        builders.a_visit(session, his, date(2026, 5, 15), outcome="asked")
        builders.a_result(session, builders.a_visit(session, own, date(2026, 5, 8)), wall)
        builders.a_spend(session, build, "Electrician, sub-panel", kind="hired", total_cents=84_000)
        return {"wall": wall.row_id, "phase": phase.row_id, "panel": panel.row_id, "mine": mine.row_id}


def phase_says(client, site) -> str:
    return words(client.get(f"{BASE}/what-stops?phase={site['phase']}"))


def test_his_word_is_no_card_and_the_phase_waits_for_it_until_it_is_attached(client, site):
    hired = saved(client.post(f"{BASE}/hired", data=PANEL | {"parts": f"task:{site['panel']}"})).headers["location"]
    card = {
        "wait_kind": "signed card",
        "words": "Signed card of the sub-panel",
        "stops": "yes",
        "asked_on": "2026-05-15",
    }
    saved(client.post(f"{hired}/waits", data=card))

    told = phase_says(client, site)
    assert "Signed card of the sub-panel, from the electrician" in told
    assert "Waiting for the signed card, asked for Fri 15 May." in told
    word = links(client.get(hired), "#said")["They say it passed"]
    his = {"day": "2026-05-15", f"kind_{site['wall']}": "passed", "evidence": "their word", "signed_by": "electrician"}
    assert word == f"{BASE}/visits/1?hired=1", "his word, written down as his"
    saved(client.post(f"{BASE}/visits/1/result", data=his))
    assert "electrician’s word" in words(client.get(f"{BASE}/inspections/IPAN"))
    assert "Sub-panel, E" in owed(client, "E"), "noted as his word, it passes nothing"
    assert "Signed card of the sub-panel, from the electrician" in phase_says(client, site)

    wait = links(client.get(hired), ".reach")["It came: Signed card of the sub-panel"]
    assert client.post(f"{wait}/came", data={"on": "2026-05-16"}).status_code == 409, "a word alone frees nothing"
    came = {"paper": ("card.pdf", io.BytesIO(a_pdf("Signed card")), "application/pdf")}
    saved(client.post(f"{wait}/came", data={"on": "2026-05-16"}, files=came))
    told = phase_says(client, site)
    assert "from the electrician" not in told
    assert "One task of it can start now." in told


def test_his_bill_licence_and_warranty_sit_with_the_panel(client, site):
    hired = saved(client.post(f"{BASE}/hired", data=PANEL | {"parts": f"task:{site['panel']}"})).headers["location"]
    saved(client.post(f"{hired}/bills", data={"bill": "1"}))
    for name, kind in (("Licence slip", "other"), ("Warranty, sub-panel", "warranty")):
        paper = {"name": name, "kind": kind, "where": "in the folder", "about": ["hired:1", f"task:{site['panel']}"]}
        saved(client.post(f"{BASE}/papers", data=paper))
    page = words(client.get(hired))
    assert "Bills 840.00" in page and "E-0000" in page
    assert links(client.get(hired), "#parts")["Sub-panel, by the electrician"] == f"{BASE}/tasks/{site['panel']}"
    for of in ("hired/H01", f"task/{site['panel']}"):
        found = words(client.get(f"{BASE}/papers/of/{of}"))
        assert "Licence slip" in found and "Warranty, sub-panel" in found


def test_my_own_circuits_keep_their_own_state(client, site):
    before = words(client.get(f"{BASE}/inspections/IREL"))
    hired = saved(client.post(f"{BASE}/hired", data=PANEL | {"parts": f"task:{site['panel']}"})).headers["location"]
    saved(client.post(f"{hired}/waits", data={"wait_kind": "report", "stops": "yes"}))
    assert "East wall Passed" in before
    client.get(hired)  # says once that it is on the list
    assert words(client.get(f"{BASE}/inspections/IREL")) == before
    assert "Passed" not in words(client.get(f"{BASE}/inspections/IPAN"), "section")


def test_what_he_is_called_is_on_no_page_but_his_own(client, stranger, site):
    saved(client.post(f"{BASE}/hired", data=PANEL))
    for page in ("hired", "today", "papers", "what-stops", "house-file", "phases"):
        assert "Obody" not in client.get(f"{BASE}/{page}").text, page
    assert stranger.get(f"{BASE}/hired/H01").status_code in {303, 401}
