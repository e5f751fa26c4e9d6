"""Scenario "Wrong date": a visit that passed, and the day on site of it, were typed a year too early."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.reading import field_errors, headings, soup, words
from tests.story.bindery import BASE, lay_out, said, saved
from webapp.inspections.models import Permit, PermitRule


def test_a_day_a_year_off_is_questioned_and_what_follows_from_it_moves_when_it_is_put_right(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IRPL")
        for code in ("ELE", "BLD"):  # only plumbing's clock is looked at here
            permit = session.exec(select(Permit).where(Permit.code == code)).one()
            for rule in session.exec(select(PermitRule).where(PermitRule.permit_id == permit.id)):
                session.delete(rule)
    visit = f"{BASE}/visits/{ground.asked['IRPL']}"
    sent = {"day": "2025-05-09", **said(ground, W="passed")}
    asked = client.post(f"{visit}/result", data=sent)
    assert asked.status_code == 422
    assert "before the permit was issued" in field_errors(asked)["day"]
    assert [button["value"] for button in soup(asked).select(".likely button")] == ["2026-05-09"]

    saved(client.post(f"{visit}/result", data=sent | {"day_right": "yes"}))
    assert "25 February 2026" in words(client.get(f"{BASE}/today")), "a pass before the issue renews nothing"
    assert client.post(f"{visit}/day", data={"day": "2026-04-31", "why": "slip"}).status_code == 422
    saved(client.post(f"{visit}/day", data={"day": "2026-05-09", "why": "typed the year wrong"}))
    assert "The first permit to lapse is PLB permit: 5 November 2026" in words(client.get(f"{BASE}/today"))
    assert "Rough plumbing passed my note Sat 9 May" in words(client.get(f"{BASE}/surfaces/W/before-cover"))
    assert "typed the year wrong" in words(client.get(visit)), "the old day and the reason stay visible"


def draft(client) -> str:
    return words(client.get(f"{BASE}/episodes/1"), "#draft")


def test_the_draft_of_the_episode_tells_the_visit_once_its_day_is_right(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IRPL")
    saved(client.post(f"{BASE}/episodes", data={"from_day": "2026-05-01"}))
    visit = f"{BASE}/visits/{ground.asked['IRPL']}"
    wrong = {"day": "2025-05-09", **said(ground, W="passed"), "day_right": "yes"}
    saved(client.post(f"{visit}/result", data=wrong))
    assert "Rough plumbing" not in draft(client), "a day of last year is none of this episode"
    saved(client.post(f"{visit}/day", data={"day": "2026-05-09", "why": "typed the year wrong"}))
    assert "9 May 2026: Rough plumbing (West wall) passed." in draft(client)
    assert "9 May 2025" not in draft(client)


def test_the_hours_of_the_week_and_of_the_draft_follow_the_day_put_right(client, database, build):
    saved(client.post(f"{BASE}/episodes", data={"from_day": "2026-05-01"}))
    sent = {"title": "", "from_day": "2026-05-01", "to_day": "", "show_hours": "yes", "show_spend": "hidden"}
    saved(client.post(f"{BASE}/episodes/1", data=sent))
    saved(client.post(f"{BASE}/workdays/log", data={"day": "2026-05-08", "own": "2"}))
    day = {"day": "2025-05-09", "own": "3", "done": "Stood by while the drain was tested"}
    asked = client.post(f"{BASE}/workdays/log", data=day)
    assert asked.status_code == 422
    assert "9 May 2025 is about a year ago. Did you mean 9 May 2026?" in field_errors(asked)["other_day"]
    saved(client.post(f"{BASE}/workdays/log", data=day | {"day_sure": "yes"}))
    assert weeks(client) == ["Week of Mon 4 May 2 h my own", "Week of Mon 5 May 2025 3 h my own"]
    assert "2 h of my own, on 1 day." in draft(client)
    saved(client.post(f"{BASE}/workdays/2/amend", data=day | {"day": "2026-05-09"}))
    assert weeks(client) == ["Week of Mon 4 May 5 h my own"]
    assert "5 h of my own, on 2 days." in draft(client)
    assert "Day 9 May 2025 9 May 2026" in words(client.get(f"{BASE}/workdays/2"), "#changes")


def weeks(client) -> list[str]:
    """Each week of the list of workdays with its hours, newest first."""
    return [title for title in headings(client.get(f"{BASE}/workdays")) if title.startswith("Week of")]


def test_a_workday_typed_a_year_early_is_asked_about_even_after_the_first_permit(client, database, build):
    with database.writing() as session:
        builders.a_permit(session, build, issued_on=date(2025, 3, 1))
    day = {"day": "other", "other_day": "2025-05-09", "own": "3", "done": "Straps, and the truck came"}
    asked = client.post(f"{BASE}/workdays/log", data=day)
    assert asked.status_code == 422
    assert "9 May 2025 is about a year ago. Did you mean 9 May 2026?" in field_errors(asked)["other_day"]
    assert [button["value"] for button in soup(asked).select(".likely button")] == ["2026-05-09"]
    assert "Straps, and the truck came" in words(asked), "what was typed stays"
    saved(client.post(f"{BASE}/workdays/log", data=day | {"other_day": "2026-05-09"}))
    assert weeks(client) == ["Week of Mon 4 May 3 h my own"]


def test_a_day_that_is_right_is_taken_and_not_asked_about_again_when_it_is_amended(client, database, build):
    day = {"day": "2025-05-09", "own": "3", "done": "Old note, found in the van"}
    saved(client.post(f"{BASE}/workdays/log", data=day | {"day_sure": "yes"}))
    saved(client.post(f"{BASE}/workdays/1/amend", data=day | {"own": "4"}))
    assert weeks(client) == ["Week of Mon 5 May 2025 4 h my own"]


@pytest.mark.parametrize("typed", ["2026-04-31", "31 April", "31.4.2026", "2025-02-29", "2026-13-01"])
def test_a_day_that_does_not_exist_is_taken_nowhere(client, database, build, typed):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IRPL")
        task = ground.tasks["Batts, N"]
    visit = f"{BASE}/visits/{ground.asked['IRPL']}"
    sendings = {
        f"{BASE}/workdays/log": {"day": "other", "other_day": typed, "own": "2", "day_sure": "yes"},
        f"{visit}/result": {"day": typed, "day_right": "yes", **said(ground, W="passed")},
        f"{visit}/day": {"day": typed, "why": "slip"},
        f"{BASE}/spend": {"day": typed, "what": "Nails", "total": "5", "kind": "into the building"},
        f"{BASE}/permits": {"name": "Fence", "code": "FEN", "issued_on": typed},
        f"{BASE}/tasks/{task}/start": {"on": typed},
        f"{BASE}/booked": {"what": "Truck", "day": typed},
        f"{BASE}/questions": {"words": "Where?", "kind": "question", "on": typed},
    }
    for path, sent in sendings.items():
        answer = client.post(path, data=sent)
        assert answer.status_code == 422, path
        assert field_errors(answer), path
        assert typed in answer.text, f"{path} lost what was typed"
