"""Standing at the visit: few taps, and a clear sentence where something cannot be meant; what was typed stays."""

import pytest

from tests.pages.inspections.test_scenarios import BASE, a_photo, results, site  # noqa: F401
from tests.reading import field_errors, soup, words
from webapp.inspections import store


def post(client, site, visit: str = "IREL", files=None, **more):  # noqa: F811
    sent = {"day": "2026-05-07"} | more
    return client.post(f"{BASE}/visits/{site[visit]}/result", data=sent, files=files)


def kinds(database, site) -> dict[str, str]:  # noqa: F811
    codes = {row_id: code for code, row_id in site["walls"].items()}
    with database.reading() as session:
        found = store.list_results(session, site["build"])
    return {codes[one.surface_id]: one.kind for one in found if one.state == "current"}


def test_same_for_all_counts_where_nothing_else_is_ticked(client, site, database):  # noqa: F811
    assert post(client, site, kind_all="passed", **results(site, S="failed")).status_code == 303
    assert kinds(database, site) == dict.fromkeys("NEWC", "passed") | {"S": "failed"}


def test_a_surface_that_passed_before_is_folded_away_and_same_for_all_leaves_it_alone(client, site, database):  # noqa: F811
    post(client, site, kind_all="passed", **results(site, S="failed"))
    booked = {"day": "2026-05-16", "asked_on": "2026-05-12", "booking_right": "yes"}
    client.post(f"{BASE}/inspections/IREL/visits", data=booked)
    with database.reading() as session:
        again = store.list_visits(session, site["build"])[-1].id
    page = soup(client.get(f"{BASE}/visits/{again}"))
    assert [one.get_text(strip=True) for one in page.select("section > .surf:not(.all) legend")] == ["South wall"]
    assert "Passed before: North wall, East wall, West wall and Ceiling" in page.get_text(" ", strip=True)
    client.post(f"{BASE}/visits/{again}/result", data={"day": "2026-05-16", "kind_all": "passed"})
    with database.reading() as session:
        said = [one for one in store.list_results(session, site["build"]) if one.visit_id == again]
    assert [one.surface_id for one in said] == [site["walls"]["S"]]


def test_what_was_held_is_where_a_correction_belongs_unless_it_is_said(client, site, database):  # noqa: F811
    assert post(client, site, kind_all="passed", words_1="Plates", **results(site, S="failed")).status_code == 303
    with database.reading() as session:
        (one,) = store.list_corrections(session, site["build"])
    assert (one.surface_id, one.clears_by) == (site["walls"]["S"], "re-visit")
    asked = post(client, site, "IFRM", words_1="A strap", **results(site, S="failed", W="failed"))
    assert "On which surface is it?" in words(asked), "two were held, so it cannot be told"


def test_rows_are_added_without_a_script_and_a_picture_sent_so_far_is_kept(client, site):  # noqa: F811
    row = {"then": "row", "rows": "1", "words_1": "Plates, three studs"}
    page = post(client, site, files={"before_1": a_photo()}, **row)
    assert page.status_code == 200
    shown = soup(page)
    assert shown.select_one("#f-words_1").get_text().strip() == "Plates, three studs"
    assert shown.select_one("#f-words_2") is not None
    assert shown.select_one("[name=before_1_kept]")["value"].isdecimal(), "it need not be chosen again"
    four = post(client, site, then="row", rows="3", words_1="a", words_2="b", words_3="c")
    assert soup(four).select_one("#f-words_4") is not None


def test_a_correction_has_its_time_its_picture_and_belongs_to_the_surface_with_it(client, site, database):  # noqa: F811
    more = {"words_1": "Plates", "likely_1": "45 min", "clears_1": "picture sent", "form_1": "said, not written"}
    assert post(client, site, files={"before_1": a_photo()}, **more, **results(site, S="failed")).status_code == 303
    with database.reading() as session:
        (one,) = store.list_corrections(session, site["build"])
    assert (one.likely_min, one.form, one.clears_by, bool(one.before)) == (
        45,
        "said, not written",
        "picture sent",
        True,
    )
    assert (
        f"/photos/{one.before}/" in client.get(f"{BASE}/surfaces/S/pictures").text
        or one.before in client.get(f"{BASE}/pictures?surface=S").text
    )


def test_the_text_of_a_correction_cannot_be_empty(client, site):  # noqa: F811
    answer = post(client, site, rule_1="R602.6", clears_1="own word", **results(site, S="failed"))
    assert field_errors(answer) == {"words_1": "Write what was said, in the inspector’s words."}
    assert soup(answer).select_one("#f-rule_1")["value"] == "R602.6"


def test_a_surface_that_is_not_looked_at_is_said_and_nothing_is_lost(client, site, database):  # noqa: F811
    answer = post(client, site, "IRPL", note="Two came.", **results(site, W="passed", N="passed"))
    assert answer.status_code == 422
    assert "Plumbing does not look at North wall." in words(answer)
    assert soup(answer).select_one("#f-note").get_text().strip() == "Two came."
    assert kinds(database, site) == {}


@pytest.fixture
def passed_north(client, site):  # noqa: F811
    post(client, site, **results(site, N="passed"))
    return site


def test_a_second_result_for_the_same_visit_and_surface_is_asked_about(client, passed_north):
    answer = post(client, passed_north, **results(passed_north, N="failed"))
    assert answer.status_code == 422
    told = words(answer)
    assert (
        "North wall has a result of this visit already: passed. Was that mistyped, or was this a second visit?" in told
    )
    assert soup(answer).select_one(f"[name=kind_{passed_north['walls']['N']}][value=failed]").has_attr("checked")


def test_said_to_be_mistyped_it_takes_the_place_of_the_other(client, passed_north, database):
    north = passed_north["walls"]["N"]
    sent = results(passed_north, N="failed") | {f"twice_{north}": "replace"}
    assert post(client, passed_north, **sent, words_1="Plates").status_code == 303
    with database.reading() as session:
        found = store.list_results(session, passed_north["build"])
        (correction,) = store.list_corrections(session, passed_north["build"])
    assert [(one.kind, one.state, one.changed_by) for one in found] == [
        ("passed", "replaced", "my mistake"),
        ("failed", "current", ""),
    ]
    assert correction.result_id == found[1].id


def test_said_to_be_a_second_visit_it_gets_one_of_its_own(client, passed_north, database):
    north = passed_north["walls"]["N"]
    sent = results(passed_north, N="failed") | {f"twice_{north}": "second"}
    assert post(client, passed_north, **sent, words_1="Plates").status_code == 303
    with database.reading() as session:
        found = store.list_results(session, passed_north["build"])
        visits = {one.id: one for one in store.list_visits(session, passed_north["build"])}
    assert [one.state for one in found] == ["current", "current"]
    assert found[0].visit_id != found[1].visit_id
    assert visits[found[1].visit_id].outcome == "came"


def test_a_day_far_from_what_was_booked_is_asked_about_and_one_tick_confirms_it(client, site):  # noqa: F811
    answer = post(client, site, day="2025-10-07", **results(site, N="passed"))
    assert answer.status_code == 422
    assert "is far from the day it was booked for (7 May 2026)" in field_errors(answer)["day"]
    assert soup(answer).select_one("[name=day_right]") is not None
    confirmed = post(client, site, day="2025-10-07", day_right="yes", **results(site, N="passed"))
    assert confirmed.status_code == 303


def test_a_visit_before_its_permit_is_asked_about(client, site):  # noqa: F811
    answer = post(client, site, day="2025-08-01", **results(site, N="passed"))
    assert "is before the permit was issued" in field_errors(answer)["day"]


def test_a_fee_has_two_decimals_at_most(client, site):  # noqa: F811
    answer = post(client, site, fee="60.005", **results(site, N="failed"))
    assert "An amount has two decimals at most." in field_errors(answer)["fee"]
    assert soup(answer).select_one("#f-fee")["value"] == "60.005"


def test_a_card_that_comes_later_counts_for_all_that_was_said_at_the_visit(client, passed_north):
    page = client.get(f"{BASE}/inspections/IREL")
    assert "Passed. 7 May 2026, my note." in words(page)
    assert post(client, passed_north, files={"paper": a_photo()}, evidence="card signed").status_code == 303
    assert "Passed. 7 May 2026, the inspector, card signed." in words(client.get(f"{BASE}/inspections/IREL"))
    assert "my note, now card signed" in words(client.get(f"{BASE}/visits/{passed_north['IREL']}"))


@pytest.mark.parametrize("clears", ["own word", "re-visit"])
def test_a_correction_is_neither_cleared_before_it_is_done_nor_done_before_it_was_said(client, site, database, clears):  # noqa: F811
    post(client, site, words_1="Plates", clears_1=clears, **results(site, S="failed"))
    with database.reading() as session:
        path = f"{BASE}/corrections/{store.list_corrections(session, site['build'])[0].id}"
    early = client.post(f"{path}/done", data={"on": "2026-05-06"})
    assert "It was said on 7 May 2026." in field_errors(early)["on"]
    who = {"who": "the inspector", "said": "by message"}
    if clears == "own word":
        asked = client.post(f"{path}/clear", data={"on": "2026-05-09"})
        assert "It is not done yet." in field_errors(asked)["is_done"]
        who = {}
    client.post(f"{path}/done", data={"on": "2026-05-12"})
    before = client.post(f"{path}/clear", data={"on": "2026-05-09", **who})
    assert "It was done on 12 May 2026. It cannot be cleared before." in field_errors(before)["on"]
    assert client.post(f"{path}/clear", data={"on": "2026-05-12", **who}).status_code == 303


def test_at_the_re_visit_only_what_was_to_be_seen_is_listed_and_each_is_cleared_by_one_tap(client, site, database):  # noqa: F811
    said = {"words_1": "Plates", "words_2": "Ground the box", "words_3": "Label", "clears_3": "own word"}
    post(client, site, kind_all="passed", **said, **results(site, S="failed"))
    booked = {"day": "2026-05-16", "asked_on": "2026-05-12", "booking_right": "yes"}
    client.post(f"{BASE}/inspections/IREL/visits", data=booked)
    shown = words(client.get(f"{BASE}/inspections/IREL/again"))
    assert "South wall: 2 corrections to show." in shown
    assert "Plates" in shown and "Ground the box" in shown
    assert "Label" not in shown and "North wall" not in shown
    with database.reading() as session:
        again = store.list_visits(session, site["build"])[-1].id
        first, second, _ = store.list_corrections(session, site["build"])
    path = f"{BASE}/visits/{again}/result"
    sent = {
        "day": "2026-05-16",
        **results(site, S="passed"),
        f"seen_{first.id}": "seen",
        f"seen_{second.id}": "not yet",
    }
    assert "South wall is set to passed, yet this is still to be seen." in words(client.post(path, data=sent))
    sent |= results(site, S="seen at the next visit")
    assert client.post(path, data=sent).status_code == 303
    left = words(client.get(f"{BASE}/inspections/IREL/again"))
    assert "Ground the box" in left and "Plates" not in left
