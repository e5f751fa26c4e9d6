"""P3: hired trades, what they do, what is waited for, their bills; everything private stays here."""

import io

import pytest

from tests import builders
from tests.counting import queries
from tests.pdfs import a_pdf
from tests.reading import field_errors, links, soup, words

BASE = "/builds/bindery"
HIRED = f"{BASE}/hired"
ELECTRICIAN = {
    "trade": "electrician",
    "name": "N. Obody",
    "licence": "E-0000",
    "licence_seen_on": "2026-05-01",
    "licence_seen_how": "on the state's list",
    "insured": "card seen",
    "does": "Sub-panel and feeder",
}


@pytest.fixture
def site(database, build) -> dict[str, int]:
    """A panel task that is hired, my own circuits after it, and a wall in which the panel sits."""
    with database.writing() as session:
        wall = builders.a_surface(session, build)
        phase = builders.a_phase(session, build, "Wiring")
        panel = builders.a_task(session, phase, "Sub-panel", who="hired", state="done", done_on=builders.AT.date())
        mine = builders.a_task(session, phase, "Land my circuits", 2)
        builders.a_need(session, mine, panel)
        permit = builders.a_permit(session, build, "EPN", name="Panel permit")
        kind = builders.an_inspection(session, permit, "Panel", (wall,), code="IPAN", holds_cover=False)
        visit = builders.a_visit(session, kind, outcome="asked")
        return {"wall": wall.row_id, "panel": panel.row_id, "mine": mine.row_id, "visit": visit.row_id}


def hired(client, **more) -> str:
    answer = client.post(HIRED, data=ELECTRICIAN | more)
    assert answer.status_code == 303, answer.text
    return answer.headers["location"]


def waited(client, path: str, **more) -> str:
    sent = {"wait_kind": "signed card", "words": "Signed card", "stops": "yes", "asked_on": "2026-05-15"} | more
    assert client.post(f"{path}/waits", data=sent).status_code == 303
    return f"{path}/waits/{len(soup(client.get(path)).select('#waits .stops li'))}"


def can_start(client, task_id: int) -> bool:
    return "Nothing stops it" in words(client.get(f"{BASE}/what-stops?task={task_id}"))


def test_an_empty_sheet_says_what_it_is_for(client):
    assert "under their own licence" in words(client.get(HIRED))


def test_who_it_is_stands_on_its_sheet_and_the_list_calls_it_by_its_trade(client):
    path = hired(client)
    page = words(client.get(path))
    assert "N. Obody" in page and "E-0000" in page
    assert "Licence seen 1 May 2026, on the state's list" in page
    assert "Paying people can bring duties" in page
    told = words(client.get(HIRED))
    assert "Electrician" in told and "Obody" not in told


def test_bad_words_get_a_sentence(client):
    answer = client.post(HIRED, data={"licence_seen_on": "2031-01-01", "permit": "XXX"})
    assert answer.status_code == 422
    assert {"trade", "licence_seen_on", "permit"} == set(field_errors(answer))


def test_what_follows_its_part_waits_until_the_card_is_attached(client, site):
    path = hired(client, parts=f"task:{site['panel']}", permit="EPN")
    assert can_start(client, site["mine"])
    wait = waited(client, path)
    assert not can_start(client, site["mine"])
    told = words(client.get(f"{BASE}/what-stops?task={site['mine']}"))
    assert "Signed card, from the electrician Waiting for the signed card, asked for Fri 15 May." in told
    answer = client.post(f"{wait}/came", data={"on": "2026-05-16"})
    assert answer.status_code == 409, "a word alone frees nothing"
    came = {"paper": ("card.pdf", io.BytesIO(a_pdf()), "application/pdf")}
    assert client.post(f"{wait}/came", data={"on": "2026-05-16"}, files=came).status_code == 303
    assert can_start(client, site["mine"])
    assert "Came Sat 16 May. Kept as PA01 Signed card, electrician." in words(client.get(path))
    assert "Signed card, electrician" in words(client.get(f"{BASE}/papers/of/hired/H01"))


def test_the_surface_it_works_in_waits_too_and_what_does_not_stop_does_not(client, site):
    path = hired(client, parts=f"surface:{site['wall']}")
    waited(client, path, words="Warranty", stops="", wait_kind="warranty")
    sheet = f"{BASE}/surfaces/E/before-cover"
    assert "electrician" not in words(client.get(sheet))
    waited(client, path)
    assert "Signed card, from the electrician" in words(client.get(sheet))


def test_a_paper_that_is_kept_already_can_be_what_came(client, site):
    path = hired(client, parts=f"task:{site['panel']}")
    wait = waited(client, path)
    sent = {"name": "Card", "kind": "permit or inspection card", "where": "in the sleeve", "about": "hired:1"}
    client.post(f"{BASE}/papers", data=sent)
    assert client.post(f"{wait}/came", data={"on": "2026-05-16", "known": "PA01"}).status_code == 303
    assert can_start(client, site["mine"])


def test_wanted_no_more_needs_a_reason_and_can_be_waited_for_again(client, site):
    path = hired(client, parts=f"task:{site['panel']}")
    wait = waited(client, path)
    assert "why" in field_errors(client.post(f"{wait}/drop", data={"on": "2026-05-16"}))
    client.post(f"{wait}/drop", data={"on": "2026-05-16", "why": "the office has it"})
    assert can_start(client, site["mine"])
    assert "Waited for no more since Sat 16 May: the office has it." in words(client.get(path))
    client.post(f"{wait}/again", data={"why": "it has not"})
    assert not can_start(client, site["mine"])
    assert "not wanted 16 May 2026, now waited for again" in words(client.get(path))


def test_its_own_permit_leads_to_where_its_word_goes(client, site):
    path = hired(client, permit="EPN")
    found = links(client.get(path), "#said")
    assert found["EPN"] == f"{BASE}/permits/EPN"
    assert found["They say it passed"] == f"{BASE}/visits/{site['visit']}?hired=1"


def test_put_right_keeps_what_was_said(client, site):
    path = hired(client)
    client.post(f"{path}/edit", data=ELECTRICIAN | {"licence": "E-0001", "permit": "EPN", "why": "mistyped"})
    page = words(client.get(path))
    assert "Licence: E-0000, now E-0001" in page and "mistyped" in page
    assert "Own permit: not said, now EPN" in page


def test_a_bill_of_the_spend_is_theirs_once(client, database, build, site):
    with database.writing() as session:
        builders.a_spend(session, build, "Electrician, 1.5 h", kind="hired", total_cents=15_750)
    path = hired(client)
    assert "bill" in field_errors(client.post(f"{path}/bills", data={"bill": "99"}))
    for _ in range(2):
        assert client.post(f"{path}/bills", data={"bill": "1"}).status_code == 303
    assert "Bills 157.50" in words(client.get(path), "#bills")


def test_done_here_it_stays_listed(client):
    path = hired(client)
    assert client.post(f"{path}/end", data={"on": "2026-05-16"}).status_code == 303
    assert "Done here since 16 May 2026." in words(client.get(HIRED))


def test_the_list_costs_the_same_for_five_and_for_fifty(client, database):
    counts = []
    for many in (5, 45):
        for _ in range(many):
            waited(client, hired(client))
        with queries(database, anew=True) as asked:
            assert client.get(HIRED).status_code == 200
        counts.append(len(asked))
    assert counts[0] == counts[1]
