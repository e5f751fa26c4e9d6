"""Scenario "No entry": the inspector came for the framing, there was no ladder, he left a "not ready", fee 60."""

from tests.reading import headings, links, words
from tests.story.bindery import BASE, lay_out, owed, roots, saved


def test_nothing_was_looked_at_and_what_was_missing_is_asked_for_next_time(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IFRM")
    told = {"outcome": "not ready", "day": "2026-05-15", "reason": "no ladder", "missing": "ladder", "fee": "60"}
    saved(client.post(f"{BASE}/visits/{ground.asked['IFRM']}/not-ready", data=told))

    still = owed(client, "N")
    assert "Framing, N" in still, "the visit is still owed"
    page = words(client.get(f"{BASE}/inspections/IFRM"))
    assert "ladder" in words(client.get(f"{BASE}/inspections/IFRM"), "#ready")
    assert "Failed" not in page and "Passed" not in page
    assert not [title for title in still if "ladder" in title.lower()], "no correction appears"
    board = roots(client, f"task={ground.tasks['Board, N']}")
    assert "Ask for the visit: Framing, N" in board
    assert "Pay the fee, USD 60.00" not in board, "this fee stops nothing"
    assert "60.00" in words(client.get(f"{BASE}/permits/BLD")), "what it costs is written there until it is paid"
    the_fee_is_in_the_spend_as_owed_and_then_as_paid(client)


def the_fee_is_in_the_spend_as_owed_and_then_as_paid(client) -> None:
    spend = client.get(f"{BASE}/spend")
    assert headings(spend)[0] == "USD 0.00 paid", "what is owed is in no sum of what is paid"
    owed_fees = links(spend)["Fees not paid yet"]
    panel = client.get(owed_fees, headers={"HX-Request": "true", "HX-Request-Type": "partial"})
    assert "<html" not in panel.text, "the sheet of spend takes it in by itself"
    for shown in (panel.text, words(client.get(owed_fees))):
        assert "USD 60.00" in shown
    way = next(href for label, href in links(client.get(owed_fees)).items() if label.startswith("USD 60.00"))
    saved(client.post(f"{way}/pay", data={"paid_on": "2026-05-16"}))
    assert "No fee is owed." in words(client.get(owed_fees))
    paid = client.get(f"{BASE}/spend")
    assert headings(paid)[0] == "USD 60.00 paid"
    assert "Fee" in words(paid, "#lines + ul")
