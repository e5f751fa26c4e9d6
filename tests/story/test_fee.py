"""Scenario "Fee": plumbing failed a second time, and no visit is taken until the fee is paid."""

import pytest

from tests import builders
from tests.pictures import a_jpeg
from tests.reading import links, soup, words
from tests.story.bindery import BASE, lay_out, needs, roots, said, saved


@pytest.fixture
def ground(client, database, build):
    with database.writing() as session:
        made = lay_out(session, build, asked_for="IRPL")
        batts = session.get_one(builders.Task, made.tasks["Batts, W"])
        needs(session, batts, made.inspections["IRPL"], made.walls["W"])
    fee = {"fee": "100", "fee_why": "failed a second time", "fee_stops": "yes"}
    sent = {"day": "2026-05-15", **said(made, W="failed"), **fee}
    saved(client.post(f"{BASE}/visits/{made.asked['IRPL']}/result", data=sent))
    return made


def test_pay_the_fee_is_on_top_of_the_chain_before_the_visit_is_asked_for(client, ground):
    page = client.get(f"{BASE}/what-stops?phase={ground.phases['Insulation']}")
    first = soup(page).select_one(".stops.roots > li").get_text(" ", strip=True)
    assert first.startswith("Pay the fee, USD 100.00")
    assert "ask for the visit, rough plumbing, W again, then batts, W" in first
    told = roots(client, f"phase={ground.phases['Insulation']}")
    assert not [title for title in told if "plumbing" in title], "asking waits for the fee"
    assert soup(page).select_one(".reach .main").get_text(strip=True) == "Pay the fee, USD 100.00"


def test_once_paid_it_is_in_the_spend_with_its_receipt_and_the_stop_is_gone(client, ground):
    page = client.get(f"{BASE}/what-stops?phase={ground.phases['Insulation']}")
    href = next(href for label, href in links(page).items() if label.startswith("Pay the fee"))
    receipt = {"receipt": ("receipt.jpg", a_jpeg(), "image/jpeg")}
    saved(client.post(f"{href}/pay", data={"paid_on": "2026-05-16", "paid_to": "building office"}, files=receipt))
    told = roots(client, f"phase={ground.phases['Insulation']}")
    assert "Ask for the visit: Rough plumbing, W again" in told
    assert not [title for title in told if title.startswith("Pay")]
    assert "Fee: failed a second time" in words(client.get(f"{BASE}/spend"))
    assert "failed" in words(client.get(f"{BASE}/inspections/IRPL")).lower(), "the failed visit stays"
