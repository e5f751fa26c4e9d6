"""One task: what it takes and needs, cautions before it starts, and how its state changes."""

from datetime import date

import pytest

from tests import builders
from tests.reading import field_errors, headings, links, soup, words
from webapp.plan.models import Task

FINISH_LATER = "/builds/bindery/tasks/{}/finish"


@pytest.fixture
def feeder(database, build):
    """A wiring task that needs a pour still curing until Thursday 21 May, and holds up a board."""
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Sub-panel, circuits")
        feeder = builders.a_task(session, phase, "Land the feeder", 1, kind="wiring", likely_min=150)
        cure = {"wait_days": 7, "wait_reason": "cure: no load on it", "state": "done", "done_on": date(2026, 5, 14)}
        pour = builders.a_task(session, phase, "Pour the patch", 2, kind="concrete", **cure)
        board = builders.a_task(session, phase, "Ceiling board", 3)
        builders.a_need(session, feeder, pour, reason="green concrete tears")
        builders.a_need(session, board, feeder, strength="wish")
        return feeder.row_id


def test_the_cautions_stand_before_the_start_button_with_source_and_closing_line(client, feeder):
    answer = client.get(f"/builds/bindery/tasks/{feeder}")
    text = answer.text
    assert text.index("Electricity: off, locked, proved dead") < text.index("Your local authority and licensed people")
    assert text.index("Your local authority and licensed people") < text.index('action="/builds/bindery/tasks/')
    assert "Source: 29 CFR 1910.333(a)(1) and (b); NFPA 70E, 2021 edition, 120.5(7)" in words(answer)
    assert links(answer)["Cautions, then start"] == "#cautions"


def test_work_that_hurts_nobody_starts_without_a_detour(client, database, build):
    with database.writing() as session:
        task = builders.a_task(session, builders.a_phase(session, build), "Ask at the counter", kind="paperwork").row_id
    answer = client.get(f"/builds/bindery/tasks/{task}")
    assert "Before you start" not in headings(answer)
    assert soup(answer).select_one(".reach button[form=start]")


def test_a_running_wait_names_its_earliest_end(client, feeder):
    needed = words(client.get(f"/builds/bindery/tasks/{feeder}"))
    assert "Pour the patch done Thu 14 May, cure: earliest Thu 21 May, green concrete tears" in needed
    own = words(client.get(f"/builds/bindery/tasks/{feeder + 1}"))
    assert "Cure: earliest Thu 21 May Cure: no load on it. Cold or damp makes it longer" in own


def test_what_it_needs_and_what_waits_for_it_are_named_and_lead_on(client, feeder):
    found = links(client.get(f"/builds/bindery/tasks/{feeder}"))
    assert any(
        text.startswith("Pour the patch") and href.endswith(f"/tasks/{feeder + 1}") for text, href in found.items()
    )
    assert any(
        text.startswith("Ceiling board") and href.endswith(f"/tasks/{feeder + 2}") for text, href in found.items()
    )


def test_a_need_met_long_ago_is_drawn_as_settled_and_a_wish_as_a_wish(client, database, feeder):
    page = soup(client.get(f"/builds/bindery/tasks/{feeder}"))
    assert "Ceiling board" in page.select_one(".stops.wish").get_text()
    assert page.select_one(".stops.done") is None


def test_panels_of_higher_sheets_come_by_their_address(client, feeder):
    panels = soup(client.get(f"/builds/bindery/tasks/{feeder}")).select("a[hx-get]")
    assert [(panel["hx-get"], panel["href"]) for panel in panels] == [
        (f"/builds/bindery/tasks/{feeder}/stops", f"/builds/bindery/what-stops?task={feeder}"),
        (f"/builds/bindery/tasks/{feeder}/surfaces", f"/builds/bindery/tasks/{feeder}/surfaces"),
        (f"/builds/bindery/papers/of/task/{feeder}", f"/builds/bindery/papers/of/task/{feeder}"),
    ]


def test_a_task_is_started_on_the_day_typed_and_its_history_says_so(client, feeder):
    answer = client.post(f"/builds/bindery/tasks/{feeder}/start", data={"on": "May 9"})
    assert answer.status_code == 303
    page = words(client.get(f"/builds/bindery/tasks/{feeder}"))
    assert "under way since Sat 9 May" in page
    assert "Not started, then under way Sat 9 May" in page
    form = soup(client.get(f"/builds/bindery/tasks/{feeder}")).select_one("form#finish")
    assert form["action"] == FINISH_LATER.format(feeder)


@pytest.mark.parametrize(
    ("typed", "sentence"),
    [("2026-05-17", "That day is still to come."), ("31 April", "April has 30 days."), ("5/9/2026", "can be swapped")],
)
def test_a_day_that_cannot_be_is_not_taken_and_stays_in_its_field(client, feeder, typed, sentence):
    answer = client.post(f"/builds/bindery/tasks/{feeder}/start", data={"on": typed})
    assert answer.status_code == 422
    assert sentence in field_errors(answer)["on"]
    assert soup(answer).select_one("#f-on")["value"] == typed


def test_starting_twice_is_refused_with_a_way_back(client, feeder):
    client.post(f"/builds/bindery/tasks/{feeder}/start", data={"on": ""})
    answer = client.post(f"/builds/bindery/tasks/{feeder}/start", data={"on": ""})
    assert answer.status_code == 409
    assert "“Land the feeder” is under way already." in words(answer)
    assert links(answer)


def test_reopening_asks_why_and_keeps_the_day_it_was_done(client, feeder):
    pour = f"/builds/bindery/tasks/{feeder + 1}"
    bad = client.post(f"{pour}/reopen", data={"why": " "})
    assert bad.status_code == 422
    assert "Say why it is reopened" in field_errors(bad)["why"]
    assert client.post(f"{pour}/reopen", data={"why": "a corner broke off"}).status_code == 303
    page = words(client.get(pour))
    assert "Done on 14 May 2026, then reopened Sat 16 May, a corner broke off" in page
    assert "earliest" not in page


def test_every_line_of_a_task_can_be_changed_and_days_keep_what_they_were(client, feeder):
    pour = f"/builds/bindery/tasks/{feeder + 1}"
    page = soup(client.get(f"{pour}/edit"))
    sent = {tag["name"]: tag.get("value", "") for tag in page.select("#task input[type=text]")}
    chosen = {tag["name"]: tag.select_one("option[selected]")["value"] for tag in page.select("#task select")}
    data = sent | chosen | {"note": "from the west", "started_on": "2026-05-13", "one_go": "yes"}
    assert client.post(f"{pour}/edit", data=data | {"title": "Pour it", "low": "2½"}).status_code == 422
    answer = client.post(f"{pour}/edit", data=data | {"title": "Pour it", "low": "1½", "started_on": "2026-05-13"})
    assert answer.status_code == 303, words(answer)
    text = words(client.get(pour))
    assert "Pour it done Thu 14 May" in text
    assert "1½ to 4 h, likely 2 h" in text
    assert "carried through in one go" in text


def test_the_day_it_was_started_cannot_come_after_the_day_it_was_done(client, database, feeder):
    with database.writing() as session:
        session.get(Task, feeder + 1).started_on = date(2026, 5, 13)
    data = {"title": "Pour it", "kind": "concrete", "who": "self", "low": "1", "likely": "2", "high": "3"}
    answer = client.post(f"/builds/bindery/tasks/{feeder + 1}/edit", data=data | {"started_on": "15 May"})
    assert answer.status_code == 422
    assert "It was done on 14 May 2026" in field_errors(answer)["started_on"]


@pytest.mark.parametrize(
    ("change", "field", "sentence"),
    [
        ({"who": "helper", "hands": "1"}, "hands", "at least two"),
        ({"who": "self", "hands": "3"}, "hands", "one pair of hands"),
        ({"wait_days": "a week"}, "wait_days", "not a whole number"),
        ({"phase_id": "999"}, "phase_id", "Choose one of the list."),
    ],
)
def test_a_change_that_cannot_be_is_said_beside_its_field(client, feeder, change, field, sentence):
    data = {"title": "Land it", "kind": "wiring", "who": "self", "low": "1", "likely": "2", "high": "3"}
    answer = client.post(f"/builds/bindery/tasks/{feeder}/edit", data=data | change)
    assert answer.status_code == 422
    assert sentence in field_errors(answer)[field]
    assert "Land the feeder" in headings(client.get(f"/builds/bindery/tasks/{feeder}"))


def test_a_task_that_is_not_there_leads_onward(client, build):
    answer = client.get("/builds/bindery/tasks/77")
    assert answer.status_code == 404
    assert "no such task in this build" in words(answer)
    assert links(answer)


@pytest.mark.parametrize("verb", ["start", "reopen", "edit", "move", "needs", "needs/1/drop"])
def test_a_stranger_changes_no_task(stranger, feeder, verb):
    assert stranger.post(f"/builds/bindery/tasks/{feeder}/{verb}", data={"why": "x"}).status_code == 401
