"""Scenario "Hired out": his word is his, and one card clears what he passed on and what I waited for from him."""

import io
from datetime import date

import pytest

from tests import builders
from tests.pdfs import a_pdf
from tests.pictures import a_jpeg
from tests.reading import field_errors, links, soup, words
from tests.story.bindery import BASE, owed, saved

TRADE = {"trade": "electrician", "name": "N. Obody", "permit": "EPN"}
CARD = {"paper": ("card.jpg", a_jpeg(), "image/jpeg")}
WAIT = {"wait_kind": "signed card", "words": "Signed card of the sub-panel", "stops": "yes", "asked_on": "2026-05-15"}


@pytest.fixture
def wall(database, build) -> int:
    """The wall with his panel, under his permit; his inspector was asked for."""
    with database.writing() as session:
        wall = builders.a_surface(session, build)
        permit = builders.a_permit(session, build, "EPN", name="Panel permit")
        kind = builders.an_inspection(session, permit, "Sub-panel", (wall,), code="IPAN")
        builders.a_visit(session, kind, date(2026, 5, 15), outcome="asked")
        return wall.row_id


@pytest.fixture
def hired(client, wall) -> str:
    made = saved(client.post(f"{BASE}/hired", data=TRADE | {"parts": f"surface:{wall}"})).headers["location"]
    saved(client.post(f"{made}/waits", data=WAIT))
    return made


def filled_in(page, form: str = "#f") -> dict[str, object]:
    """What the form of a page would send as it stands: nothing is typed that the page did not offer."""
    sent: dict[str, object] = {}
    for tag in soup(page).select(f"{form} input[name], {form} select[name], {form} textarea[name]"):
        if tag.name == "select":
            chosen = tag.select_one("option[selected]") or tag.option
            sent[tag["name"]] = chosen["value"]
        elif tag.get("type") in {"checkbox", "radio"}:
            if tag.has_attr("checked"):
                sent.setdefault(tag["name"], []).append(tag["value"])
        elif tag.get("type") != "file":
            sent[tag["name"]] = tag.get("value", tag.get_text())
    return sent


def texted(client, hired: str, wall: int) -> str:
    """He texts "passed": written down from his own sheet. Gives where the result stands."""
    word = links(client.get(hired), "#said")["They say it passed"]
    sent = filled_in(client.get(word)) | {f"kind_{wall}": "passed", "day": "2026-05-15"}
    saved(client.post(f"{word.partition('?')[0]}/result", data=sent))
    return f"{BASE}/results/1"


def test_the_result_says_which_hired_trade_passed_it_on(client, hired, wall):
    page = client.get(texted(client, hired, wall))
    assert links(page)["the electrician"] == hired
    assert "Rests on the electrician’s word" in words(page)
    told = words(client.get(f"{BASE}/inspections/IPAN/history"))
    assert "The electrician’s word. Passed on by the electrician." in told
    assert "Obody" not in told


def test_a_trade_that_passed_it_on_is_no_note_of_mine(client, hired, wall):
    sent = {"day": "2026-05-15", f"kind_{wall}": "passed", "hired": "1"}
    bad = client.post(f"{BASE}/visits/1/result", data=sent | {"evidence": "my note"})
    assert bad.status_code == 422
    assert "it is no note of mine" in field_errors(bad)["evidence"]
    assert soup(bad).select_one("#f-hired option[selected]").get_text() == "electrician"
    assert "hired" in field_errors(client.post(f"{BASE}/visits/1/result", data=sent | {"hired": "9"}))


def test_a_card_at_his_own_wait_is_the_card_of_the_result_and_can_be_taken_back(client, hired, wall):
    result = texted(client, hired, wall)
    wait = links(client.get(hired), ".reach")["It came: Signed card of the sub-panel"]
    form = client.get(wait)
    assert "Sub-panel, East wall: passed, Fri 15 May" in words(form, "#f")
    came = {"paper": ("card.pdf", io.BytesIO(a_pdf("Signed card")), "application/pdf")}
    saved(client.post(f"{wait}/came", data=filled_in(form), files=came))
    assert not owed(client, "E")
    page = client.get(result)
    assert links(page)["PA01 Signed card of the sub-panel, electrician"] == f"{BASE}/papers/PA01"
    assert "the electrician’s word, now card signed" in words(page)
    assert "Attach the card" not in words(page)
    assert "Sub-panel, Fri 15 May" in words(client.get(f"{BASE}/papers/PA01"))

    back = client.get(wait)
    assert links(back, "#rests") == {"Sub-panel, East wall: passed, Fri 15 May": result}
    assert "is their word again" in words(back)
    saved(client.post(f"{wait}/again", data={"why": "it was the card of another house"}))
    assert owed(client, "E") == ["Sub-panel, E", "Signed card of the sub-panel, from the electrician"]
    page = words(client.get(result))
    assert "Passed on by word." in page
    assert "the electrician, card signed, now the electrician’s word" in page
    assert "it was the card of another house" in page
    assert "Signed card of the sub-panel: came" in words(client.get(hired))
    assert client.get(f"{BASE}/papers/PA01").status_code == 200, "the paper stays"


def test_a_card_attached_at_the_result_is_what_was_waited_for(client, hired, wall):
    result = texted(client, hired, wall)
    form = client.get(f"{result}?do=paper")
    assert "It is also what I wait for from the electrician" in words(form, "#f")
    saved(client.post(f"{result}/paper", data=filled_in(form), files=CARD))
    assert not owed(client, "E")
    page = client.get(result)
    assert soup(page).select_one("figure img")["src"].startswith("/photos/"), "the picture of the kept paper"
    assert "PA01 Signed card of the sub-panel, electrician" in words(page)
    assert "Kept as PA01 Signed card of the sub-panel, electrician." in words(client.get(hired))
    saved(client.post(f"{hired}/waits/1/again", data={"why": "unsigned"}))
    assert "Sub-panel, E" in owed(client, "E")


def test_it_need_not_be_the_same_paper(client, hired, wall):
    result = texted(client, hired, wall)
    sent = filled_in(client.get(f"{result}?do=paper")) | {"wait": ""}
    saved(client.post(f"{result}/paper", data=sent, files=CARD))
    assert owed(client, "E") == ["Signed card of the sub-panel, from the electrician"]
    assert "wait" in field_errors(client.post(f"{result}/paper", data=sent | {"wait": "9"}, files=CARD))


def test_an_invoice_is_no_card(client, hired, wall):
    texted(client, hired, wall)
    saved(client.post(f"{hired}/waits", data={"wait_kind": "invoice", "words": "Invoice"}))
    assert "It is also the paper of" not in words(client.get(f"{hired}/waits/2"))
    came = {"paper": ("bill.pdf", io.BytesIO(a_pdf("Bill")), "application/pdf")}
    bad = client.post(f"{hired}/waits/2/came", data={"on": "2026-05-16", "shows": "1"}, files=came)
    assert bad.status_code == 422 and "Choose from the list" in words(bad, ".errors")
    assert "Sub-panel, E" in owed(client, "E")


def test_a_result_put_right_keeps_who_passed_it_on_and_a_word_stays_a_word(client, hired, wall):
    result = texted(client, hired, wall)
    saved(client.post(f"{result}/paper", data=filled_in(client.get(f"{result}?do=paper")), files=CARD))
    sent = filled_in(client.get(f"{result}?do=correct")) | {"evidence": "their word", "why": "it was no card"}
    new = saved(client.post(f"{result}/correct", data=sent)).headers["location"]
    page = client.get(new)
    assert links(page)["the electrician"] == hired
    assert "Passed on by word." in words(page)
    assert "Sub-panel, E" in owed(client, "E")
