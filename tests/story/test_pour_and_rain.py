"""Scenario "Pour and rain": a footing visit on Tuesday, a truck on Wednesday, and rain on Monday night."""

from datetime import date

import pytest

from tests import builders
from tests.reading import field_errors, soup, words
from tests.story.bindery import BASE, saved
from webapp.inspections.store import list_fees, list_visits
from webapp.plan.models import Need
from webapp.plan.store.booked import list_booked

TUESDAY, WEDNESDAY, THURSDAY = (date(2026, 5, day) for day in (19, 20, 21))
RAIN = "Rain filled the trench"


@pytest.fixture
def today() -> date:
    return TUESDAY


@pytest.fixture
def footing(database, build):
    """A footing to be seen before the pour; a cure of seven days before the frame; a later visit of the frame."""
    with database.writing() as session:
        permit = builders.a_permit(session, build, "BLD")
        slab = builders.a_surface(session, build, "FT", "Footing", kind="slab", facing="")
        wall = builders.a_surface(session, build, "N", "North wall", position=2)
        seen = builders.an_inspection(session, permit, "Footing", (slab,), code="FOOT")
        frame = builders.an_inspection(session, permit, "Framing", (wall,), code="FRM", position=2)
        phase = builders.a_phase(session, build, "Footing")
        pour = builders.a_task(session, phase, "Pour the footing", 1, kind="concrete", wait_days=7, wait_reason="cure")
        frames = builders.a_task(session, phase, "Frame the north wall", 2, kind="framing")
        builders.works_on(session, pour, slab, closes=True)
        builders.works_on(session, frames, wall)
        builders.a_need(session, frames, pour)
        need = {"what_kind": "inspection", "what_id": frame.row_id, "needs_kind": "task", "needs_id": frames.row_id}
        builders.kept(session, Need(build_id=build.row_id, **need))
        asked = {"outcome": "asked", "asked_on": date(2026, 5, 15)}
        visit = builders.a_visit(session, seen, TUESDAY, window="08:00 to 10:00", **asked)
        builders.a_visit(session, frame, WEDNESDAY, outcome="planned")
        return {"visit": visit.row_id, "pour": pour.row_id, "frames": frames.row_id, "build": build.row_id}


@pytest.fixture
def truck(client, footing):
    """Typed by the builder, for the pour."""
    sent = {"what": "Concrete truck", "task": str(footing["pour"]), "day": "2026-05-20", "cancel_by": "7:00"}
    saved(client.post(f"{BASE}/booked", data=sent))
    return f"{BASE}/booked/1"


def test_moving_the_visit_shows_the_truck_with_its_hour(client, footing, truck):
    page = words(client.get(f"{BASE}/visits/{footing['visit']}/move"))
    assert "Concrete truck, Wed 20 May" in page
    assert "For “Pour the footing”, which waits for this visit. Call off by Wed 20 May 07:00." in page
    assert "Framing" in page, "a visit that needs this one first is named"


def test_visit_and_truck_move_in_one_save_and_both_keep_what_they_said(client, database, footing, truck):
    sent = {"day": "2026-05-21", "asked_on": "2026-05-19", "why": RAIN, "with_1": "move", "day_1": ""}
    saved(client.post(f"{BASE}/visits/{footing['visit']}/move", data=sent))
    with database.reading() as session:
        (booked,) = list_booked(session, footing["build"])
        assert (booked.day, booked.state) == (date(2026, 5, 22), "booked"), "two days later, as the visit"
        assert list_fees(session, footing["build"]) == (), "no fee is invented"
    assert "Day: Tuesday 19 May 2026, now Thursday 21 May 2026" in words(
        client.get(f"{BASE}/visits/{footing['visit']}")
    )
    told = words(client.get(truck))
    assert "Day: Wednesday 20 May 2026, now Friday 22 May 2026" in told
    assert RAIN in told
    assert "Visit: framing, Wed 20 May Footing comes first, and that visit is on Thu 21 May." in words(
        client.get(f"{BASE}/today")
    )


def test_what_is_not_moved_too_is_flagged_in_view(client, database, footing, truck):
    saved(
        client.post(f"{BASE}/visits/{footing['visit']}/move", data={"day": "2026-05-21", "why": RAIN, "with_1": "flag"})
    )
    for page in ("today", "what-stops"):
        told = words(client.get(f"{BASE}/{page}"))
        assert "Has to be moved" in told
        assert "Concrete truck, Wed 20 May" in told
    sent = {"what": "Concrete truck", "task": str(footing["pour"]), "day": "2026-05-22", "why": "rang them"}
    saved(client.post(truck, data=sent))
    assert "Concrete truck" not in words(client.get(f"{BASE}/today")), "with a day that fits nothing is left to move"


def test_a_truck_cannot_stay_before_the_visit(client, footing, truck):
    sent = {"day": "2026-05-21", "with_1": "stay"}
    answer = client.post(f"{BASE}/visits/{footing['visit']}/move", data=sent)
    assert answer.status_code == 422
    assert "Wed 20 May is before the visit on Thu 21 May." in words(answer, "#e-with_1")
    sent = {"day": "2026-05-21", "with_1": "move", "day_1": "2026-05-20", "why": RAIN}
    answer = client.post(f"{BASE}/visits/{footing['visit']}/move", data=sent)
    assert "is before the visit" in field_errors(answer)["day_1"]
    assert soup(answer).select_one("[name=why]")["value"] == RAIN


def test_calling_it_off_flags_the_truck(client, database, footing, truck):
    answer = saved(client.post(f"{BASE}/visits/{footing['visit']}/cancel", data={"reason": RAIN, "lost": "yes"}))
    assert answer.headers["location"] == f"{BASE}/workdays/log?lost=rain"
    with database.reading() as session:
        assert list_booked(session, footing["build"])[0].state == "has to be moved"
        assert next(one for one in list_visits(session, footing["build"]) if one.id == footing["visit"]).reason == RAIN
        assert list_fees(session, footing["build"]) == ()
    assert "The visit was called off: Rain filled the trench" in words(client.get(truck))


def test_the_day_is_logged_as_lost_to_rain_from_there(client, footing, truck):
    sent = {"day": "2026-05-21", "why": RAIN, "with_1": "move", "lost": "yes"}
    answer = saved(client.post(f"{BASE}/visits/{footing['visit']}/move", data=sent))
    form = soup(client.get(answer.headers["location"]))
    assert form.select_one("[name=lost]").has_attr("checked")
    assert form.select_one("[name=stopped][checked], [name=stopped] [selected]")["value"] == "Rain"
    saved(client.post(f"{BASE}/workdays/log", data={"day": "2026-05-19", "stopped": "Rain", "lost": "yes"}))
    assert "A lost day. Rain" in words(client.get(f"{BASE}/workdays"))


def test_the_cure_starts_only_when_the_pour_is_recorded(client, database, footing, truck):
    saved(client.post(f"{BASE}/visits/{footing['visit']}/move", data={"day": "2026-05-21", "with_1": "move"}))
    assert "Cure: earliest" not in words(client.get(f"{BASE}/tasks/{footing['pour']}"))
    refused = client.post(f"{BASE}/tasks/{footing['pour']}/finish", data={"on": "today"})
    assert refused.status_code == 409, "the footing has not been seen"
    sent = {"day": "2026-05-19", "kind_1": "passed", "day_right": "yes"}
    saved(client.post(f"{BASE}/visits/{footing['visit']}/result", data=sent))
    saved(client.post(f"{BASE}/tasks/{footing['pour']}/finish", data={"on": "2026-05-19"}))
    assert "Cure: earliest Tue 26 May" in words(client.get(f"{BASE}/tasks/{footing['pour']}"))


@pytest.mark.parametrize(
    ("field", "typed", "sentence"),
    [
        ("what", "", "What comes?"),
        ("day", "2028-05-20", "more than a year off"),
        ("day", "2026-04-31", "April has 30 days"),
        ("cancel_by", "seven", "Write an hour such as 07:00."),
        ("cancel_days", "-1", "A number from 0 to 30 fits here."),
    ],
)
def test_what_cannot_be_meant_is_said_beside_its_field(client, footing, field, typed, sentence):
    sent = {"what": "Concrete truck", "task": str(footing["pour"]), "day": "2026-05-20"} | {field: typed}
    answer = client.post(f"{BASE}/booked", data=sent)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert soup(answer).select_one(f"[name={field}]")["value"] == typed
