"""Scenario "Extra item": the inspector asks for a strap that is on no list, citing no rule."""

from tests.reading import words
from tests.story.bindery import BASE, lay_out, owed, roots, said, saved


def test_it_stops_what_he_said_is_marked_as_asked_and_offered_before_the_next_framing_visit(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IFRM")
    seen = said(ground, N="passed", E="passed", S="passed", W="passed", C="failed")
    sent = {"day": "2026-05-15", **seen, "asked": "A strap over the ridge tie", "asked_stops": "yes"}
    saved(client.post(f"{BASE}/visits/{ground.asked['IFRM']}/result", data=sent))

    told = roots(client, f"task={ground.tasks['Board, C']}")
    assert "A strap over the ridge tie" in told
    page = words(client.get(f"{BASE}/what-stops?task={ground.tasks['Board, C']}"))
    assert "A strap over the ridge tie Asked by inspector, Fri 15 May." in page
    ready = words(client.get(f"{BASE}/inspections/IFRM"), "#ready")
    assert "A strap over the ridge tie Asked by inspector" in ready
    assert "strap" not in words(client.get(f"{BASE}/inspections/IREL"))
    assert "Framing, N" not in owed(client, "N"), "what passed stays passed"


def test_once_it_is_there_the_visit_can_be_asked_for(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IFRM")
    sent = {"day": "2026-05-15", **said(ground, C="failed"), "asked": "A strap", "asked_stops": "yes"}
    saved(client.post(f"{BASE}/visits/{ground.asked['IFRM']}/result", data=sent))
    saved(client.post(f"{BASE}/asked/1", data={"to": "done"}))
    told = roots(client, f"task={ground.tasks['Board, C']}")
    assert "A strap" not in told
    assert "Ask for the visit: Framing, C again" in told


def test_it_comes_back_on_the_sheet_before_the_next_framing_visit(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IFRM")
    sent = {"day": "2026-05-15", **said(ground, C="failed"), "asked": "A strap over the ridge tie"}
    saved(client.post(f"{BASE}/visits/{ground.asked['IFRM']}/result", data=sent))
    saved(client.post(f"{BASE}/inspections/IFRM/visits", data={"day": "2026-05-20"}))
    page = words(client.get(f"{BASE}/visits/2/ready"), ".points .asked")
    assert page.startswith("A strap over the ridge tie Asked by inspector")
    other = words(client.get(f"{BASE}/inspections/IREL/check"))
    assert "strap" not in other
