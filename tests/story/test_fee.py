"""Scenario "Fee": plumbing failed a second time, and no visit is taken until the fee is paid."""

import pytest

from tests import builders
from tests.pictures import a_jpeg
from tests.reading import field_errors, links, soup, words
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


def test_a_fee_typed_wrong_is_put_right_and_both_amounts_stay_readable(client, ground):
    page = client.get(f"{BASE}/what-stops?phase={ground.phases['Insulation']}")
    href = next(href for label, href in links(page).items() if label.startswith("Pay the fee"))
    wrong = client.post(f"{href}/right", data={"fee": "1000.005"})
    assert set(field_errors(wrong)) == {"fee", "why"}
    right = {"fee": "80", "fee_why": "failed a second time", "fee_stops": "yes", "why": "misread the slip"}
    saved(client.post(f"{href}/right", data=right))
    told = words(client.get(href))
    assert "USD 100.00, now USD 80.00" in told and "misread the slip" in told
    assert "Pay the fee, USD 80.00" in roots(client, f"phase={ground.phases['Insulation']}")
    saved(client.post(f"{href}/pay", data={"paid_on": "2026-05-16"}))
    assert client.post(f"{href}/right", data=right).status_code == 409, "what is paid is put right in the spend"


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
