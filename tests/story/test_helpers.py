"""Scenario "Helpers": I 7 h, two friends 4.5 h each unpaid, one paid 80 for 4.5 h, on a Saturday."""

import pytest
from sqlmodel import select

from tests import builders
from tests.reading import field_errors, headings, links, soup, words
from webapp.money.models import Spend

BASE = "/builds/bindery"
SATURDAY = {
    "day": "2026-05-16",
    "own": "7",
    "helper_unpaid": "9",
    "helper_paid": "4.5",
    "helper_pay": "80",
    "people": "Kim, Lee and Robin Poole",
    "done": "Four of us: the ceiling is hung. Kim and Lee on the lift.",
}
DESK = {"title": "The ceiling", "from_day": "2026-05-01", "to_day": "2026-05-16", "show_hours": "yes"}
DESK |= {"show_spend": "exact"}


@pytest.fixture
def saturday(client, database, build) -> str:
    with database.writing() as session:
        builders.a_spend(session, build, total_cents=10_000)
        builders.an_episode(session, build)
        builders.a_surface(session, build)
    answer = client.post(f"{BASE}/workdays/log", data=SATURDAY)
    assert answer.status_code == 303, answer.text
    return f"{BASE}/workdays/1"


def test_the_day_shows_each_kind_of_hands_for_itself(client, saturday):
    day = client.get(saturday)
    cells = {tag.dt.get_text(): tag.dd.get_text() for tag in soup(day).select("dl.cells > div")}
    kinds = {"My own": "7 h", "Unpaid help": "9 h", "Paid help": "4½ h"}
    assert {name: cells[name] for name in kinds} == kinds
    assert cells["Who helped"] == "Kim, Lee and Robin Poole"
    apart = "7 h my own, 9 h unpaid help, 4½ h paid help"
    assert apart in words(client.get(f"{BASE}/workdays"))
    assert f"Week of Mon 11 May {apart}" in headings(client.get(f"{BASE}/workdays"))
    today = words(client.get(f"{BASE}/today"))
    assert "Holds by now: 1 day, 7 h my own, 9 h unpaid help and 4½ h paid help." in today
    assert apart in words(client.get(f"{BASE}/episodes"))
    for page in (day, client.get(f"{BASE}/episodes"), client.get(f"{BASE}/workdays"), client.get(f"{BASE}/today")):
        assert "20½ h" not in words(page), "nothing adds one kind of hands to another"
        assert "16 h" not in words(page)


def test_cost_rises_by_the_pay_only(client, database, saturday):
    with database.reading() as session:
        lines = [(one.what, one.total_cents, one.kind) for one in session.exec(select(Spend).order_by(Spend.id))]
    assert lines[1:] == [("Paid helper", 8_000, "paid labour")]
    assert "180.00" in words(client.get(f"{BASE}/spend"))


def test_a_note_reminds_that_paying_people_can_bring_duties_and_gives_no_advice(client, saturday):
    said = "Paying people can bring duties, such as insurance, tax or papers. Ask your local authority; "
    assert f"{said}this is a reminder, not advice." in words(client.get(saturday))
    client.post(f"{BASE}/workdays/log", data={"day": "2026-05-15", "helper_unpaid": "2"})
    assert "Paying people" not in words(client.get(f"{BASE}/workdays/2")), "unpaid help is asked for nothing"


def test_the_draft_tells_the_hours_apart_and_names_nobody(client, saturday):
    client.post(f"{BASE}/episodes/1", data=DESK)
    draft = words(client.get(f"{BASE}/episodes/1"), "#draft")
    assert "7 h of my own, 9 h of unpaid help and 4½ h of paid help, on 1 day." in draft
    for name in ("Kim", "Lee", "Robin", "Poole"):
        assert name not in draft


def publish(client, text: str):
    return client.post(f"{BASE}/episodes/1/publish", data=DESK | {"text": text})


def test_no_name_goes_out_unless_each_said_yes(client, stranger, saturday):
    refused = publish(client, "Kim and Lee held the lift.")
    assert refused.status_code == 409
    assert "Kim is named and has not said yes" in words(refused)
    assert "Lee is named and has not said yes" in words(refused)
    people = client.get(f"{BASE}/people")
    assert "Kim Stays private. Named on 1 day note." in words(people)
    forms = {form.button.get_text(): form["action"] for form in soup(people).select(".rows form")}
    assert client.post(forms["Kim said yes"], data={"said": "yes"}).status_code == 303
    still = publish(client, "Kim and Lee held the lift.")
    assert still.status_code == 409
    assert "Kim is named" not in words(still) and "Lee is named" in words(still)
    client.post(forms["Lee said yes"], data={"said": "yes"})
    assert publish(client, "Kim and Lee held the lift.").status_code == 303
    assert "Kim and Lee held the lift." in words(stranger.get("/watch/bindery/1"))
    late = client.post(f"{BASE}/episodes/1/corrections", data={"words": "It was Robin Poole who held it."})
    assert late.status_code == 422
    assert "Robin Poole is named and has not said yes. Take the name out." in field_errors(late)["words"]


def test_a_first_name_alone_is_asked_about_and_stops_nothing(client, saturday):
    client.post(f"{BASE}/episodes/1", data=DESK | {"text": "Robin brought the lift."})
    assert "Is this Robin somebody who has not said yes?" in words(client.get(f"{BASE}/episodes/1"))
    assert publish(client, "Robin brought the lift.").status_code == 303


def test_whom_i_told_before_working_alone_is_private_too(client, database, saturday):
    client.post(f"{BASE}/alone", data={"whom": "Sam", "back_by": "23:59"})
    assert publish(client, "Sam waited at home.").status_code == 409


def test_a_yes_can_be_taken_back_and_what_was_written_of_a_day_is_readable(client, saturday):
    client.post(f"{BASE}/people/1", data={"said": "yes"})
    assert "Kim Said yes on 16 May 2026." in words(client.get(f"{BASE}/people"))
    client.post(f"{BASE}/people/1", data={"said": "no"})
    assert publish(client, "Kim was here.").status_code == 409
    client.post(
        f"{saturday}/amend", data={key: one for key, one in SATURDAY.items() if key != "helper_pay"} | {"people": "Kim"}
    )
    assert "Who helped Kim, Lee and Robin Poole Kim" in words(client.get(saturday), "#changes")
    assert f"{BASE}/people" in links(client.get(f"{BASE}/workdays"), "aside, .tb").values()
    assert client.post(f"{BASE}/people/99", data={"said": "yes"}).status_code == 404
