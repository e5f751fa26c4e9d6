"""Scenario "Wrong date": a visit that passed was typed a year too early."""

from sqlmodel import select

from tests.reading import field_errors, soup, words
from tests.story.bindery import BASE, lay_out, said, saved
from webapp.inspections.models import Permit


def test_a_day_a_year_off_is_questioned_and_what_follows_from_it_moves_when_it_is_put_right(client, database, build):
    with database.writing() as session:
        ground = lay_out(session, build, asked_for="IRPL")
        for code in ("ELE", "BLD"):  # only plumbing's clock is looked at here
            permit = session.exec(select(Permit).where(Permit.code == code)).one()
            permit.lapse_days = None
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
