"""Scenario "Permit about to lapse", through the pages: its rule typed from the permit, a pass, a failure, and today.

Weekdays by hand on a calendar of 2026; E41 and IRC R105.5 stand behind the rules' own tests.
"""

from datetime import date, timedelta

import pytest

from tests import builders
from tests.reading import words
from tests.story.bindery import BASE, saved
from webapp.core import clock

NUMBERS = {"BLD": ("2025-08-29", "180"), "ELE": ("2026-03-01", "365"), "PLB": ("2026-02-20", "180")}


@pytest.fixture
def permits(client, database, build):
    """Three permits typed from their papers; framing passed on 12 January and failed on 20 April."""
    for code, (issued, days) in NUMBERS.items():
        typed = {"name": f"{code} permit", "code": code, "issued_on": issued, "idle_count": days}
        saved(client.post(f"{BASE}/permits", data=typed | {"idle_source": "my permit, back page"}))
    framing = {"name": "Framing", "permit": "1", "notice_days": "2", "ask_by": "15:30", "renews_permit": "yes"}
    saved(client.post(f"{BASE}/inspections", data=framing))
    with database.writing() as session:
        kind = session.get_one(builders.Inspection, 1)
        builders.a_result(session, builders.a_visit(session, kind, date(2026, 1, 12)), None, "part passed")
        builders.a_result(session, builders.a_visit(session, kind, date(2026, 4, 20)), None, "failed")


def test_the_failed_visit_did_not_renew_it_and_the_last_useful_day_and_moment_to_ask_are_said(client, permits):
    page = words(client.get(f"{BASE}/permits/BLD"))
    assert "Lapses after Saturday 11 July 2026" in page
    assert "Last day that counts Framing, part passed, Monday 12 January 2026" in page
    assert "Framing would renew it, if it passes." in page
    assert "Last useful visit Fri 10 Jul Ask by Wed 8 Jul 15:30" in page
    today = words(client.get(f"{BASE}/today"))
    assert "The first permit to lapse is BLD permit: 11 July 2026" in today
    assert "The last useful day is Fri 10 Jul, asked for by Wed 8 Jul 15:30." in today


def test_logging_a_day_renews_nothing_and_the_others_have_days_of_their_own(client, permits):
    saved(client.post(f"{BASE}/workdays/log", data={"day": "2026-05-15", "own": "3", "done": "Plates"}))
    page = words(client.get(f"{BASE}/permits"))
    assert "Lapses after Saturday 11 July 2026" in page
    assert "Lapses after Monday 1 March 2027" in page
    assert "Lapses after Wednesday 19 August 2026" in page


def test_once_the_moment_to_ask_has_gone_by_it_says_that_only_an_extension_is_left(app, client, permits):
    for day, said in (
        (date(2026, 7, 8), "That is today."),
        (date(2026, 7, 9), "What is left is an extension in writing."),
    ):
        app.dependency_overrides[clock.today] = lambda day=day: day
        page = words(client.get(f"{BASE}/permits/BLD"))
        assert said in page, day
    assert "No visit can be had any more before it lapses: Framing had to be asked for by Wednesday 8 July 2026" in page
    assert "What is left is an extension in writing." in words(client.get(f"{BASE}/today"))
    assert "What is left is an extension in writing." in words(client.get(f"{BASE}/what-stops"))
    app.dependency_overrides[clock.today] = lambda: date(2026, 7, 11) + timedelta(days=1)
    assert "That was yesterday. Ask your authority how it stands." in words(client.get(f"{BASE}/permits/BLD"))


def test_a_visit_asked_for_in_time_is_the_way_out(app, client, permits):
    booked = {"day": "2026-07-09", "asked_on": "2026-05-16"}
    saved(client.post(f"{BASE}/inspections/FRAMING/visits", data=booked))
    app.dependency_overrides[clock.today] = lambda: date(2026, 7, 9)
    page = words(client.get(f"{BASE}/permits/BLD"))
    assert "Framing would renew it, if it passes. Asked for: Thursday 9 July 2026." in page
