"""The first page: where the builder stands, what can be done in the time there is, what waits, what comes next."""

from datetime import date, timedelta

import pytest

from tests import builders
from tests.eastwall import an_east_wall
from tests.reading import headings, links, soup, words
from webapp.episodes.models import Episode
from webapp.workdays.models import Workday

G1 = "/builds/bindery/today"
SATURDAY = date(2026, 5, 16)


@pytest.fixture
def wall(database, build):
    with database.writing() as session:
        made = an_east_wall(session, build)
        return {"phase": made.phase.row_id, "insulation": made.insulation.row_id, "surface": made.surface.row_id}


def phase_of(session, build, title="Wiring"):
    return builders.a_phase(session, build, title, position=0)


def test_the_root_leads_to_the_newest_build(client, database):
    assert client.get("/").headers["location"] == "/builds/bindery/today"
    with database.writing() as session:
        builders.a_build(session, "Shed")
    assert client.get("/").headers["location"] == "/builds/shed/today"


def test_an_empty_build_is_a_clean_sheet_with_three_first_lines(client):
    page = client.get(G1)
    assert headings(page)[:2] == ["A clean sheet", "Start with one"]
    for href in ("/surfaces/new", "/permits/new", "/phases"):
        assert client.get(f"/builds/bindery{href}").status_code == 200


def test_the_section_names_what_is_owed_of_the_nearest_surface(client, wall):
    page = client.get(G1)
    assert "East wall 4 hard stops" in headings(page)
    section = soup(page).select_one("figure.hero svg")
    assert section["role"] == "img"
    notes = [text.get_text() for text in section.select("text")]
    assert notes.count("correction open") == 1
    assert "passed 7 May" in notes
    assert "do not cover" in notes
    assert len(notes) <= 14, "at most seven notes of two lines"
    assert "Drain and supply: no picture yet" in section.desc.get_text()


def test_what_can_start_fits_the_time_and_says_what_it_frees(client, database, build):
    with database.writing() as session:
        phase = phase_of(session, build)
        short = builders.a_task(session, phase, "Plates on three studs", 1, low_min=15, likely_min=25, high_min=40)
        builders.a_need(session, builders.a_task(session, phase, "Staple the runs", 2, likely_min=180), short)
        builders.a_task(session, phase, "Pull the feeder", 3, likely_min=200)
    page = client.get(f"{G1}?time=60")
    assert "Plates on three studs Frees staple the runs. 25 min" in words(page, "#start")
    assert "Pull the feeder" not in words(page, "#start")
    assert "Pull the feeder" in words(client.get(f"{G1}?time=240"), "#start")


def test_hands_and_weather_are_asked_in_links_and_remembered_nowhere(client, database, build):
    with database.writing() as session:
        phase = phase_of(session, build)
        builders.a_task(session, phase, "Lift the board", 1, hands=2, likely_min=60)
        builders.a_task(session, phase, "Paint the siding", 2, weather="dry", likely_min=60)
        builders.a_task(session, phase, "Dig the trench", 3, who="hired", likely_min=60)
    assert words(client.get(G1), "#start .rows") == "Paint the siding 1 h, alone, needs a dry day 1 h"
    helped = words(client.get(f"{G1}?hands=helper&weather=wet"), "#start .rows")
    assert helped == "Lift the board 1 h, two pairs of hands 1 h"
    assert "alone, dry" in words(client.get(G1), "#start h2")


def test_three_are_shown_and_the_rest_counted(client, database, build):
    with database.writing() as session:
        phase = phase_of(session, build)
        for number in range(8):
            builders.a_task(session, phase, f"Job {number}", number, likely_min=60)
    page = client.get(G1)
    assert len(soup(page).select("#start .rows > li")) == 3
    whole = client.get(links(page)["5 more"])
    assert len(soup(whole).select("#start .rows > li")) == 8


def test_pictures_of_one_wall_are_one_errand(client, wall):
    page = words(client.get(f"{G1}?all=1"), "#start")
    assert "Pictures 6 and 7" in page


def test_what_waits_for_others_names_whom_and_until_when(client, database, build, wall):
    with database.writing() as session:
        phase = phase_of(session, build)
        builders.a_task(session, phase, "Lift the board", hands=2)
        pour = builders.a_task(session, phase, "Pour the patch", state="done", done_on=SATURDAY, wait_days=5)
        builders.a_need(session, builders.a_task(session, phase, "Grind", 9), pour)
    page = words(client.get(G1))
    assert "D Drying Pour the patch Thu 21 May" in page
    assert "H Helper Lift the board" in page


def test_the_next_visit_counts_the_days_to_ask(client, database, build, wall):
    """Notice of one working day: a visit on Tuesday is asked for by Monday, half past three."""
    with database.writing() as session:
        inspection = session.get_one(builders.Inspection, wall["insulation"])
        builders.a_visit(session, inspection, date(2026, 5, 19), outcome="planned", window="8:00 to 12:00")
    page = client.get(G1)
    assert "When Tue 19 May 8:00 to 12:00 Ask by Mon 18 May 15:30" in words(page)
    line = soup(page).select_one("figure.appt svg")
    assert line["aria-label"] == "From now, 2 days to ask; the visit comes 1 day after that."


def test_too_late_to_ask_is_said_plainly(client, database, build, wall):
    with database.writing() as session:
        inspection = session.get_one(builders.Inspection, wall["insulation"])
        inspection.notice_days = 3
        builders.a_visit(session, inspection, date(2026, 5, 18), outcome="planned")
    assert "The notice is too short for that day by now." in words(client.get(G1))


def test_the_first_permit_to_lapse_is_one_sentence(client, wall):
    """180 days after the last approved visit, 15 May 2026: 11 November 2026 (calendar counted by hand)."""
    told = words(client.get(G1))
    assert "The first permit to lapse is Electrical permit: 11 November 2026, unless a visit is approved" in told


def test_after_three_weeks_the_page_begins_kindly_with_the_permit_and_one_short_step(client, database, build, wall):
    with database.writing() as session:
        phase = phase_of(session, build)
        builders.a_task(session, phase, "Sweep the floor", likely_min=30, low_min=10, high_min=60)
        day = SATURDAY - timedelta(days=36)
        builders.kept(session, Workday(build_id=build.row_id, day=day, own_min=60, logged_at=builders.AT))
    page = client.get(G1)
    assert headings(page)[1] == "Good that you are back"
    lines = [item.get_text(" ", strip=True) for item in soup(page).select("ol.big > li")]
    assert lines[0].startswith("The permit first")
    assert lines[-1].startswith("A first step: Sweep the floor 30 min")
    assert len(lines) <= 5
    assert "The last day logged was 5 weeks ago. All is where you left it." in words(page)


def test_without_a_gap_there_is_no_such_head(client, database, build, wall):
    with database.writing() as session:
        builders.kept(session, Workday(build_id=build.row_id, day=SATURDAY, own_min=60, logged_at=builders.AT))
    assert "Good that you are back" not in words(client.get(G1))


def test_the_episode_in_the_making_says_what_it_holds(client, database, build, wall):
    with database.writing() as session:
        builders.kept(
            session, Episode(build_id=build.row_id, number=10, title="The east wall", from_day=date(2026, 5, 1))
        )
        builders.kept(session, Workday(build_id=build.row_id, day=SATURDAY, own_min=180, logged_at=builders.AT))
    page = client.get(G1)
    assert "Episode 10: The east wall in the making" in headings(page)
    assert "1 day, 3 h my own, 3 results" in words(page)


def test_only_the_list_comes_when_htmx_asks_for_other_hours(client, wall):
    answer = client.get(f"{G1}?time=60", headers={"hx-request": "true"})
    assert "<html" not in answer.text and "Can start now" in answer.text


def test_a_stranger_sees_nothing(stranger, wall):
    assert stranger.get(G1).headers["location"].startswith("/sign-in")
    assert stranger.get("/").headers["location"].startswith("/sign-in")


def test_many_questions_do_not_hide_the_one_that_holds_up_most(client, database, build):
    with database.writing() as session:
        west = builders.a_surface(session, build, "W", "West wall")
        for number in range(5):
            builders.a_question(session, build, words=f"Does screw {number} fit?")
        builders.a_question(session, build, west, words="When does the window come?", kind="danger")
    told = [line.get_text(" ", strip=True) for line in soup(client.get("/builds/bindery/today")).select(".rows li")]
    answers = [line for line in told if line.startswith("A An answer")]
    assert len(answers) == 3
    assert "When does the window come?" in answers[0]
