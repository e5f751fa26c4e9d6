"""The draft desk: facts beside sentences, one form that loses nothing, a refusal with every reason."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.counting import queries
from tests.eastwall import an_east_wall
from tests.reading import field_errors, headings, links, soup, words
from webapp.episodes.store.ahead import ahead
from webapp.inspections.models import Result
from webapp.plan.store import get_build

DESK = "/builds/bindery/episodes/1"
TYPED = {
    "title": "South in two halves",
    "from_day": "2026-05-01",
    "to_day": "",
    "text": "It **held**.",
    "questions": "Fur first?",
    "show_hours": "yes",
    "show_spend": "rounded",
}


@pytest.fixture
def making(database, build, settings):
    """Episode 1 in the making, with a task done, a result, a day, a spend and a picture to choose; gives its id."""
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Rough-in")
        builders.a_task(session, phase, "Pull the runs", state="done", done_on=date(2026, 5, 9), kind="wiring")
        wall = builders.a_surface(session, build)
        inspection = builders.an_inspection(session, builders.a_permit(session, build), surfaces=(wall,))
        builders.a_result(session, builders.a_visit(session, inspection), wall)
        builders.a_workday(session, build)
        builders.a_spend(session, build)
        builders.an_episode(session, build)
        return builders.a_picture(session, build, settings.photos)


def test_each_sentence_of_the_draft_has_its_facts_beside_it(client, making):
    answer = client.get(DESK)
    lines = soup(answer).select(".draft > li")
    told = {line.select_one(".told").get_text(" ", strip=True): line.select(".mn > li a") for line in lines}
    assert "7 May 2026: Rough electrical (East wall) passed." in told
    assert all(told.values()), "a sentence without a fact"
    (fact,) = told["7 May 2026: Rough electrical (East wall) passed."]
    assert fact["href"].startswith("/builds/bindery/visits/")
    assert "59" not in words(answer, "#draft"), "spend is hidden until the builder shows it"


def test_what_was_typed_is_kept_and_shapes_the_draft(client, making):
    answer = client.post(DESK, data=TYPED)
    assert (answer.status_code, answer.headers["location"]) == (303, f"{DESK}#words")
    page = client.get(DESK)
    assert headings(page)[0] == "Episode 1: South in two halves"
    assert "Paid in this time: about USD 600." in words(page, "#draft")
    assert "Fur first?" in words(page, "#draft")
    assert soup(page).select_one("#f-text").get_text().strip() == "It **held**."


def test_taking_the_draft_over_makes_it_the_text_and_keeps_what_stood_there(client, making):
    client.post(f"{DESK}/take-over", data=TYPED)
    page = client.get(DESK)
    assert "## What was done" in soup(page).select_one("#f-text").get_text()
    assert "It **held**." in words(client.get(f"{DESK}/texts"))


def test_a_sentence_taken_over_that_is_withdrawn_later_asks_for_a_look(client, making, database):
    client.post(f"{DESK}/take-over", data=TYPED)
    with database.writing() as session:
        (result,) = session.exec(select(Result)).all()
        result.state = "withdrawn"
        session.add(result)
    page = client.get(DESK)
    assert "Rough electrical (East wall) passed. The record no longer says so." in words(page, "#missing")
    assert "passed" not in words(page, "#draft")


@pytest.mark.parametrize(
    "button", ["", "/take-over", "/as-viewers", "/publish", "/pictures/1", "/pictures/1/leave-out"]
)
def test_a_day_that_cannot_be_read_loses_nothing_that_was_typed(client, making, button):
    answer = client.post(f"{DESK}{button}", data=TYPED | {"from_day": "soonish"})
    assert answer.status_code == 422
    assert "Write a day such as" in field_errors(answer)["from_day"]
    assert soup(answer).select_one("#f-text").get_text().strip() == "It **held**."
    assert soup(answer).select_one("#f-from_day")["value"] == "soonish"


def test_a_last_day_before_the_first_is_said_beside_it(client, making):
    answer = client.post(DESK, data=TYPED | {"to_day": "2026-04-01"})
    assert field_errors(answer)["to_day"].endswith("The last day is before the first one.")


def test_a_picture_is_chosen_described_and_left_out_without_losing_the_text(client, making):
    client.post(f"{DESK}/pictures/{making}", data=TYPED)
    page = client.get(DESK)
    assert soup(page).select_one(f"#picture-{making}")
    assert "Picture 1 is not looked over" in words(page, "#missing")
    described = TYPED | {f"alt-{making}": "Open studs", f"caption-{making}": "East", f"looked-{making}": "yes"}
    client.post(DESK, data=described)
    assert "Nothing is missing" in words(client.get(DESK), "#missing")
    client.post(f"{DESK}/pictures/{making}/leave-out", data=described)
    page = client.get(DESK)
    assert soup(page).select_one(f"#picture-{making}") is None
    assert soup(page).select_one("#f-text").get_text().strip() == "It **held**."


def test_no_picture_is_ever_called_safe(client, making):
    client.post(f"{DESK}/pictures/{making}", data=TYPED)
    page = words(client.get(DESK)).lower()
    assert "i looked it over" in page
    assert "safe" not in page


def test_publishing_what_is_not_ready_names_every_reason_and_keeps_what_was_typed(client, making):
    answer = client.post(f"{DESK}/publish", data=TYPED | {"title": "", "text": ""})
    assert answer.status_code == 409
    assert "Not published: 2 things missing" in words(answer)
    alert = soup(answer).select_one("[role=alert]")
    assert [link["href"] for link in alert.select("a")] == ["#f-title", "#f-text"] and alert.has_attr("autofocus")
    assert [link["href"] for link in soup(answer).select("#missing .stops a")] == ["#f-title", "#f-text"]
    assert "Fur first?" in soup(client.get(DESK)).select_one("#f-questions").get_text()


def test_publishing_leads_to_the_frozen_copy_and_its_corrections(client, stranger, making):
    answer = client.post(f"{DESK}/publish", data=TYPED)
    assert answer.status_code == 303
    page = client.get(DESK)
    assert "/watch/bindery/1" in links(page).values()
    assert stranger.get("/watch/bindery/1").status_code == 200
    assert soup(page).select("textarea[name=text]") == []
    empty = client.post(f"{DESK}/corrections", data={"words": " "})
    assert empty.status_code == 422
    assert field_errors(empty)["words"].endswith("Write what was wrong, and what is so.")
    client.post(f"{DESK}/corrections", data={"words": "South was held."})
    assert "16 May 2026 South was held." in words(client.get(DESK), "#correct")
    assert words(stranger.get("/watch/bindery/1")).startswith("1 Correction, 16 May 2026")


def test_what_went_out_cannot_be_kept_anew(client, making):
    client.post(f"{DESK}/publish", data=TYPED)
    answer = client.post(DESK, data=TYPED | {"text": "Another story"})
    assert answer.status_code == 409
    assert f"{DESK}#correct" in links(answer).values()


def test_the_look_beforehand_is_the_public_page_and_says_that_it_is_private(client, stranger, making):
    client.post(f"{DESK}/pictures/{making}", data=TYPED)
    described = TYPED | {f"alt-{making}": "Open studs", f"caption-{making}": "East", f"looked-{making}": "yes"}
    answer = client.post(f"{DESK}/as-viewers", data=described)
    assert answer.headers["location"] == f"{DESK}/as-viewers"
    preview = client.get(f"{DESK}/as-viewers")
    assert "Only you see this." in words(preview)
    client.post(f"{DESK}/publish", data=described)
    public = stranger.get("/watch/bindery/1")
    assert soup(preview).select_one(".prose") == soup(public).select_one(".prose")
    assert headings(preview) == headings(public)
    assert [tag["alt"] for tag in soup(preview).select("img")] == [tag["alt"] for tag in soup(public).select("img")]


def test_an_episode_that_is_not_there_says_so(client):
    for path in ("/builds/bindery/episodes/7", "/builds/bindery/episodes/x", "/builds/bindery/episodes/7/as-viewers"):
        assert client.get(path).status_code == 404


def test_the_desk_asks_the_same_number_of_queries_for_a_few_facts_and_for_many(client, making, database, build):
    def counted() -> int:
        with queries(database, anew=True) as sent:
            assert client.get(DESK).status_code == 200
        return len(sent)

    few = counted()
    with database.writing() as session:
        phase = builders.a_phase(session, build, "More", 2)
        for number in range(45):
            builders.a_task(session, phase, f"Task {number}", number, state="done", done_on=date(2026, 5, 9))
            builders.a_workday(session, build, date(2026, 5, 10))
            builders.a_spend(session, build)
    assert counted() == few
    assert few <= 50


def test_what_stops_the_next_phase_is_told_surface_by_surface_without_numbers(database, build):
    with database.writing() as session:
        an_east_wall(session, build)
    with database.reading() as session:
        told = ahead(session, get_build(session, build.slug), date(2026, 5, 16))
    assert [line.words for line in told.stops] == ["East wall: one correction, two pictures and one shot"]
    assert told.stops[0].href.endswith("/surfaces/E/before-cover")


def test_of_a_long_list_three_things_are_told_and_the_rest_is_counted(database, build):
    with database.writing() as session:
        wall = an_east_wall(session, build)
        rough = builders.a_phase(session, build, "Rough", position=1)
        for number in range(4):
            builders.a_need(session, wall.board, builders.a_task(session, rough, f"Job {number}", number))
    with database.reading() as session:
        told = ahead(session, get_build(session, build.slug), date(2026, 5, 16))
    assert [line.words for line in told.stops][1:] == ["Job 0", "Job 1", "and two more"]
