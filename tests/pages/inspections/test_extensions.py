"""More time in writing: asked for, answered, taken back; what it does to the permit's last day; the facts to print."""

from datetime import date

import pytest

from tests import builders
from tests.pages.inspections.test_scenarios import BASE, a_photo
from tests.reading import field_errors, links, soup, words
from webapp.hired.models import Hired
from webapp.inspections import store
from webapp.papers.models import Paper

GRANTED = {"answer": "granted", "answered_on": "2026-05-15", "until_day": "2026-10-09", "words": "90 days, once"}


@pytest.fixture
def permit(client, database, build) -> str:
    """BLD, issued on 12 January 2026: by its rule it lapses on Saturday 11 July."""
    with database.writing() as session:
        made = builders.a_permit(session, build, "BLD", name="Building permit", issued_on=date(2026, 1, 12))
        wall = builders.a_surface(session, build, "N", "North wall")
        framing = builders.an_inspection(session, made, "Framing", (wall,))
        builders.a_result(session, builders.a_visit(session, framing, date(2026, 4, 20)), wall, "failed")
        builders.a_visit(session, framing, date(2026, 5, 5), outcome="no entry")
        phase = builders.a_phase(session, build, "Framing and shell")
        builders.a_task(session, phase, "Plates", state="done", done_on=date(2026, 3, 2))
        builders.a_task(session, phase, "Rafters", 2)
        builders.a_task(session, builders.a_phase(session, build, "Telling", 2), "Edit episode 1", kind="editing")
        builders.a_spend(session, build, "Board, 30 sheets", total_cents=59_616)
    return f"{BASE}/permits/BLD"


@pytest.fixture
def asked(client, permit) -> str:
    typed = {"asked_on": "2026-05-10", "why": "The window came seven weeks late.", "fee": "75.00"}
    return client.post(f"{permit}/extensions", data=typed).headers["location"]


def test_it_is_two_taps_from_the_permit_to_the_sheet_of_facts(client, permit):
    assert links(client.get(permit))["Facts for the request, to print"] == f"{permit}/facts"
    assert links(client.get(permit))["Ask for more time"] == f"{permit}/extensions/new"


def test_asking_moves_no_clock_and_its_fee_is_spend_once_it_is_paid(client, permit, asked):
    page = words(client.get(permit))
    assert "Lapses after Saturday 11 July 2026" in page
    assert "Extension, asked for on 10 May 2026: no answer yet" in page
    fee = links(client.get(asked))
    path = next(href for name, href in fee.items() if "75.00" in name)
    assert client.post(f"{path}/pay", data={"paid_on": "2026-05-12"}).status_code == 303
    assert "Fee: extension of Building permit" in words(client.get(f"{BASE}/spend"))


def test_a_granted_one_with_its_letter_moves_the_last_day(client, permit, asked):
    assert client.post(f"{asked}/answer", data=GRANTED, files={"letter": a_photo()}).status_code == 303
    page = words(client.get(permit))
    assert "Lapses after Friday 9 October 2026" in page
    assert "By the extension in writing. By its rules it would be 11 July 2026." in page
    assert "After the last approved visit: 180 days: Saturday 11 July 2026" in page, "each rule keeps its own day"
    assert "Extension: no answer, now granted until 9 October 2026" in page
    assert soup(client.get(asked)).select("img[alt='The letter that answers']")


def test_without_a_letter_it_is_only_said_and_moves_nothing(client, permit, asked):
    client.post(f"{asked}/answer", data=GRANTED)
    page = words(client.get(permit))
    assert "Lapses after Saturday 11 July 2026" in page
    assert "No letter here yet, so the clock is not moved" in page


def test_a_paper_of_one_s_own_is_a_letter_too(client, database, build, permit, asked):
    with database.writing() as session:
        builders.kept(
            session,
            Paper(build_id=build.id, code="PA1", kind="letter", name="Letter of 15 May", recorded_at=builders.AT),
        )
    client.post(f"{asked}/answer", data=GRANTED | {"paper_id": "1"})
    assert "Lapses after Friday 9 October 2026" in words(client.get(permit))
    assert "Paper Letter of 15 May" in words(client.get(asked))


def test_refused_and_taken_back_stay_readable_and_move_nothing(client, permit, asked):
    client.post(f"{asked}/answer", data={"answer": "refused", "answered_on": "2026-05-15"})
    assert "asked for on 10 May 2026: refused on 15 May 2026" in words(client.get(permit))
    client.post(f"{asked}/answer", data=GRANTED, files={"letter": a_photo()})
    assert "Extension: refused, now granted until 9 October 2026" in words(client.get(permit))
    assert client.post(f"{asked}/withdraw").status_code == 303
    page = words(client.get(permit))
    assert "Lapses after Saturday 11 July 2026" in page and "withdrawn on 16 May 2026" in page
    assert client.post(f"{asked}/answer", data=GRANTED).status_code == 409


def test_only_one_is_asked_for_at_a_time_and_none_before_the_permit_is_issued(client, database, build, permit, asked):
    again = client.post(f"{permit}/extensions", data={"why": "once more"})
    assert again.status_code == 409 and "has no answer" in words(again)
    with database.writing() as session:
        builders.a_permit(session, build, "PLB", issued_on=None)
    assert client.post(f"{BASE}/permits/PLB/extensions", data={}).status_code == 409


@pytest.mark.parametrize(
    ("sent", "field", "said"),
    [
        ({"until_day": "2026-07-11"}, "until_day", "until 11 July 2026 already, so this would give it no time"),
        ({"until_day": "2025-10-09"}, "until_day", "Is the day right?"),
        ({"until_day": "2036-10-09"}, "until_day", "more than two years away"),
        ({"until_day": ""}, "until_day", "Until which day"),
        ({"answered_on": "2026-05-01"}, "answered_on", "It was asked for on 10 May 2026"),
        ({"answered_on": "2026-06-01"}, "answered_on", "has not come yet"),
        ({"until_day": "2026-02-30"}, "until_day", "February 2026 has 28 days"),
    ],
)
def test_an_answer_that_cannot_be_is_told_beside_its_field(client, asked, sent, field, said):
    answer = client.post(f"{asked}/answer", data=GRANTED | sent)
    assert answer.status_code == 422
    assert said in field_errors(answer)[field]


def test_an_answer_says_whether_it_was_granted(client, asked):
    answer = client.post(f"{asked}/answer", data=GRANTED | {"answer": ""})
    assert (answer.status_code, words(answer, "#e-answer")) == (422, "Was it granted or refused?")


def test_a_request_that_cannot_be_is_told_beside_its_field(client, permit):
    typed = {"asked_on": "2025-12-01", "fee": "1.234", "fee_due": "soon"}
    found = field_errors(client.post(f"{permit}/extensions", data=typed))
    assert set(found) == {"asked_on", "fee", "fee_due"}
    assert "issued on 12 January 2026" in found["asked_on"]
    assert set(field_errors(client.post(f"{permit}/extensions", data={"fee": "-5"}))) == {"fee"}


def test_the_reason_is_put_right_and_the_old_one_kept(client, permit, asked):
    client.post(asked, data={"asked_on": "2026-05-10", "why": "The window came eight weeks late."})
    page = words(client.get(permit))
    assert "Reason for the extension: The window came seven weeks late., now The window came eight weeks late." in page


def test_the_sheet_of_facts_has_days_visits_progress_and_reason_and_no_spend(client, permit, asked):
    page = words(client.get(f"{permit}/facts"))
    for said in (
        "Issued on 12 January 2026.",
        "Lapses after Saturday 11 July 2026",
        "The window came seven weeks late.",
        "Monday 20 April 2026: Framing North wall: failed",
        "Tuesday 5 May 2026: Framing No entry",
        "Framing and shell 1 of 2 tasks done, the last on 2 March 2026",
        "North wall open; Framing: failed",
    ):
        assert said in page, said
    assert "Telling" not in page and "episode" not in page.casefold().partition("sheets")[0]
    assert "596.16" not in page and "Board, 30 sheets" not in page and "75.00" not in page


def test_pressing_twice_asks_once(client, permit, database, build):
    sent_id = soup(client.get(f"{permit}/extensions/new")).select_one("#f [name=sent_id]")["value"]
    for _ in range(2):
        assert client.post(f"{permit}/extensions", data={"why": "late", "sent_id": sent_id}).status_code == 303
    with database.reading() as session:
        assert len(store.get_permit(session, build.id, "BLD").extensions) == 1


def test_work_begun_and_the_rules_are_typed_with_the_permit(client):
    typed = {"name": "Building permit", "code": "BLD", "issued_on": "2026-01-12", "started_on": "2026-02-02"}
    rules = {
        "idle_count": "180",
        "start_count": "6",
        "start_span": "months",
        "fixed_count": "12",
        "fixed_span": "months",
    }
    assert client.post(f"{BASE}/permits", data=typed | rules | {"code_edition": "2021"}).status_code == 303
    page = words(client.get(f"{BASE}/permits/BLD"))
    assert "If work has not begun: 6 months: work began on 2 February 2026, so it runs no more" in page
    assert "After the last approved visit: 180 days: Saturday 11 July 2026 This one decides." in page
    assert "Whole life: 12 months: Tuesday 12 January 2027" in page
    client.post(f"{BASE}/permits/BLD", data=typed | rules | {"idle_count": "400", "why": "read the back page"})
    page = words(client.get(f"{BASE}/permits/BLD"))
    assert "After the last approved visit: 180 days (my guess), now 400 days (my guess)" in page
    assert "12 months after issue." in page, "the whole life decides now"


@pytest.mark.parametrize(
    ("sent", "field", "said", "likely"),
    [
        ({"asked_on": "2026-03-02", "issued_on": "2025-04-02"}, "issued_on", "before it was asked for", "2026-04-02"),
        (
            {"asked_on": "2025-03-02", "issued_on": "2026-04-02"},
            "issued_on",
            "far from the day it was asked for",
            "2025-04-02",
        ),
        ({"issued_on": "2023-04-02"}, "issued_on", "far from today", "2026-04-02"),
        (
            {"issued_on": "2026-04-02", "started_on": "2025-04-20"},
            "started_on",
            "before the permit was issued",
            "2026-04-20",
        ),
        ({"issued_on": "2027-04-02"}, "issued_on", "has not come yet", "2026-04-02"),
    ],
)
def test_a_day_a_year_off_is_asked_about_with_the_likely_one(client, sent, field, said, likely):
    answer = client.post(f"{BASE}/permits", data={"name": "Building permit"} | sent)
    assert answer.status_code == 422
    assert said in field_errors(answer)[field]
    assert [button["value"] for button in soup(answer).select(".likely button")] == [likely]
    if "far from" in said:
        right = {"name": "Building permit", "days_right": "yes"} | sent
        assert client.post(f"{BASE}/permits", data=right).status_code == 303


def test_numbers_that_cannot_be_are_told(client):
    typed = {
        "name": "Building",
        "idle_count": "-180",
        "start_count": "99999",
        "fixed_count": "400",
        "fixed_span": "months",
    }
    assert set(field_errors(client.post(f"{BASE}/permits", data=typed))) == {"idle_count", "start_count", "fixed_count"}


def test_a_permit_held_by_somebody_hired_says_so(client, database, build, permit):
    with database.writing() as session:
        builders.kept(session, Hired(build_id=build.id, code="EL", trade="electrician", recorded_at=builders.AT))
    typed = {"name": "Building permit", "code": "BLD", "issued_on": "2026-01-12", "idle_count": "180", "hired": "1"}
    assert client.post(permit, data=typed).status_code == 303
    page = words(client.get(permit))
    assert "Held by the electrician, who is hired." in page
    assert "Held by: me, now electrician" in page
    assert set(field_errors(client.post(permit, data=typed | {"hired": "9"}))) == {"hired"}
