"""Reading back: the history of a surface and an inspection, corrections as work and on the drawing, words that are no
results."""

import pytest

from tests import builders
from tests.counting import queries
from tests.pages.inspections.test_scenarios import BASE, a_photo, results, site  # noqa: F401
from tests.reading import field_errors, headings, links, soup, words
from webapp.inspections import store
from webapp.inspections.models import Advice


@pytest.fixture
def failed(client, site, database):  # noqa: F811
    """South failed with two corrections; the first may take 45 minutes."""
    said = {
        "words_1": "Plates on three studs",
        "likely_1": "45 min",
        "words_2": "Label the feed",
        "clears_2": "own word",
    }
    sent = {"day": "2026-05-07", **results(site, S="failed", N="passed"), **said}
    assert client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent).status_code == 303
    with database.reading() as session:
        return [one.id for one in store.list_corrections(session, site["build"])]


def test_a_correction_gets_its_place_on_the_drawing_typed_and_moved_with_what_it_was(client, failed):
    path = f"{BASE}/corrections/{failed[0]}"
    outside = client.post(f"{path}/place", data={"x": "500", "y": "24"})
    assert "lies outside" in field_errors(outside)["x"]
    assert soup(outside).select_one("#f-x")["value"] == "500"
    assert client.post(f"{path}/place", data={"x": "64", "y": "24"}).status_code == 303
    marked = soup(client.get(f"{BASE}/surfaces/S/said")).select_one("svg a[aria-label^='Correction 1: Plates']")
    assert marked["href"] == path
    client.post(f"{path}/place", data={"x": "60", "y": "24"})
    assert "Before: place: 64 in from" in words(client.get(path)) or "Before: place: 5′" in words(client.get(path))


def test_its_pictures_are_pinned_beside_it(client, failed, database):
    path = f"{BASE}/corrections/{failed[0]}"
    client.post(f"{path}/place", data={"x": "64", "y": "24"})
    client.post(f"{path}/done", data={"on": "2026-05-09"}, files={"picture": a_photo("red")})
    pinned = soup(client.get(f"{BASE}/surfaces/S")).select("#map svg a.pin")
    assert len(pinned) == 1


def test_one_of_the_whole_building_has_no_drawing_and_says_so(client, database, build):
    with database.writing() as session:
        inspection = builders.an_inspection(session, builders.a_permit(session, build), "Final", code="FIN")
        visit = builders.a_visit(session, inspection)
        one = builders.a_correction(session, visit, builders.a_result(session, visit, None, "failed")).row_id
    assert client.get(f"{BASE}/corrections/{one}").status_code == 200
    assert client.post(f"{BASE}/corrections/{one}/place", data={"x": "4", "y": "4"}).status_code == 404


def test_corrections_are_work_with_a_time_and_go_from_group_to_group(client, failed):
    page = client.get(f"{BASE}/to-put-right")
    assert "2 corrections to put right, likely 45 min, and 1 one without a time." in words(page)
    client.post(f"{BASE}/corrections/{failed[0]}/done", data={"on": "2026-05-09"})
    client.post(f"{BASE}/corrections/{failed[1]}/done", data={"on": "2026-05-09"})
    assert "Done: to be seen again waits for: the next visit" in headings(client.get(f"{BASE}/to-put-right"))
    client.post(f"{BASE}/corrections/{failed[1]}/clear", data={"on": "2026-05-09"})
    assert "Cleared 1" in headings(client.get(f"{BASE}/to-put-right"))


def test_a_correction_is_offered_on_todays_list_with_its_time(client, failed):
    shown = words(client.get(f"{BASE}/today?time=60&hands=alone&weather=dry&all=1"), "#start")
    assert "Plates on three studs" in shown and "45 min" in shown
    assert "Plates" not in words(client.get(f"{BASE}/today?time=30&hands=alone&weather=dry&all=1"), "#start")


def test_the_history_tells_in_order_what_was_said_changed_withdrawn_and_cleared(client, site, failed, database):  # noqa: F811
    with database.reading() as session:
        north = next(one.id for one in store.list_results(session, site["build"]) if one.kind == "passed")
    taken = {"on": "2026-05-10", "who": "the office", "withdrawn_why": "the stand-in may not"}
    client.post(f"{BASE}/results/{north}/withdraw", data=taken)
    client.post(f"{BASE}/corrections/{failed[1]}/done", data={"on": "2026-05-08"})
    client.post(f"{BASE}/corrections/{failed[1]}/clear", data={"on": "2026-05-09"})
    told = words(client.get(f"{BASE}/inspections/IREL/history"))
    order = (
        "Thursday 7 May 2026",
        "The inspector came: Rough electrical",
        "South wall: failed",
        "Correction 1: “Plates on three studs”",
        "Friday 8 May 2026 Correction 2: done, to be seen",
        "Saturday 9 May 2026 Correction 2: cleared",
        "Sunday 10 May 2026 Taken back by the office: Rough electrical, North wall, “passed” of 7 May 2026",
    )
    places = [told.index(part) for part in order]
    assert places == sorted(places)
    south = words(client.get(f"{BASE}/surfaces/S/history"))
    assert "Correction 1" in south and "Taken back" not in south


def test_a_word_is_kept_shown_where_it_is_about_and_passes_nothing(client, site, database):  # noqa: F811
    south = site["walls"]["S"]
    empty = client.post(f"{BASE}/advice", data={"day": "2026-05-17", "who": ""})
    assert set(field_errors(empty)) == {"words", "who_else", "day"}
    kept = {"day": "2026-05-15", "who": "inspector", "words": "Close S, I do not need to see it", "surface": south}
    assert client.post(f"{BASE}/advice", data=kept | {"inspection": site["IREL id"]}).status_code == 303
    for path in ("surfaces/S/said", "inspections/IREL", "surfaces/S/history", "advice"):
        assert "“Close S, I do not need to see it”" in words(client.get(f"{BASE}/{path}"))
    assert soup(client.get(f"{BASE}/surfaces/S/before-cover")).h1.get_text() == "Do not cover"
    assert "Not looked at yet" in words(client.get(f"{BASE}/inspections/IREL"))


def test_a_word_is_put_right_and_taken_back_with_its_history(client, site):  # noqa: F811
    kept = {"day": "2026-05-15", "who": "counter clerk", "words": "Ask in writing"}
    path = client.post(f"{BASE}/advice", data=kept).headers["location"]
    client.post(path, data=kept | {"form": "said, then found in print", "why": "it is in the handout"})
    assert "How: said, not written, now said, then found in print" in words(client.get(path))
    early = client.post(f"{path}/end", data={"ended_on": "2026-05-01"})
    assert set(field_errors(early)) == {"ended_on", "ended_why"}
    client.post(f"{path}/end", data={"ended_on": "2026-05-16", "ended_why": "the clerk was wrong"})
    assert "Taken back on 16 May 2026. It stays readable." in words(client.get(path))
    assert "Taken back, or found wrong" in headings(client.get(f"{BASE}/advice"))
    assert client.post(f"{path}/end", data={"ended_on": "2026-05-16", "ended_why": "again"}).status_code == 409


def test_a_word_pressed_twice_is_kept_once(client, site, database):  # noqa: F811
    kept = {"sent_id": "a-phone-1", "day": "2026-05-15", "who": "inspector", "words": "Ask in writing"}
    first, second = (client.post(f"{BASE}/advice", data=kept) for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    with database.reading() as session:
        assert len(store.list_advice(session, site["build"])) == 1


@pytest.mark.parametrize("path", ["visits/1", "today", "surfaces/S/said", "inspections/IREL"])
def test_what_was_said_can_be_written_down_from_there(client, site, path):  # noqa: F811
    assert any("/advice/new" in href for href in links(client.get(f"{BASE}/{path}")).values())


def more(database, site, number: int) -> None:  # noqa: F811
    with database.writing() as session:
        build = session.get_one(builders.Build, site["build"])
        wall = session.get_one(builders.Surface, site["walls"]["S"])
        inspection = session.get_one(builders.Inspection, site["IREL id"])
        for each in range(number):
            visit = builders.a_visit(session, inspection)
            builders.a_correction(
                session, visit, builders.a_result(session, visit, wall, "failed"), number=each, x_nm=9, y_nm=9
            )
            words_ = {"words": "Ask", "recorded_at": builders.AT, "surface_id": wall.row_id}
            builders.kept(session, Advice(build_id=build.row_id, day=visit.day, who="inspector", **words_))


LISTS = (
    "surfaces/S/said",
    "surfaces/S/history",
    "inspections/IREL/history",
    "inspections/IREL/again",
    "to-put-right",
    "advice",
)


@pytest.mark.parametrize("path", LISTS)
def test_reading_back_costs_the_same_with_five_rows_and_with_fifty(client, site, database, path):  # noqa: F811
    client.get(f"{BASE}/{path}")
    more(database, site, 5)
    with queries(database, anew=True) as five:
        assert client.get(f"{BASE}/{path}").status_code == 200
    more(database, site, 45)
    with queries(database, anew=True) as fifty:
        assert client.get(f"{BASE}/{path}").status_code == 200
    assert 0 < len(five) == len(fifty)
