"""May it be covered? One sheet with the answer, everything owed, what it rests on, and the forms at the gate."""

from datetime import date

import pytest
from sqlmodel import select

from tests import builders
from tests.pages.readiness.conftest import E
from tests.reading import field_errors, headings, links, soup, words
from webapp.readiness.rules import keys
from webapp.surfaces.models import Cover, Lifted


def rows_of(database, table) -> list:
    with database.reading() as session:
        return list(session.exec(select(table)).all())


def test_do_not_cover_with_the_whole_list_and_each_line_leads_to_where_it_is_settled(client, wall):
    page = client.get(f"{E}/before-cover")
    assert headings(page)[:2] == ["Do not cover", "Hard stops 4, all mine"]
    assert "East wall: 4 owed, all hard stops." in words(page)
    told = [item.b.get_text() for item in soup(page).select(".stops > li")]
    assert told == [
        "Seal the hole in the plate",
        "Picture 6: drain and supply",
        "Picture 7: duct sleeve",
        "Shot: sealing the duct sleeve",
    ]
    hrefs = [item.a["href"] for item in soup(page).select(".stops > li")]
    assert hrefs[0] == f"/builds/bindery/corrections/{wall.correction.row_id}"
    assert hrefs[1] == f"/builds/bindery/surfaces/E/shoot?slot={wall.slots[5].row_id}"
    assert hrefs[3] == f"/builds/bindery/footage/{wall.shot.row_id}"
    assert "Studbay counts what you recorded. Your local authority decides." in words(page)


def test_the_main_button_takes_the_next_picture(client, wall):
    button = soup(client.get(f"{E}/before-cover")).select_one(".reach .main")
    assert button.get_text(strip=True) == "Take picture 6"
    assert button["href"].endswith(f"slot={wall.slots[5].row_id}")


def test_every_line_of_the_sheet_leads_to_a_page_that_is_there(client, wall):
    page = client.get(f"{E}/before-cover")
    for href in set(links(page).values()):
        if not href.startswith("#"):
            assert client.get(href).status_code == 200, href


def test_what_is_in_order_names_who_passed_what_and_when(client, wall):
    table = words(client.get(f"{E}/before-cover"), "table")
    assert "Rough electrical passed my note Thu 7 May" in table
    assert "Framing passed, small items on my honour my note Wed 13 May" in table
    assert "Pictures 5 of 7 me Thu 14 May" in table
    assert "Boxes counted: 4 me" in table


def test_may_be_covered_once_all_is_settled_with_what_was_let_go(client, settled):
    page = client.get(f"{E}/before-cover")
    assert headings(page)[0] == "May be covered"
    assert "East wall: nothing owed, Saturday 16 May 2026. 2 things were let go with a reason." in words(page)
    assert "“The light was gone” Me, Sat 16 May. This line stays." in words(page)
    assert soup(page).select_one(".reach .main")["href"] == f"{E}/cover"


def test_closing_asks_for_day_who_and_layers_and_then_shows_the_frozen_evidence(client, settled):
    form = client.get(f"{E}/cover")
    assert soup(form).select_one("[name=on]")["value"] == "16 May 2026"
    sent = client.post(f"{E}/cover", data={"on": "16 May 2026", "who": "me", "layers": "board, screwed"})
    assert sent.headers["location"] == f"{E}/before-cover"
    page = client.get(f"{E}/before-cover")
    assert headings(page)[0] == "Closed"
    assert "Wall closed 16 May 2026 by me, board, screwed" in headings(page)
    assert "Let go: Picture 6: drain and supply. The light was gone" in words(page)


def test_a_closed_wall_says_so_when_a_result_is_taken_back(client, settled, change):
    client.post(f"{E}/cover", data={"on": "today"})
    change(settled.passed, state="withdrawn", changed_by="theirs")
    page = client.get(f"{E}/before-cover")
    assert headings(page)[:2] == ["Closed, but not in order", "Owed 1, mine"]
    assert "Rough electrical, E" in words(page)
    assert "Rough electrical passed" in words(page), "the evidence as it stood stays"


def test_closing_is_refused_with_every_reason_while_something_is_owed(client, wall, database):
    for answer in (client.get(f"{E}/cover"), client.post(f"{E}/cover", data={"on": "today"})):
        assert answer.status_code == 409
        assert headings(answer)[0] == "East wall: do not cover"
        assert len(soup(answer).select(".stops:not(.done) > li")) == 4
    assert rows_of(database, Cover) == []


def test_a_wall_is_not_closed_twice(client, settled):
    client.post(f"{E}/cover", data={"on": "today"})
    again = client.post(f"{E}/cover", data={"on": "today"})
    assert again.status_code == 409
    assert "East wall was closed on 16 May 2026." in words(again)


@pytest.mark.parametrize(
    ("on", "sentence"),
    [
        ("31 April 2026", "April has 30 days."),
        ("18 May 2026", "18 May 2026 is still to come."),
        ("14 May 2026", "Insulation passed on 15 May 2026; it was still open then."),
        ("", "Write the day."),
    ],
)
def test_a_day_that_cannot_be_gets_its_sentence_and_what_was_typed_stays(client, settled, database, on, sentence):
    answer = client.post(f"{E}/cover", data={"on": on, "who": "the helper"})
    assert answer.status_code == 422
    assert field_errors(answer)["on"].startswith(sentence)
    assert soup(answer).select_one("[name=who]")["value"] == "the helper"
    assert soup(answer).select_one("[name=on]")["value"] == on
    assert rows_of(database, Cover) == []


def test_letting_go_needs_a_reason_and_one_of_the_list(client, wall, database):
    answer = client.post(f"{E}/let-go", data={"by": "me", "what": keys.correction(wall.correction.row_id), "why": ""})
    assert answer.status_code == 422
    assert field_errors(answer)["why"].endswith("Write the reason. It stays on record for good.")
    assert "Choose what you let go." in words(answer)
    assert rows_of(database, Lifted) == []


def test_the_form_offers_my_own_evidence_and_only_the_authority_lifts_what_it_asked_for(client, wall):
    page = soup(client.get(f"{E}/let-go"))
    mine = {one["value"] for one in page.select("#skip input[name=what]")}
    assert mine == {keys.slot(s.row_id) for s in wall.slots[5:]} | {keys.shot(wall.shot.row_id)}
    theirs = {one["value"] for one in page.select("#word input[name=what]")}
    assert theirs == {keys.correction(wall.correction.row_id)}


def test_the_authoritys_word_is_recorded_with_who_when_and_why(client, wall, database):
    word = {
        "by": "authority",
        "what": keys.correction(wall.correction.row_id),
        "who": "the inspector, by telephone",
        "why": "Seen on the day, need not be shown again",
        "on": "15 May 2026",
    }
    assert client.post(f"{E}/let-go", data=word | {"who": ""}).status_code == 422
    assert client.post(f"{E}/let-go", data=word).status_code == 303
    line = rows_of(database, Lifted)[0]
    assert (line.by, line.who, line.on_day) == ("authority", "the inspector, by telephone", date(2026, 5, 15))
    assert "Seen on the day" in words(client.get(f"{E}/before-cover"))


def test_finishing_the_board_goes_through_the_same_gate(client, wall, settled):
    board = f"/builds/bindery/tasks/{wall.board.row_id}"
    bad = client.post(f"{board}/finish", data={"on": "soon"})
    assert bad.status_code == 422
    assert "on" in field_errors(bad)
    answer = client.post(f"{board}/finish", data={"on": "today"})
    assert answer.headers["location"] == board
    assert headings(client.get(f"{E}/before-cover"))[0] == "Closed"


def test_finishing_the_board_too_early_is_refused_and_says_why(client, wall):
    answer = client.post(f"/builds/bindery/tasks/{wall.board.row_id}/finish", data={"on": "today"})
    assert answer.status_code == 409
    assert headings(answer)[0] == "Not finished: East wall may not be covered yet"


def test_a_surface_nobody_has_to_see_is_not_said_to_be_free(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "N", "North wall")
    page = client.get("/builds/bindery/surfaces/N/before-cover")
    assert headings(page)[0] == "Do not cover"
    assert "Which inspection has to see it?" in words(page)


def test_a_surface_that_is_not_there(client, build):
    assert client.get("/builds/bindery/surfaces/X/before-cover").status_code == 404


@pytest.mark.parametrize("path", ["cover", "let-go"])
def test_a_stranger_changes_and_sees_nothing(stranger, wall, path):
    assert stranger.post(f"{E}/{path}", data={"on": "today"}).status_code == 401
    assert stranger.get(f"{E}/before-cover").headers["location"].startswith("/sign-in")
    assert stranger.post(f"/builds/bindery/tasks/{wall.board.row_id}/finish").status_code == 401
