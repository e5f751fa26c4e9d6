"""The story of one span: a day is logged, a wall is passed, the draft says so, it goes out, a stranger reads it."""

import re
from datetime import date

from tests import builders
from tests.reading import soup, words

EPISODES = "/builds/bindery/episodes"


def the_record_of_two_weeks(database, build, settings) -> int:
    """Work, a visit in two halves, a day, money and a picture; gives the picture's id."""
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Rough-in")
        task = {"state": "done", "done_on": date(2026, 5, 9), "kind": "wiring"}
        builders.a_task(session, phase, "Plates over every bored stud", **task)
        east = builders.a_surface(session, build)
        south = builders.a_surface(session, build, "S", "South wall", facing="S", position=2)
        inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(east, south))
        visit = builders.a_visit(session, inspection)
        builders.a_result(session, visit, east)
        failed = builders.a_result(session, visit, south, "part passed", part="all but the box")
        builders.a_correction(session, visit, failed, words="Ground the two-gang box")
        builders.a_workday(session, build)
        builders.a_spend(session, build)
        return builders.a_picture(session, build, settings.photos)


def test_a_day_becomes_an_episode_that_a_stranger_reads(client, stranger, database, build, settings):
    photo_id = the_record_of_two_weeks(database, build, settings)
    client.post(EPISODES, data={"from_day": "2026-05-01"})
    desk = {"title": "South in two halves", "from_day": "2026-05-01", "show_hours": "yes", "show_spend": "hidden"}
    client.post(f"{EPISODES}/1/pictures/{photo_id}", data=desk)
    client.post(f"{EPISODES}/1/take-over", data=desk)
    text = soup(client.get(f"{EPISODES}/1")).select_one("#f-text").get_text()
    desk |= {"text": text, f"alt-{photo_id}": "Open studs", f"looked-{photo_id}": "yes"}
    assert client.post(f"{EPISODES}/1/publish", data=desk).status_code == 303
    page = stranger.get("/watch/bindery/1")
    told = words(page)
    assert "Rough-in: Plates over every bored stud." in told
    assert "7 May 2026: Rough electrical (East wall) passed." in told
    assert "7 May 2026: Rough electrical (South wall) part passed (all but the box)." in told
    assert "Still to put right: Ground the two-gang box (South wall)." in told
    assert "5½ h of my own, on 1 day." in told
    assert "Electricity: off, locked, proved dead" in told
    assert not re.search(r"(?<![0-9a-f])596(?![0-9a-f])", page.text), "spend stays hidden; a name may hold 596"
    assert stranger.get(soup(page).select_one("img")["src"]).status_code == 200
    client.post(f"{EPISODES}/1/corrections", data={"words": "South passed on 14 May."})
    assert words(stranger.get("/watch/bindery/1")).startswith("1 Correction, 16 May 2026 South passed on 14 May.")
    assert "17 May 2026 to today" in words(client.get(EPISODES))
