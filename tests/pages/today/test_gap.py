"""Coming back after five weeks: what went stale meanwhile, at most five things, and one small first step."""

from datetime import date, timedelta

import pytest

from tests import builders
from tests.reading import headings, links, soup, words
from webapp.plan.models import Booked, TaskDanger

TODAY = "/builds/bindery/today"
SATURDAY = date(2026, 5, 16)
BACK_THEN = SATURDAY - timedelta(days=36)


@pytest.fixture
def gap(database, build) -> dict[str, int]:
    """The last day is five weeks ago. Since then a permit came near its end, a visit and a truck passed, mud dried."""
    with database.writing() as session:
        builders.a_workday(session, build, BACK_THEN)
        phase = builders.a_phase(session, build)
        permit = builders.a_permit(session, build, issued_on=date(2025, 12, 1))
        inspection = builders.an_inspection(session, permit, surfaces=(builders.a_surface(session, build),))
        visit = builders.a_visit(session, inspection, date(2026, 4, 28), outcome="asked")
        dried = builders.a_task(
            session, phase, "First coat", 1, state="done", done_on=date(2026, 4, 20), wait_days=2, wait_reason="drying"
        )
        step = builders.a_task(session, phase, "Sweep the floor", 2, low_min=10, likely_min=30, high_min=60)
        ladder = builders.a_task(session, phase, "Hang the fan", 3, likely_min=60)
        builders.kept(session, TaskDanger(task_id=ladder.row_id, danger="ladder"))
        builders.a_need(session, builders.a_task(session, phase, "Run the duct", 4, likely_min=60), ladder)
        booked = builders.kept(
            session, Booked(build_id=build.row_id, task_id=step.row_id, what="Skip", day=date(2026, 4, 30))
        )
        return {"visit": visit.row_id, "dried": dried.row_id, "step": step.row_id, "booked": booked.row_id}


def lines(page) -> list[str]:
    return [item.get_text(" ", strip=True) for item in soup(page).select("ol.big > li")]


def test_what_went_stale_stands_in_five_lines_and_each_leads_to_where_it_is_settled(client, gap):
    page = client.get(TODAY)
    told = lines(page)
    assert len(told) == 5
    assert told[0].startswith("The permit first The first permit to lapse is Electrical permit: 30 May 2026")
    assert told[1] == "Rough electrical: did they come? The visit was to be Tue 28 Apr. Write down how it went."
    assert told[2] == "Skip: did it come? Was to be here Thu 30 Apr. Say so, or give it another day."
    assert told[3] == "First coat Drying over since Wed 22 Apr. What waited for it can go on."
    assert told[4].startswith("A first step: Sweep the floor 30 min."), "not the ladder, alone, on the first evening"
    hrefs = [item.a["href"] for item in soup(page).select("ol.big > li")]
    base = "/builds/bindery"
    assert hrefs[1:] == [
        f"{base}/visits/{gap['visit']}",
        f"{base}/booked/{gap['booked']}",
        f"{base}/tasks/{gap['dried']}",
        f"{base}/tasks/{gap['step']}",
    ]
    for href in hrefs:
        assert client.get(href).status_code == 200


def test_the_page_is_short_and_the_whole_of_today_is_one_tap_away(client, gap):
    page = client.get(TODAY)
    assert headings(page)[:2] == ["Today", "Good that you are back"]
    assert "Can start now" not in words(page)
    whole = client.get(links(page)["The whole of today"])
    assert "Can start now" in words(whole)
    assert "Good that you are back" in headings(whole)


def test_it_is_kind(client, gap):
    told = words(client.get(TODAY)).lower()
    for word in ("overdue", "missed", "late", "streak", "behind", "should have", "%", "failed"):
        assert word not in told


def test_what_does_not_fit_is_counted_and_moves_up_once_something_is_settled(client, database, build, gap):
    with database.writing() as session:
        for number in range(3):
            builders.kept(session, Booked(build_id=build.row_id, what=f"Truck {number}", day=date(2026, 5, 1 + number)))
    page = client.get(TODAY)
    assert len(lines(page)) == 5
    assert "3 more things came due meanwhile, and will stand here in turn." in words(page)
    assert client.post(f"/builds/bindery/booked/{gap['booked']}/state", data={"to": "came"}).status_code == 303
    page = client.get(TODAY)
    assert lines(page)[2].startswith("Truck 0: did it come?")
    assert "2 more things" in words(page)
    assert client.post("/builds/bindery/workdays/log", data={"own": "1"}).status_code == 303
    assert "Good that you are back" not in headings(client.get(TODAY)), "one day logged, and all is as always"
