"""What stops a phase, a task, the closing of a surface: the roots, drawn, surface by surface, wishes apart."""

from datetime import date

import pytest

from tests import builders
from tests.pages.readiness.conftest import E
from tests.reading import headings, links, soup, words
from webapp.episodes.store import ahead
from webapp.plan.store import get_build

G2 = "/builds/bindery/what-stops"


def test_a_phase_names_every_root_and_how_many_i_can_start(client, wall):
    page = client.get(f"{G2}?phase={wall.phase.row_id}")
    assert headings(page)[0] == "What stops board?"
    assert "Four things. You can start all of them today." in words(page)
    roots = [item.b.get_text() for item in soup(page).select(".stops.roots > li")]
    assert len(roots) == 4 and "Seal the hole in the plate" in roots
    assert "Waits for: me" in words(page, ".stops.roots")


def test_without_a_question_the_first_held_phase_is_asked_about(client, database, build, wall):
    with database.writing() as session:
        first = builders.a_phase(session, build, "Wiring", position=1)
        builders.a_task(session, first, "Pull the cable", kind="wiring")
    assert headings(client.get(G2))[0] == "What stops board?"


def test_without_a_question_the_phase_that_closes_the_nearest_surface_is_asked_about(client, database, build, wall):
    with database.writing() as session:
        early = builders.a_phase(session, build, "Slab", position=1)
        first = builders.a_task(session, early, "Third coat", 1)
        builders.a_need(session, builders.a_task(session, early, "Sheet test", 2), first)
    assert headings(client.get(G2))[0] == "What stops board?"


def test_roots_of_one_surface_stand_together_after_fees_and_what_has_a_day(client, database, build, wall):
    with database.writing() as session:
        north = builders.a_surface(session, build, "N", "North wall", position=0)
        kind = builders.looked_at(session, build, north)
        builders.works_on(session, builders.a_task(session, wall.phase, "Hang the board, north"), north, closes=True)
        for number in (1, 2, 3, 4, 5, 6):
            builders.a_slot(session, north, number, what="half of it")
        builders.a_fee(session, wall.permit)
        wait = builders.a_task(session, wall.phase, "Dry out", 9, state="done", done_on=date(2026, 5, 14), wait_days=7)
        builders.a_need(session, wall.mud, wait)
    lines = soup(client.get(f"{G2}?phase={wall.phase.row_id}&all=1")).select(".roots > li")
    said = [line.find("span", class_="s").get_text() for line in lines]
    places = [words.partition(".")[0] for words in said if words.startswith(("East", "North"))]
    assert places == sorted(places) and {"East wall", "North wall"} <= set(places), kind
    assert lines[0].b.get_text() in {"Dry out", "Pay the fee, USD 100.00"}


def test_a_phase_is_shown_surface_by_surface_with_the_count(client, wall):
    page = client.get(f"{G2}?phase={wall.phase.row_id}")
    assert "East wall Do not cover: 4 hard stops" in words(page)
    assert links(page)["East wall Do not cover: 4 hard stops"] == f"{E}/before-cover"


def test_the_drawing_says_the_same_in_words_and_puts_needs_above(client, wall):
    drawing = soup(client.get(f"{G2}?surface=E")).select_one("svg.graph")
    assert drawing["role"] == "img"
    said = drawing.desc.get_text()
    assert said.startswith("East wall needs ")
    assert "Seal the hole in the plate" in said
    heavy = drawing.select_one("rect.l4")
    needs = [box for box in drawing.select("rect") if box is not heavy and int(box["y"]) < int(heavy["y"])]
    assert 0 < len(needs) <= 3, "a row holds three boxes at most, the rest are counted"
    heads = [path for path in drawing.select("path") if "f-ink" in path["class"]]
    assert len(heads) == len(needs), "a line leads from each box above"
    count = next(box for box in needs if "l1" in box["class"])
    assert [text.get_text() for text in drawing.select(f"text[x='{int(count['x']) + int(count['width']) // 2}']")] == [
        "2",
        "more",
    ]
    assert "hold point" in drawing.get_text()


def test_what_a_task_frees_is_drawn_in_dashes_below_it(client, wall):
    drawing = soup(client.get(f"{G2}?task={wall.board.row_id}")).select_one("svg.graph")
    asked, freed = drawing.select_one("rect.l4"), drawing.select_one("rect.hid")
    assert int(freed["y"]) > int(asked["y"])
    assert drawing.desc.get_text().endswith("Hang the board, east frees Mud and tape.")


def test_a_fee_stands_above_asking_for_the_visit_and_says_what_comes_then(client, database, build, wall, change):
    """Scenario "Fee": pay fee is on top of the chain, before the visit is asked for."""
    change(wall.passed, kind="failed")
    with database.writing() as session:
        builders.a_fee(session, wall.permit)
    page = client.get(f"{G2}?surface=E")
    first = soup(page).select_one(".stops.roots > li")
    assert first.b.get_text() == "Pay the fee, USD 100.00"
    assert "Waits for: money" in first.get_text(" ")
    told = " ".join(first.select_one(".frees").get_text().split())
    assert told == "Frees: ask for the visit, rough electrical, E again, then cover east wall"


def test_wishes_stand_apart_and_stop_nothing(client, database, build, wall):
    with database.writing() as session:
        builders.a_question(session, build, wall.surface, words="Would two screws do?", kind="better way")
    page = client.get(f"{G2}?surface=E")
    assert "Would two screws do?" in words(page, ".stops.wish")
    assert "Would two screws do?" not in words(page, ".stops.roots")


def test_a_long_list_is_cut_and_the_rest_is_one_link_away(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Finish", position=2)
        before = builders.a_phase(session, build, "Rough", position=1)
        last = builders.a_task(session, phase, "Paint")
        for number in range(35):
            builders.a_need(session, last, builders.a_task(session, before, f"Job {number}", number))
    page = client.get(G2)
    assert len(soup(page).select(".roots > li")) == 12
    whole = links(page)["23 more"]
    assert len(soup(client.get(whole)).select(".roots > li")) == 35


def test_work_of_the_phase_that_can_start_is_no_stop_of_it(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Finish")
        first = builders.a_task(session, phase, "Prime", 1)
        builders.a_need(session, builders.a_task(session, phase, "Paint", 2), first)
    page = client.get(G2)
    assert "Nothing from outside stops it. One task of it can start now." in words(page)


def test_a_circle_is_named_as_a_circle(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Ceiling")
        duct, board = builders.a_task(session, phase, "Duct", 1), builders.a_task(session, phase, "Board", 2)
        builders.a_need(session, duct, board)
        builders.a_need(session, board, duct)
    page = client.get(G2)
    assert "In a circle of needs: which comes first?" in words(page)


def test_a_running_wait_says_its_day(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Slab")
        pour = builders.a_task(session, phase, "Pour", state="done", done_on=date(2026, 5, 14), wait_days=7)
        builders.a_need(session, builders.a_task(session, phase, "Grind", 2), pour)
    page = client.get(G2)
    assert "Pour Waits by itself. Until Thu 21 May. D Waits for: drying" in words(page)


def test_the_panel_of_a_task_is_only_the_panel_when_htmx_asks(client, wall):
    address = f"/builds/bindery/tasks/{wall.board.row_id}/stops"
    whole, panel = client.get(address), client.get(address, headers={"hx-request": "true"})
    assert "<html" in whole.text and "<html" not in panel.text
    assert "Four things. You can start all of them today." in panel.text
    assert "Frees: mud and tape." in words(whole)


def test_what_is_settled_or_free_says_so(client, wall, change):
    change(wall.board, state="done", done_on=date(2026, 5, 15))
    assert "Nothing stops it. It can start today." in words(client.get(f"{G2}?task={wall.mud.row_id}"))
    assert "it is settled" in words(client.get(f"{G2}?task={wall.board.row_id}"))


@pytest.mark.parametrize("query", ["phase=99", "task=99", "surface=X"])
def test_what_this_build_does_not_have(client, wall, query):
    assert client.get(f"{G2}?{query}").status_code == 404


def test_an_empty_build_is_not_stopped_by_anything(client):
    page = client.get(G2)
    assert page.status_code == 200
    assert "No task is written down that is not done." in words(page)
    assert "Nothing is left to do that was written down" in words(page) and "settled" not in words(page)


def test_a_stranger_is_asked_to_sign_in(stranger, wall):
    assert stranger.get(G2).headers["location"].startswith("/sign-in")
    assert stranger.get(f"/builds/bindery/tasks/{wall.board.row_id}/stops").status_code in {303, 401}


def test_viewers_are_told_of_the_phase_that_is_asked_about_without_a_question(client, database, build, wall):
    with database.writing() as session:
        early = builders.a_phase(session, build, "Slab", position=1)
        first = builders.a_task(session, early, "Third coat", 1)
        builders.a_need(session, builders.a_task(session, early, "Sheet test", 2), first)
        builders.a_task(session, builders.a_phase(session, build, "Finals", position=9), "Sweep", 1)
    with database.reading() as session:
        told = ahead(session, get_build(session, build.slug), date(2026, 5, 16))
    assert headings(client.get(G2))[0] == f"What stops {told.next_phase.lower()}?" == "What stops board?"
    assert sum("East wall" in line.words for line in told.stops) == 1
