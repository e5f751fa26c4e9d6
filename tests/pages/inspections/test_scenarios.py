"""Days on site as a builder lives them, through the real pages: part passed, an extra item, a fee, a wrong date, no
entry, a scrawled notice. What they stop further down is asked of the graph elsewhere.
"""

import io
from datetime import date

import pytest
from PIL import Image

from tests import builders
from tests.reading import field_errors, links, soup, words
from webapp.inspections import store
from webapp.inspections.rules.results import standings
from webapp.money import store as money

BASE = "/builds/bindery"


def a_photo(colour: str = "white") -> tuple[str, bytes, str]:
    """A small picture as a phone would send it."""
    made = io.BytesIO()
    Image.new("RGB", (64, 48), colour).save(made, "JPEG")
    return ("card.jpg", made.getvalue(), "image/jpeg")


@pytest.fixture
def site(database, build):
    """Three permits; rough electrical and framing on N, E, S, W and the ceiling, plumbing on W; a visit of each."""
    with database.writing() as session:
        permits = {code: builders.a_permit(session, build, code) for code in ("ELE", "BLD", "PLB")}
        names = {"N": "North wall", "E": "East wall", "S": "South wall", "W": "West wall", "C": "Ceiling"}
        walls = {
            code: builders.a_surface(session, build, code, name, position=number)
            for number, (code, name) in enumerate(names.items(), 1)
        }
        made = {"walls": {code: wall.row_id for code, wall in walls.items()}, "build": build.row_id}
        for position, (code, name, permit, of) in enumerate(
            (
                ("IREL", "Rough electrical", "ELE", "NESWC"),
                ("IFRM", "Framing", "BLD", "NESWC"),
                ("IRPL", "Plumbing", "PLB", "W"),
            ),
            1,
        ):
            surfaces = tuple(walls[each] for each in of)
            inspection = builders.an_inspection(session, permits[permit], name, surfaces, code=code, position=position)
            made[code] = builders.a_visit(session, inspection, date(2026, 5, 7), outcome="asked").row_id
            made[f"{code} id"] = inspection.row_id
    return made


def results(site, **kinds: str) -> dict[str, str]:
    """Form fields for what was said of each surface."""
    return {f"kind_{site['walls'][code]}": kind for code, kind in kinds.items()}


def test_part_passed_all_but_s_with_two_corrections(client, site, database):
    south = site["walls"]["S"]
    sent = {
        "day": "2026-05-07",
        **results(site, N="passed", E="passed", W="passed", C="passed", S="failed"),
        "words_1": "Plates on three studs, left of the door.",
        "on_1": south,
        "words_2": "Two-gang box not grounded.",
        "on_2": south,
    }
    answer = client.post(f"{BASE}/visits/{site['IREL']}/result", data=sent)
    assert answer.status_code == 303
    page = client.get(answer.headers["location"])
    assert "Part passed: all but S" in words(page)
    assert "Failed. 7 May 2026, my note. 2 corrections open." in words(page)
    with database.reading() as session:
        inspection = store.get_inspection(session, site["build"], "IREL")
        record = store.list_results(session, site["build"]), store.list_corrections(session, site["build"])
        found = standings(inspection, *record)
    assert [found[place].passed for place in inspection.surface_ids] == [True, True, False, True, True]
    assert len(found[south].owed) == 2


def test_an_extra_item_is_added_standing_there_and_is_on_the_list_before_the_next_visit(client, site):
    sent = {
        "day": "2026-05-07",
        **results(site, N="passed"),
        "asked": "A strap over the ridge tie",
        "asked_stops": "yes",
    }
    assert client.post(f"{BASE}/visits/{site['IFRM']}/result", data=sent).status_code == 303
    ready = words(client.get(f"{BASE}/inspections/IFRM"), "#ready")
    assert "A strap over the ridge tie Asked by inspector, 7 May 2026. Stops the next visit." in ready
    assert "strap" not in words(client.get(f"{BASE}/inspections/IREL"), "#ready"), "only framing asks for it"


def test_a_fee_stops_asking_until_it_is_paid_and_is_then_in_the_spend_with_its_receipt(client, site, database):
    sent = {
        "day": "2026-05-07",
        **results(site, W="failed"),
        "fee": "100",
        "fee_why": "failed a second time",
        "fee_stops": "yes",
    }
    client.post(f"{BASE}/visits/{site['IRPL']}/result", data=sent)
    booking = {"day": "2026-05-20", "asked_on": "2026-05-16"}
    refused = client.post(f"{BASE}/inspections/IRPL/visits", data=booking)
    assert refused.status_code == 409
    assert "A fee of 100.00 is unpaid" in words(refused)
    (href,) = [href for href in links(refused).values() if "/fees/" in href]
    receipt = {"receipt": a_photo()}
    paid = client.post(f"{href}/pay", data={"paid_on": "2026-05-16", "paid_to": "building office"}, files=receipt)
    assert paid.status_code == 303
    with database.reading() as session:
        (line,) = money.list_spend(session, site["build"], kind="fees")
    assert (line.total_cents, line.what, bool(line.receipt)) == (10_000, "Fee: failed a second time", True)
    assert client.post(f"{BASE}/inspections/IRPL/visits", data=booking).status_code == 303
    assert "W failed" in words(client.get(f"{BASE}/inspections/IRPL"))


def test_a_day_a_year_off_is_questioned_with_the_likely_one(client, site):
    sent = {"day": "2025-05-09", **results(site, W="passed")}
    asked = client.post(f"{BASE}/visits/{site['IRPL']}/result", data=sent)
    assert asked.status_code == 422
    assert "before the permit was issued (29 August 2025)" in field_errors(asked)["day"]
    likely = [button["value"] for button in soup(asked).select(".likely button")]
    assert likely == ["2026-05-09"]
    checked = soup(asked).select_one(f"[name=kind_{site['walls']['W']}][checked]")
    assert checked["value"] == "passed", "what was chosen stays"
    insisted = client.post(f"{BASE}/visits/{site['IRPL']}/result", data=sent | {"day_right": "yes"})
    assert insisted.status_code == 303


def test_a_day_that_does_not_exist_is_never_taken_even_when_insisted_on(client, site):
    sent = {"day": "2026-04-31", "day_right": "yes", **results(site, W="passed")}
    answer = client.post(f"{BASE}/visits/{site['IRPL']}/result", data=sent)
    assert answer.status_code == 422
    assert "April has 30 days" in field_errors(answer)["day"]


def test_a_wrong_day_is_put_right_and_the_permit_follows_while_the_old_day_stays(client, site):
    sent = {"day": "2025-05-09", "day_right": "yes", **results(site, W="passed")}
    client.post(f"{BASE}/visits/{site['IRPL']}/result", data=sent)
    assert "25 February 2026" in words(client.get(f"{BASE}/permits/PLB")), "180 days from the day of issue"
    right = client.post(f"{BASE}/visits/{site['IRPL']}/day", data={"day": "2026-05-09", "why": "typed the year wrong"})
    assert right.status_code == 303
    page = client.get(f"{BASE}/visits/{site['IRPL']}")
    assert "Day: Friday 9 May 2025, now Saturday 9 May 2026" in words(page)
    assert "typed the year wrong" in words(page)
    assert "Thursday 5 November 2026" in words(client.get(f"{BASE}/permits/PLB"))


def test_no_ladder_is_neither_passed_nor_failed_and_joins_the_list(client, site, database):
    sent = {
        "day": "2026-05-07",
        "outcome": "not ready",
        "reason": "no ladder on site",
        "missing": "ladder",
        "fee": "60",
        "fee_why": "not ready",
        "evidence": "slip",
    }
    answer = client.post(f"{BASE}/visits/{site['IFRM']}/not-ready", data=sent, files={"paper": a_photo()})
    assert answer.status_code == 303
    page = client.get(answer.headers["location"])
    assert "Result so far Not looked at" in words(page)
    assert "ladder Asked by inspector" in words(page, "#ready")
    assert "Corrections open" not in words(page)
    with database.reading() as session:
        inspection = store.get_inspection(session, site["build"], "IFRM")
        found = standings(inspection, store.list_results(session, site["build"]), ())
        (fee,) = store.list_fees(session, site["build"])
    assert not any(standing.passed for standing in found.values())
    client.post(f"{BASE}/fees/{fee.id}/pay", data={"paid_on": "2026-05-16"})
    assert "Fee: not ready" in words(client.get(f"{BASE}/spend"))


def scrawl(site) -> dict[str, str]:
    south = site["walls"]["S"]
    return {
        "day": "2026-05-07",
        **results(site, S="failed"),
        "evidence": "notice",
        "words_1": "Plates, three studs",
        "on_1": south,
        "clears_1": "re-visit",
        "words_2": "Staple on edge, turn",
        "on_2": south,
        "clears_2": "picture sent",
        "words_3": "Label the feed",
        "on_3": south,
        "clears_3": "own word",
        "then": "more",
    }


def test_three_scrawled_items_and_one_said_go_their_own_ways(client, site, database):
    path = f"{BASE}/visits/{site['IREL']}"
    first = client.post(f"{path}/result", data=scrawl(site), files={"paper": a_photo()})
    assert first.headers["location"] == f"{path}#said"
    said = {
        "day": "2026-05-07",
        "words_1": "Tidy that corner",
        "form_1": "said, not written",
        "on_1": site["walls"]["S"],
    }
    client.post(f"{path}/result", data=said | {"clears_1": "own word"})
    with database.reading() as session:
        four = store.list_corrections(session, site["build"])
    assert [each.form for each in four] == ["written", "written", "written", "said, not written"]
    plates, staple, label, tidy = (f"{BASE}/corrections/{each.id}" for each in four)
    day = {"on": "2026-05-16"}
    assert client.post(f"{label}/clear", data=day | {"is_done": "yes"}).status_code == 303
    assert client.post(f"{staple}/sent", data=day, files={"picture": a_photo("grey")}).status_code == 303
    assert client.post(f"{plates}/clear", data=day | {"who": "me"}).status_code == 409, "not mine to clear"
    assert "Said, not written" in words(client.get(tidy))
    again = builders_visit(database, site)
    seen = {"day": "2026-05-14", **results(site, S="passed")}
    assert client.post(f"{BASE}/visits/{again}/result", data=seen).status_code == 303
    assert "Cleared by the inspector, visit of 14 May 2026" in words(client.get(plates))
    open_now = words(client.get(f"{BASE}/inspections/IREL"))
    assert "Corrections open 2" in open_now, "the picture has no answer yet, and my own word is not given"


def builders_visit(database, site) -> int:
    """Another visit of rough electrical."""
    with database.writing() as session:
        inspection = session.get_one(builders.Inspection, site["IREL id"])
        return builders.a_visit(session, inspection, date(2026, 5, 14), outcome="asked").row_id


def test_a_withdrawn_result_and_a_mistyped_one_lock_again_with_who_and_why(client, site, database):
    client.post(
        f"{BASE}/visits/{site['IREL']}/result", data={"day": "2026-05-07", **results(site, N="passed", E="passed")}
    )
    with database.reading() as session:
        north, east = (f"{BASE}/results/{each.id}" for each in store.list_results(session, site["build"]))
    empty = client.post(f"{north}/withdraw", data={"on": "2026-05-16"})
    assert set(field_errors(empty)) == {"who", "withdrawn_why"}
    why = {"on": "2026-05-16", "who": "the office", "withdrawn_why": "stand-in was not cleared"}
    client.post(f"{north}/withdraw", data=why, files={"letter": a_photo()})
    assert "Taken back on 16 May 2026 by the office: stand-in was not cleared" in words(client.get(north))
    moved = {"place": site["walls"]["W"], "kind": "passed", "why": "typed E in the car"}
    right = client.post(f"{east}/correct", data=moved)
    assert right.status_code == 303
    assert "My mistake, put right on 16 May 2026: typed E in the car" in words(client.get(east))
    assert "Part passed: W" in words(client.get(f"{BASE}/inspections/IREL"))
