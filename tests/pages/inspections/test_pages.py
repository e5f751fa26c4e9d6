"""The sheets of permits and visits: what they show, what a bad form says, who may see them, what they cost."""

from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.pages.inspections.test_scenarios import BASE, a_photo, results, site  # noqa: F401 (a fixture)
from tests.reading import field_errors, headings, links, soup, words
from webapp.inspections import store


def test_an_empty_build_says_what_comes_first(client):
    assert links(client.get(f"{BASE}/permits"))["Add a permit name, day of issue, its rule"] == f"{BASE}/permits/new"
    assert "Write the permit down first" in words(client.get(f"{BASE}/inspections"))


def test_each_permit_shows_its_own_clock_and_where_its_rule_is_from(client, database, build):
    with database.writing() as session:
        issued = date(2025, 8, 29)
        bld = builders.a_permit(session, build, "BLD", issued_on=issued, rule_source="my permit, back page")
        builders.a_permit(session, build, "PLB", issued_on=date(2026, 3, 1), lapse_days=365)
        framing = builders.an_inspection(session, bld, "Framing", notice_days=2)
        builders.a_result(session, builders.a_visit(session, framing, date(2026, 1, 12)), None, "part passed")
        builders.a_result(session, builders.a_visit(session, framing, date(2026, 4, 20)), None, "failed")
    page = words(client.get(f"{BASE}/permits"))
    assert "Lapses after Saturday 11 July 2026" in page
    assert "Framing, part passed, Monday 12 January 2026" in page
    assert "Framing would renew it, if it passes. Last useful visit Fri 10 Jul Ask by Wed 8 Jul 15:30" in page
    assert "From: my permit, back page. Your local authority decides." in page
    assert "Lapses after Monday 1 March 2027" in page


def test_a_permit_is_typed_from_its_paper_and_put_right_with_the_old_day_kept(client):
    typed = {"name": "Electrical permit", "code": "ele", "issued_on": "2025-08-29", "idle_count": "180"}
    assert client.post(f"{BASE}/permits", data=typed).status_code == 303
    right = client.post(f"{BASE}/permits/ELE", data=typed | {"issued_on": "2025-09-29", "why": "misread the stamp"})
    assert right.headers["location"] == f"{BASE}/permits/ELE"
    page = words(client.get(f"{BASE}/permits/ELE"))
    assert "Issued on: 29 August 2025, now 29 September 2025" in page
    assert "misread the stamp" in page


def test_a_permit_that_cannot_be_so_says_why_at_each_field(client):
    typed = {"code": "a b", "issued_on": "2026-06-20", "idle_count": "half a year", "start_count": "-3"}
    answer = client.post(f"{BASE}/permits", data=typed)
    assert answer.status_code == 422
    assert set(field_errors(answer)) == {"name", "code", "issued_on", "idle_count", "start_count"}
    assert soup(answer).select_one("#f-idle_count")["value"] == "half a year"


def test_an_inspection_is_put_on_the_list_in_the_builders_order(client, database, build):
    with database.writing() as session:
        permit = builders.a_permit(session, build).row_id
        wall = builders.a_surface(session, build).row_id
    for name in ("Rough electrical", "Insulation"):
        sent = {"name": name, "permit": permit, "surfaces": [wall], "holds_cover": "yes"}
        assert client.post(f"{BASE}/inspections", data=sent).status_code == 303
    client.post(f"{BASE}/inspections/INSULATION/move", data={"to": "earlier"})
    shown = [tag.get_text() for tag in soup(client.get(f"{BASE}/inspections")).select("#schedule b")]
    assert shown == ["Insulation", "Rough electrical"]
    bad = client.post(f"{BASE}/inspections", data={"name": "", "permit": "99", "ask_by": "noon"})
    assert set(field_errors(bad)) == {"name", "permit", "ask_by"}
    edited = client.post(
        f"{BASE}/inspections/INSULATION/edit", data={"name": "Insulation", "permit": permit, "code": "INS"}
    )
    assert edited.headers["location"] == f"{BASE}/inspections/INS"
    assert client.post(f"{BASE}/inspections/INS/edit", data={"name": ""}).status_code == 422


def test_a_result_is_my_note_until_the_card_is_pictured(client, site):  # noqa: F811
    path = f"{BASE}/visits/{site['IREL']}"
    sent = {"day": "2026-05-07", "evidence": "card signed"}
    client.post(f"{path}/result", data=sent | results(site, N="passed"))
    assert "Passed. 7 May 2026, my note." in words(client.get(f"{BASE}/inspections/IREL"))
    client.post(f"{path}/result", data=sent | results(site, E="passed"), files={"paper": a_photo()})
    assert "Passed. 7 May 2026, the inspector, card signed." in words(client.get(f"{BASE}/inspections/IREL"))


def test_a_form_with_several_mistakes_keeps_all_that_was_typed(client, site, database):  # noqa: F811
    sent = {
        "day": "the other day",
        **results(site, N="part passed", E="failed"),
        "words_2": "Staple on edge",
        "fee": "a lot",
        "evidence": "my note",
    }
    answer = client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent, files={"paper": a_photo()})
    assert answer.status_code == 422
    north = site["walls"]["N"]
    assert set(field_errors(answer)) == {"day", f"part_{north}", "fee", "evidence"}
    assert "On which surface is it?" in words(answer), "two were held"
    page = soup(answer)
    assert page.select_one("#f-words_2").get_text().strip() == "Staple on edge"
    assert page.select_one("[name=paper_kept]")["value"].isdecimal(), "the picture need not be chosen again"
    assert not page.select("details:not([open]) #f-words_2"), "what was typed is not folded up"
    with database.reading() as session:
        assert store.list_results(session, site["build"]) == ()


def test_an_empty_result_and_a_file_that_is_no_picture_are_told(client, site):  # noqa: F811
    path = f"{BASE}/visits/{site['IREL']}/result"
    empty = client.post(path, data={"day": "2026-05-07"})
    assert empty.status_code == 422
    assert "Say how at least one surface came out" in words(empty)
    no_picture = {"paper": ("notes.jpg", b"not a picture at all", "image/jpeg")}
    sent = {"day": "2026-05-07", "evidence": "slip", **results(site, N="passed")}
    assert set(field_errors(client.post(path, data=sent, files=no_picture))) == {"paper"}


def test_pressing_twice_saves_once(client, site, database):  # noqa: F811
    page = client.get(f"{BASE}/visits/{site['IREL']}")
    sent_id = soup(page).select_one("[name=sent_id]")["value"]
    south = site["walls"]["S"]
    sent = {"sent_id": sent_id, "day": "2026-05-07", **results(site, S="failed"), "words_1": "Plates", "on_1": south}
    first, second = (client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent) for _ in range(2))
    assert first.headers["location"] == second.headers["location"]
    with database.reading() as session:
        assert len(store.list_corrections(session, site["build"])) == 1


def test_a_visit_is_moved_and_called_off(client, site):  # noqa: F811
    path = f"{BASE}/visits/{site['IFRM']}"
    moved = {"day": "2026-05-27", "asked_on": "2026-05-16", "window": "morning", "why": "window is not in"}
    assert client.post(f"{path}/move", data=moved).status_code == 303
    assert "Day: Thursday 7 May 2026, now Wednesday 27 May 2026" in words(client.get(path))
    assert client.post(f"{path}/move", data={"day": "2026-05-01"}).status_code == 422
    assert client.post(f"{path}/cancel", data={"reason": "ill"}).status_code == 303
    assert "This visit was called off" in words(client.get(path))
    assert "Cancelled: Morning" not in words(client.get(f"{BASE}/inspections/IFRM"))
    assert client.post(f"{path}/day", data={"day": "2026-05-07"}).status_code == 409


def test_not_ready_wants_a_reason_and_a_booking_a_day_that_can_be(client, site):  # noqa: F811
    answer = client.post(f"{BASE}/visits/{site['IFRM']}/not-ready", data={"day": "2026-05-07"})
    assert set(field_errors(answer)) == {"reason"}
    booking = client.post(f"{BASE}/inspections/IFRM/visits", data={"day": "2026-05-01", "asked_on": "2026-05-20"})
    assert set(field_errors(booking)) == {"day", "asked_on"}
    assert client.post(f"{BASE}/visits/{site['IFRM']}/day", data={"day": "never"}).status_code == 422


def test_what_to_have_ready_is_ticked_and_dropped(client, site, database):  # noqa: F811
    bad = client.post(f"{BASE}/inspections/IFRM/asked", data={"asked": ""})
    assert set(field_errors(bad)) == {"asked"}
    client.post(f"{BASE}/inspections/IFRM/asked", data={"asked": "ladder", "by_inspector": "yes"})
    with database.reading() as session:
        (item,) = store.list_asked(session, site["build"])
    for to, seen in (("done", "Ready since 16 May 2026"), ("undone", "It is ready"), ("dropped", "Wanted again")):
        assert client.post(f"{BASE}/asked/{item.id}", data={"to": to}).status_code == 303
        assert seen in words(client.get(f"{BASE}/inspections/IFRM"), "#ready")


def test_a_correction_shows_its_steps_and_refuses_days_to_come(client, site, database):  # noqa: F811
    south = site["walls"]["S"]
    sent = {"day": "2026-05-07", **results(site, S="failed"), "words_1": "Plates", "on_1": south}
    client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent)
    with database.reading() as session:
        path = f"{BASE}/corrections/{store.list_corrections(session, site['build'])[0].id}"
    late = client.post(f"{path}/done", data={"on": "2026-05-17"})
    assert "not come yet" in field_errors(late)["on"]
    client.post(f"{path}/done", data={"on": "2026-05-15"}, files={"picture": a_photo()})
    page = client.get(path)
    assert "Done, to be seen 2026-05-15. Before: open." in words(page)
    assert soup(page).select("img[alt='Correction 1, after']")
    client.post(f"{path}/reopen", data={"on": "2026-05-16", "said": "the plate had slipped"})
    changed = client.post(f"{path}/words", data={"words": "Plates on four studs", "clears": "re-visit"})
    assert changed.status_code == 303
    assert set(field_errors(client.post(f"{path}/words", data={"words": ""}))) == {"words"}
    assert "words: Plates" in words(client.get(path))


def test_what_was_to_be_seen_again_clears_otherwise_only_by_somebodys_word(client, site, database):  # noqa: F811
    sent = {"day": "2026-05-07", **results(site, S="failed"), "words_1": "Plates", "on_1": site["walls"]["S"]}
    client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent)
    with database.reading() as session:
        path = f"{BASE}/corrections/{store.list_corrections(session, site['build'])[0].id}"
    own_word = {"words": "Plates", "clears": "own word"}
    asked = client.post(f"{path}/words", data=own_word)
    assert asked.status_code == 422
    assert "Who said that it may be cleared so?" in field_errors(asked)["who_said"]
    assert soup(asked).select_one("select[name=clears] option[selected]")["value"] == "own word"
    assert client.post(f"{path}/words", data=own_word | {"who_said": "the inspector, on the phone"}).status_code == 303
    page = words(client.get(path))
    assert "Before: clears by: re-visit. said by the inspector, on the phone" in page


def test_what_was_asked_for_besides_ends_with_one_full_stop(client, site):  # noqa: F811
    sent = {"day": "2026-05-07", **results(site, N="passed"), "asked": "Have the ladder ready."}
    client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent)
    page = words(client.get(f"{BASE}/visits/{site['IREL']}"))
    assert "On the list for the next visit: Have the ladder ready." in page
    assert "ready.." not in page


def test_a_result_put_right_wants_to_know_how_it_came_about(client, site, database):  # noqa: F811
    client.post(f"{BASE}/visits/{site['IREL']}/result", data={"day": "2026-05-07", **results(site, N="passed")})
    with database.reading() as session:
        path = f"{BASE}/results/{store.list_results(session, site['build'])[0].id}"
    asked = client.post(f"{path}/correct", data={"place": site["walls"]["N"], "kind": "part passed"})
    assert set(field_errors(asked)) == {"part", "why"}
    assert "It frees this surface of this inspection." in words(client.get(path))
    assert headings(client.get(f"{path}?do=withdraw"))[1] == "They took it back"


POSTS = (
    "permits",
    "permits/ELE",
    "fees/1/pay",
    "inspections",
    "inspections/IREL/edit",
    "inspections/IREL/move",
    "inspections/IREL/visits",
    "inspections/IREL/asked",
    "asked/1",
    *(f"visits/1/{part}" for part in ("result", "not-ready", "move", "cancel", "day")),
    "results/1/withdraw",
    "results/1/correct",
    *(f"corrections/1/{part}" for part in ("done", "sent", "clear", "reopen", "words")),
)


@pytest.mark.parametrize("path", POSTS)
def test_a_stranger_changes_nothing(stranger, build, path):
    answer = stranger.post(f"{BASE}/{path}", data={"day": "2026-05-07"})
    assert answer.status_code == 401 or answer.headers["location"].startswith("/sign-in")


@pytest.mark.parametrize("path", ["permits/XX", "inspections/XX", "visits/9", "results/9", "corrections/9", "fees/9"])
def test_what_is_not_there_leads_onward(client, path):
    answer = client.get(f"{BASE}/{path}")
    assert answer.status_code == 404
    assert links(answer)


def more_visits(database, site, number: int) -> None:  # noqa: F811
    """So many more permits, inspections and visits, each with a result and a correction."""
    with database.writing() as session:
        build = session.get_one(builders.Build, site["build"])
        wall = session.get_one(builders.Surface, site["walls"]["N"])
        inspection = session.get_one(builders.Inspection, site["IREL id"])
        start = len(store.list_permits(session, site["build"]))
        for each in range(start, start + number):
            permit = builders.a_permit(session, build, f"P{each}")
            builders.an_inspection(session, permit, f"Look {each}", (wall,), code=f"L{each}", position=each)
            visit = builders.a_visit(session, inspection, date(2026, 4, 1))
            builders.a_correction(session, visit, builders.a_result(session, visit, wall, "failed"), number=each)


@pytest.mark.parametrize("path", ["permits", "inspections", "inspections/IREL", "visits/1"])
def test_a_sheet_costs_the_same_with_five_rows_and_with_fifty(client, site, database, path):  # noqa: F811
    client.get(f"{BASE}/{path}")  # opens the connections, which takes statements of its own
    more_visits(database, site, 5)
    with queries(database, anew=True) as five:
        assert client.get(f"{BASE}/{path}").status_code == 200
    more_visits(database, site, 45)
    with queries(database, anew=True) as fifty:
        assert client.get(f"{BASE}/{path}").status_code == 200
    assert 0 < len(five) == len(fifty)


@pytest.mark.parametrize(
    "path",
    [
        "permits/ELE",
        "inspections",
        "inspections?order=1",
        "inspections/IREL",
        "inspections/IREL/edit",
        *(f"visits/1{do}" for do in ("", "?do=not-ready", "?do=move", "?do=cancel")),
        *(f"results/1{do}" for do in ("", "?do=withdraw", "?do=correct")),
        *(f"corrections/1{do}" for do in ("", "?do=sent", "?do=clear", "?do=words")),
        "fees/1",
    ],
)
def test_every_field_has_a_label_and_no_name_is_there_twice(client, site, database, path):  # noqa: F811
    more_visits(database, site, 1)
    with database.writing() as session:
        builders.a_fee(session, session.get_one(builders.Permit, 1))
    page = soup(client.get(f"{BASE}/{path}"))
    ids = [tag["id"] for tag in page.select("[id]")]
    assert len(ids) == len(set(ids))
    labelled = {tag["for"] for tag in page.select("label[for]")}
    for field in page.select("main :is(input, select, textarea):not([type=hidden])"):
        assert field.find_parent("label") or field["id"] in labelled, field["name"]
