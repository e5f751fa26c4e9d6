"""Offices and their days: typed once, and every moment to ask follows them."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import field_errors, soup, words

BASE = "/builds/bindery"
TYPED = {
    "name": "Building inspections",
    "weekdays": ["1", "3"],
    "from_time": "9:00",
    "until_time": "15:00",
    "notice_days": "2",
    "ask_by": "15:30",
    "cancel_by": "07:00",
    "calendar": "us-or",
    "source": "authority's handout",
}


@pytest.fixture
def office(client) -> str:
    """The path of an office that comes on Tuesday and Thursday."""
    return client.post(f"{BASE}/offices", data=TYPED).headers["location"]


@pytest.fixture
def framing(client, database, build, office) -> str:
    with database.writing() as session:
        permit = builders.a_permit(session, build, "BLD", issued_on=date(2026, 1, 12))
        builders.an_inspection(session, permit, "Framing", office_id=1)
    return f"{BASE}/inspections/FRAMING"


def test_an_office_says_when_it_comes_and_what_is_the_next_visit_to_be_had(client, office):
    page = words(client.get(office))
    assert "Comes on Tuesday and Thursday, 09:00 to 15:00. 2 working days of notice, asked for by 15:30." in page
    assert "Call off by 07:00 of the day." in page
    assert "Thursday 21 May 2026, asked for by Tuesday 19 May 2026 15:30" in page
    assert "Monday 25 May 2026 Memorial Day, by the calendar US-OR" in page
    assert "Building inspections Comes on Tuesday and Thursday" in words(client.get(f"{BASE}/offices"))


def test_a_visit_is_asked_for_by_the_office_s_days_and_notice(client, framing):
    """Tuesday 26 May, two working days before it, past Memorial Day: Thursday 21 May."""
    client.post(f"{framing}/visits", data={"day": "2026-05-26"})
    assert "Ask by Thursday 21 May 2026 15:30. 2 working days of notice" in words(client.get(framing))
    assert "Thu 21 May 15:30" in words(client.get(f"{BASE}/today"))


def test_an_inspection_can_have_its_own_notice_and_hour(client, framing):
    edited = {"name": "Framing", "permit": "1", "office": "1", "code": "FRAMING", "notice_days": "1", "ask_by": "12:00"}
    assert client.post(f"{framing}/edit", data=edited).status_code == 303
    client.post(f"{framing}/visits", data={"day": "2026-05-26"})
    page = words(client.get(framing))
    assert "Ask by Friday 22 May 2026 12:00. 1 working day of notice" in page
    assert "Notice, working days: as its office, now 1" in page


def test_closed_days_and_holidays_worked_on_move_the_moment_to_ask(client, office, framing):
    client.post(f"{framing}/visits", data={"day": "2026-05-28"})
    assert "Ask by Tuesday 26 May 2026" in words(client.get(framing))
    client.post(f"{office}/closed", data={"day": "2026-05-26", "until_day": "2026-05-27", "why": "moving house"})
    assert "Ask by Thursday 21 May 2026" in words(client.get(framing)), "over the closed days, Memorial Day, a weekend"
    client.post(f"{office}/closed", data={"open": "yes", "day": "2026-05-25"})
    assert "Ask by Friday 22 May 2026" in words(client.get(framing))
    page = words(client.get(office))
    assert "Tue 26 May to Wednesday 27 May 2026 Closed: moving house" in page
    assert "Monday 25 May 2026 It works on this day all the same" in page
    drop = soup(client.get(office)).select_one("form[action$='/drop']")["action"]
    assert client.post(drop).status_code == 303
    assert client.post(drop).status_code == 404


def test_a_day_off_that_is_taken_out_and_days_that_are_put_right_stay_readable(client, office):
    other = client.post(f"{BASE}/offices", data=TYPED | {"name": "Electrical inspections"}).headers["location"]
    client.post(f"{office}/closed", data={"day": "2026-05-26", "until_day": "2026-05-27", "why": "moving house"})
    client.post(f"{office}/closed", data={"day": "2026-06-30", "why": "stocktaking", "everywhere": "yes"})
    assert not soup(client.get(office)).select_one("#before")
    client.post(f"{office}/closed/1/drop")
    client.post(f"{office}/closed/2/drop")
    told = words(client.get(office), "#before")
    assert "Day off: Tuesday 26 May 2026 to Wednesday 27 May 2026. Closed: moving house, now taken out" in told
    assert "Tuesday 30 June 2026. Closed, every office: stocktaking, now taken out" in told
    assert "Changed" in told
    elsewhere = words(client.get(other), "#before")
    assert "stocktaking" in elsewhere and "moving house" not in elsewhere

    client.post(office, data=TYPED | {"weekdays": ["2"], "ask_by": "14:00"})
    told = words(client.get(office), "#before")
    assert "It comes on: Tuesday and Thursday, now Wednesday" in told
    assert "Ask by: 15:30, now 14:00" in told
    assert "Notice" not in told


def test_a_permit_s_last_useful_visit_goes_by_the_office(client, framing):
    """Issued on 12 January, so it lapses on Saturday 11 July; the office comes on Thursday 9, to be asked on 7."""
    assert "Last useful visit Thu 9 Jul Ask by Tue 7 Jul 15:30" in words(client.get(f"{BASE}/permits"))


def test_what_cannot_be_meant_is_told_beside_its_field(client, office):
    wrong = TYPED | {"name": "", "weekdays": [], "until_time": "8:00", "notice_days": "-1", "ask_by": "noon"}
    answer = client.post(f"{BASE}/offices", data=wrong | {"cancel_by": "", "cancel_days": "2", "calendar": "US-ZZ"})
    assert answer.status_code == 422
    found = field_errors(answer)
    assert set(found) == {"name", "until_time", "notice_days", "ask_by", "cancel_by", "calendar"}
    assert words(answer, "#e-weekdays") == "On which weekdays does it come? Tick at least one."
    assert "US has no part “ZZ”" in found["calendar"]
    assert soup(answer).select_one("#f-ask_by")["value"] == "noon"
    nowhere = client.post(f"{BASE}/offices", data=TYPED | {"calendar": "nowhere"})
    assert "No calendar is known" in field_errors(nowhere)["calendar"]
    again = client.post(f"{BASE}/offices", data=TYPED)
    assert again.status_code == 409 and "another office called Building inspections" in words(again)


def test_closed_days_that_cannot_be_are_told_and_a_far_day_is_asked_about(client, office):
    reversed_ = client.post(f"{office}/closed", data={"day": "2026-05-20", "until_day": "2026-05-10"})
    assert "10 May 2026 is before 20 May 2026" in field_errors(reversed_)["until_day"]
    over_new_year = client.post(f"{office}/closed", data={"day": "2026-12-24", "until_day": "2026-01-02"})
    assert [button["value"] for button in soup(over_new_year).select(".likely button")] == ["2027-01-02"]
    for_ever = client.post(f"{office}/closed", data={"day": "2026-05-20", "until_day": "2028-05-20"})
    assert "more than a year" in field_errors(for_ever)["until_day"]
    far = {"day": "2029-05-20"}
    assert "more than a year from today" in field_errors(client.post(f"{office}/closed", data=far))["day"]
    assert client.post(f"{office}/closed", data=far | {"days_right": "yes"}).status_code == 303
    assert set(field_errors(client.post(f"{office}/closed", data={}))) == {"day"}


def test_pressing_twice_adds_one_office(client):
    sent_id = soup(client.get(f"{BASE}/offices/new")).select_one("#f [name=sent_id]")["value"]
    first, second = (client.post(f"{BASE}/offices", data=TYPED | {"sent_id": sent_id}) for _ in range(2))
    assert first.headers["location"] == second.headers["location"]


def test_the_list_costs_the_same_with_five_offices_and_with_fifty(client, database, build):
    def offices(start: int, end: int) -> None:
        with database.writing() as session:
            for number in range(start, end):
                office = builders.an_office(session, build, f"Office {number}")
                builders.a_closed_day(session, build, date(2026, 6, 1), office)

    client.get(f"{BASE}/offices")
    for path in ("offices", "offices/1"):
        offices(*((0, 5) if path == "offices" else (50, 55)))
        with queries(database, anew=True) as few:
            assert client.get(f"{BASE}/{path}").status_code == 200
        offices(*((5, 50) if path == "offices" else (55, 100)))
        with queries(database, anew=True) as many:
            assert client.get(f"{BASE}/{path}").status_code == 200
        assert 0 < len(few) == len(many)
