"""The page after saving, the list of days, one day, and a day put right."""

from datetime import date, timedelta

import pytest
from sqlmodel import select

from tests import builders, pictures
from tests.counting import queries
from tests.pages.workdays.conftest import LOG
from tests.reading import field_errors, headings, links, soup, words
from webapp.workdays.models import Workday, WorkdayChange

DAYS = "/builds/bindery/workdays"


def test_the_saved_page_says_what_came_free_and_says_it_again_after_a_reload(client, database, east):
    sent = {"finished": str(east.wiring), "slot": str(east.slot), "next_step": "Tin snips first"}
    files = {"pictures": ("a.jpg", pictures.a_jpeg(taken="2026:05:16 09:00:00"), "image/jpeg")}
    path = client.post(LOG, data=sent, files=files).headers["location"]
    for _ in range(2):
        page = client.get(path)
        assert "Saved." in headings(page)
        assert f"{DAYS[:-9]}/tasks/{east.board}" in links(page).values()
        assert "East wall may be covered" in words(page)
        assert "Tin snips first" in words(page)


def test_a_day_that_frees_nothing_says_so_kindly(client, east):
    path = client.post(LOG, data={"own": "2"}).headers["location"]
    assert "Nothing new came free." in words(client.get(path))


def test_what_the_address_says_is_free_is_looked_up_and_never_believed(client, east):
    path = client.post(LOG, data={"own": "2"}).headers["location"].split("?")[0]
    page = client.get(f"{path}?freed=task:{east.board},cover:{east.surface},task:999,<b>x</b>")
    assert "Nothing new came free." in words(page)
    assert "<b>x</b>" not in page.text


def test_what_is_still_stopped_names_its_causes_and_whom_they_wait_for(client, east):
    told = words(client.get(client.post(LOG, data={"own": "2"}).headers["location"]))
    stopped = told.split("Still stopped")[1]
    assert "Hang the board on E" in stopped and "Pull the circuit" in stopped and "whole wall, tape in it" in told
    assert "Waits for: me" in told


def test_days_stand_newest_first_with_each_kind_of_hours_for_itself(client, database, build):
    with database.writing() as session:
        builders.a_workday(session, build, date(2026, 5, 9), own_min=330, done="Plates")
        builders.a_workday(session, build, date(2026, 5, 16), own_min=420, helper_unpaid_min=540, done="Friends came")
        builders.a_workday(session, build, date(2026, 5, 13), own_min=60, helper_paid_min=30, done="Short evening")
    page = client.get(DAYS)
    assert [tag.find(string=True).strip() for tag in soup(page).select("section h2")] == [
        "Week of Mon 11 May",
        "Week of Mon 4 May",
    ]
    assert "8 h my own, 9 h unpaid help, 30 min paid help" in words(page)
    assert [tag.get_text() for tag in soup(page).select(".rows b")] == ["Friends came", "Short evening", "Plates"]


def test_a_lost_day_is_listed_with_its_reason_and_nothing_is_counted_in_a_row(client, database, build):
    with database.writing() as session:
        builders.a_workday(session, build, own_min=0, done="", stopped_by="Rain: all day", lost=True)
    told = words(client.get(DAYS))
    assert "A lost day. Rain: all day" in told
    assert not any(word in told.lower() for word in ("streak", "in a row", "missed", "%"))


def test_an_empty_list_leads_to_the_first_day(client):
    assert LOG in links(client.get(DAYS)).values()


def test_the_list_asks_the_same_number_of_questions_for_five_days_and_for_fifty(client, database, build):
    counted = []
    for first, last in ((0, 5), (5, 50)):
        with database.writing() as session:
            for number in range(first, last):
                builders.a_workday(session, build, date(2026, 5, 15) - timedelta(days=number))
        client.get(DAYS)
        with queries(database, anew=True) as sent:
            client.get(DAYS)
        counted.append(len(sent))
    assert counted[0] == counted[1]


def test_a_long_list_is_cut_at_a_whole_week_and_leads_on(client, database, build):
    with database.writing() as session:
        for number in range(80):
            builders.a_workday(session, build, date(2026, 5, 16) - timedelta(days=number))
    first = client.get(DAYS)
    earlier = client.get(links(first)["Earlier days"])
    shown = [len(soup(page).select(".rows li")) for page in (first, earlier)]
    assert sum(shown) == 80 and max(shown) <= 60
    assert "The latest days" in links(earlier)


def test_the_old_words_of_an_amended_day_are_readable_on_its_page(client, database, east):
    client.post(LOG, data={"own": "2", "done": "Plates on N"})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    form = soup(client.get(f"{DAYS}/{day}/amend"))
    assert form.select_one("[name=own]")["value"] == "2"
    answer = client.post(f"{DAYS}/{day}/amend", data={"day": "2026-05-15", "own": "3.5", "done": "Plates on N"})
    assert answer.status_code == 303
    page = client.get(f"{DAYS}/{day}")
    assert "Friday 15 May 2026" in headings(page)
    told = words(page, "#changes")
    assert "My hours 2 h 3½ h" in told and "Day 16 May 2026 15 May 2026" in told


def test_what_stopped_the_day_comes_back_as_it_was_chosen(client, database):
    client.post(LOG, data={"stopped": "Goods", "stopped_by": "the straps are short"})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    form = soup(client.get(f"{DAYS}/{day}/amend"))
    assert form.select_one("[name=stopped][checked]")["value"] == "Goods"
    assert form.select_one("[name=stopped_by]")["value"] == "the straps are short"


def test_a_wrong_amendment_keeps_what_was_typed_and_changes_nothing(client, database, east):
    client.post(LOG, data={"own": "2"})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    refused = client.post(f"{DAYS}/{day}/amend", data={"own": "many"})
    assert (refused.status_code, set(field_errors(refused))) == (422, {"own"})
    with database.reading() as session:
        assert session.exec(select(WorkdayChange)).all() == []
        assert session.exec(select(Workday)).one().own_min == 120


def test_a_day_amended_to_a_longer_one_is_not_asked_about_its_own_hours(client, database, east):
    client.post(LOG, data={"own": "14"})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    assert client.post(f"{DAYS}/{day}/amend", data={"own": "15"}).status_code == 303


def test_a_finished_task_is_told_and_not_unticked_when_its_day_is_amended(client, database, east):
    client.post(LOG, data={"own": "2", "finished": str(east.wiring)})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    page = client.get(f"{DAYS}/{day}/amend")
    assert "Finished that day." in words(page)
    assert soup(page).select_one(f"[name=finished][value='{east.wiring}']") is None
    client.post(f"{DAYS}/{day}/amend", data={"own": "2", "done": "Ends neat"})
    assert "Finished that day" in words(client.get(f"{DAYS}/{day}"))


def test_a_refused_finish_while_amending_leaves_the_day_as_it_was(client, database, east):
    client.post(LOG, data={"own": "2", "more_task": str(east.board)})
    with database.reading() as session:
        day = session.exec(select(Workday)).one().row_id
    sent = {"own": "3", "finished": str(east.board)}
    assert client.post(f"{DAYS}/{day}/amend", data=sent).status_code == 409
    with database.reading() as session:
        assert session.exec(select(Workday)).one().own_min == 120
    assert client.post(f"{DAYS}/{day}/amend", data=sent | {"as_worked": "yes"}).status_code == 303


@pytest.mark.parametrize("path", ["/999", "/999/saved", "/999/amend"])
def test_a_day_that_is_not_there_is_not_found(client, path):
    assert client.get(f"{DAYS}{path}").status_code == 404


def test_a_stranger_amends_nothing(stranger, database, build):
    with database.writing() as session:
        day = builders.a_workday(session, build).row_id
    assert stranger.post(f"{DAYS}/{day}/amend", data={"own": "9"}).status_code in {303, 401}
    with database.reading() as session:
        assert session.exec(select(Workday)).one().own_min == 330


def test_lost_days_are_counted_by_their_reason_and_nothing_else_is_said_of_them(client, database, build):
    assert "Lost so far" not in words(client.get(DAYS))
    for number, said in enumerate(("Rain", "Rain: from noon", "Family", "Snow: no road")):
        sent = {"day": f"2026-05-1{number}", "lost": "yes", "stopped": said.partition(": ")[0]}
        if said.startswith("Snow"):
            sent |= {"stopped": "Other", "stopped_by": said}
        assert client.post(LOG, data=sent | {"stopped_by": sent.get("stopped_by", "")}).status_code == 303
    page = client.get(DAYS)
    assert words(page, "#lost") == "Lost so far, 4 days: rain 2, snow 1, family 1."
    offered = [tag["value"] for tag in soup(client.get(LOG)).select("[name=stopped]")]
    assert offered[-2:] == ["Snow", "Other"], "the builder's own word is offered from then on"
    day = client.post(LOG, data={"lost": "yes", "stopped": "Snow", "stopped_by": "drifts"}).headers["location"]
    assert "Snow: drifts" in words(client.get(day.partition("/saved")[0]))
    assert "snow 2" in words(client.get(DAYS), "#lost")


def test_a_lost_day_without_a_reason_is_asked_for_one_and_nothing_of_it_is_lost(client):
    refused = client.post(LOG, data={"lost": "yes", "done": "Sat in the car"})
    assert refused.status_code == 422
    assert field_errors(refused) == {"stopped_by": "Say what stopped you; the reason stays with the day."}
    assert "Sat in the car" in words(refused)
