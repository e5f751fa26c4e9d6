"""The builder's own words are typed once and said on every page, in errors and in drafts too."""

from datetime import date

from tests import builders
from tests.reading import soup, words

WORDS = "/builds/bindery/words"
MINE = {
    "one-inspection": "control",
    "many-inspection": "controls",
    "one-permit": "consent",
    "many-permit": "consents",
    "one-board": "plasterboard",
    "many-board": "sheets",
}


def test_every_page_says_it_my_way_and_what_i_typed_stays(client, database, build):
    with database.writing() as session:
        surface = builders.a_surface(session, build)
        builders.an_inspection(session, builders.a_permit(session, build), surfaces=(surface,), name="Rough inspection")
    answer = client.post(WORDS, data=MINE)
    assert answer.status_code == 303
    inspections = client.get("/builds/bindery/inspections")
    assert soup(inspections).select_one("h1").get_text() == "Controls"
    assert "Rough inspection" in words(inspections)
    sheets = [link.get_text(" ", strip=True) for link in soup(inspections).select("#sheets a")]
    assert "V1 Consents" in sheets
    assert "V2 Controls" in sheets
    assert "A new control" in soup(client.get("/builds/bindery/inspections/new")).select_one("h1").get_text()
    refused = client.post("/builds/bindery/permits", data={})
    assert refused.status_code == 422
    assert "What is the consent called?" in words(refused)
    assert "There is no control called NOPE here." in words(client.get("/builds/bindery/inspections/NOPE"))


def test_a_page_kept_from_before_is_drawn_again_with_the_new_word(client, build):
    assert "Permits" in words(client.get("/builds/bindery/permits"))
    client.post(WORDS, data=MINE)
    assert "Consents" in words(client.get("/builds/bindery/permits"))
    client.post(WORDS, data={})
    assert "Permits" in words(client.get("/builds/bindery/permits"))


def test_half_a_word_is_asked_about_and_what_was_typed_stays(client, build):
    answer = client.post(WORDS, data={"one-inspection": "control"})
    assert answer.status_code == 422
    assert "And more than one control? Write that too." in words(answer)
    assert soup(answer).select_one("[name='one-inspection']")["value"] == "control"


def test_another_build_keeps_its_own(client, database, build):
    with database.writing() as session:
        builders.a_build(session, "Shed", slug="shed")
    client.post(WORDS, data=MINE)
    assert "Inspections" in words(client.get("/builds/shed/inspections"))


def test_no_mark_of_a_word_is_left_on_any_sheet_nor_in_a_draft(client, database, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build)
        surface = builders.a_surface(session, build)
        builders.works_on(session, builders.a_task(session, phase, "Hang the board, east"), surface, closes=True)
        builders.a_permit(session, build, issued_on=None)
        builders.a_workday(session, build, date(2026, 5, 9))
    client.post("/builds/bindery/episodes", data={"from_day": "2026-05-01"})
    links = [link["href"] for link in soup(client.get("/builds/bindery/today")).select("#sheets a")]
    assert len(links) > 10
    for href in [*links, "/builds/bindery/episodes/1", "/builds/bindery/surfaces/E/before-cover", WORDS]:
        page = client.get(href)
        assert page.status_code == 200, href
        assert not {"\ue000", "\ue001"} & set(page.text), href
