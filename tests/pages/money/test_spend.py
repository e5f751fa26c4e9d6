"""M2: what was spent, every figure of which can be added again; one line, put right."""

import pytest

from tests import builders
from tests.counting import queries
from tests.pages.inspections.test_scenarios import a_photo
from tests.reading import field_errors, links, soup, words
from webapp.money import store

BASE = "/builds/bindery"
BOARD = {
    "day": "2026-05-09",
    "what": "Board, 30 sheets",
    "supplier": "timber yard",
    "total": "596.16",
    "tax": "44.16",
    "kind": "into the building",
}


def test_an_empty_sheet_is_kind(client):
    assert "Nothing is written down yet" in words(client.get(f"{BASE}/spend"))


def test_a_line_is_written_down_with_its_receipt(client, database, build):
    answer = client.post(f"{BASE}/spend", data=BOARD, files={"receipt": a_photo()})
    assert answer.status_code == 303
    page = client.get(f"{BASE}/spend")
    assert "USD 596.16 paid" in words(page)
    assert "Receipt kept" in words(page)
    with database.reading() as session:
        (line,) = store.list_spend(session, build.row_id)
    assert (line.total_cents, line.tax_cents) == (59_616, 4_416)
    assert soup(client.get(f"{BASE}/spend/{line.id}")).select(f"a[href='/photos/{line.receipt}/original']")


def test_a_gift_is_nothing_paid_and_in_no_sum(client):
    sent = BOARD | {"what": "Extractor fan", "total": "0", "tax": "", "kind": "gift", "value": "240"}
    assert client.post(f"{BASE}/spend", data=sent).status_code == 303
    page = words(client.get(f"{BASE}/spend"))
    assert "USD 0.00 paid" in page
    assert "worth 240.00" in page


def test_each_mistake_is_told_and_nothing_typed_is_lost(client, database, build):
    sent = {"day": "2026-06-30", "what": "", "total": "12.345", "kind": "gold"}
    answer = client.post(f"{BASE}/spend", data=sent, files={"receipt": a_photo()})
    assert answer.status_code == 422
    assert set(field_errors(answer)) == {"day", "what", "total", "kind"}
    page = soup(answer)
    assert page.select_one("#f-total")["value"] == "12.345"
    assert page.select_one("[name=receipt_kept]")["value"].isdecimal()
    kept = {"receipt_kept": page.select_one("[name=receipt_kept]")["value"]}
    assert client.post(f"{BASE}/spend", data=BOARD | kept).status_code == 303
    with database.reading() as session:
        assert store.list_spend(session, build.row_id)[0].receipt, "the picture came with the first try"


def test_what_cannot_be_true_is_told_beside_its_field(client):
    gift = BOARD | {"kind": "gift"}
    assert set(field_errors(client.post(f"{BASE}/spend", data=gift))) == {"total", "value"}
    assert set(field_errors(client.post(f"{BASE}/spend", data=BOARD | {"tax": "600"}))) == {"tax"}


def test_every_sum_leads_to_the_lines_that_make_it_up(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build).row_id
        builders.a_spend(session, build, phase_id=phase)
        builders.a_spend(session, build, "Sheets back", total_cents=-10_267, phase_id=phase)
        builders.a_spend(session, build, "Digger", kind="hired", total_cents=28_000)
    page = client.get(f"{BASE}/spend")
    assert "USD 773.49 paid" in words(page)
    by_phase = client.get(links(page)["Board"])
    assert "Board 493.49" in words(by_phase, "#lines")
    assert "Digger" not in words(by_phase, "#lines ~ ul")
    by_kind = client.get(links(page, ".sd")["Hired"])
    assert "Hired 280.00" in words(by_kind, "#lines")
    assert client.get(f"{BASE}/spend?kind=gold").status_code == 404
    assert client.get(f"{BASE}/spend?phase=99").status_code == 404


def test_a_line_put_right_shows_what_it_said_before_and_why(client, database, build):
    with database.writing() as session:
        line = builders.a_spend(session, build).row_id
    right = BOARD | {"total": "569.16", "why": "digits swapped"}
    assert client.post(f"{BASE}/spend/{line}", data=right).status_code == 303
    page = words(client.get(f"{BASE}/spend/{line}"))
    assert "Paid: 596.16, now 569.16" in page
    assert "digits swapped" in page
    bad = client.post(f"{BASE}/spend/{line}", data=BOARD | {"total": "much"})
    assert set(field_errors(bad)) == {"total"}
    assert client.post(f"{BASE}/spend/999", data=BOARD).status_code == 404


def test_pressing_twice_writes_one_line(client, database, build):
    sent = BOARD | {"sent_id": soup(client.get(f"{BASE}/spend")).select_one("[name=sent_id]")["value"]}
    assert [client.post(f"{BASE}/spend", data=sent).status_code for _ in range(2)] == [303, 303]
    with database.reading() as session:
        assert len(store.list_spend(session, build.row_id)) == 1


@pytest.mark.parametrize("path", ["spend", "spend/1"])
def test_a_stranger_sees_and_changes_no_money(stranger, build, path):
    assert stranger.get(f"{BASE}/{path}").headers["location"].startswith("/sign-in")
    answer = stranger.post(f"{BASE}/{path}", data=BOARD)
    assert answer.status_code == 401 or answer.headers["location"].startswith("/sign-in")


def test_the_sheet_costs_the_same_with_five_lines_and_with_fifty(client, database, build):
    def lines(number: int) -> None:
        with database.writing() as session:
            for _ in range(number):
                builders.a_spend(session, build, phase_id=builders.a_phase(session, build).row_id)

    def asked() -> int:
        with queries(database, anew=True) as sent:
            assert client.get(f"{BASE}/spend").status_code == 200
        return len(sent)

    lines(5)
    five = asked()
    lines(45)
    assert asked() == five


def test_a_long_list_is_shown_in_turns_and_summed_whole(client, database, build):
    with database.writing() as session:
        for number in range(130):
            builders.a_spend(session, build, what=f"Box {number}", total_cents=100)
    first = client.get(f"{BASE}/spend")
    assert "Box 129" in words(first)
    assert "Box 69" not in words(first)
    assert "Every line 130.00" in words(first)
    assert "Newer ones" not in words(first)
    second = client.get(links(first)["Older ones"])
    assert "Box 69" in words(second)
    assert "Box 9 " not in words(second)
    last = client.get(f"{BASE}/spend?kind=into+the+building&turn=3")
    assert "Box 0" in words(last)
    assert "Older ones" not in words(last)
    assert links(last)["Newer ones"] == f"{BASE}/spend?kind=into+the+building&turn=2#lines"
