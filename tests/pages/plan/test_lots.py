"""Builds on one lot: each keeps its own permits and clocks and shows the others' beside its own."""

from datetime import date

from tests import builders
from tests.reading import field_errors, soup, words

BASE = "/builds/bindery"


def test_a_second_build_on_the_lot_shows_its_permits_and_last_days_beside(client, database, build):
    with database.writing() as session:
        builders.a_permit(session, build, "BLD", name="Building permit", issued_on=date(2026, 1, 12))
    assert client.post(f"{BASE}/lot", data={"new_lot": "Behind the house"}).status_code == 303
    page = client.get("/builds")
    option = soup(page).select_one("select[name=lot] option:last-child")
    assert option.get_text() == "Behind the house (Bindery)"
    shed = {"name": "Shed", "length_unit": "ft-in", "currency": "USD", "lot": option["value"]}
    assert client.post("/builds", data=shed).status_code == 303
    there = words(client.get("/builds/shed/permits"))
    assert "Also on this lot Behind the house Bindery: Building permit Lapses after Saturday 11 July 2026." in there
    assert "Shed No permit is written down." in words(client.get(f"{BASE}/permits"))


def test_a_lot_is_made_in_the_build_s_form_and_one_name_is_one_lot(client):
    shed = {"length_unit": "ft-in", "currency": "USD", "new_lot": "Behind the house"}
    client.post("/builds", data=shed | {"name": "Shed"})
    client.post("/builds", data=shed | {"name": "Fence", "new_lot": "behind the House"})
    assert "Fence No permit is written down." in words(client.get("/builds/shed/permits"))
    client.post("/builds/fence/lot", data={"lot": "", "new_lot": ""})
    assert "Also on this lot" not in words(client.get("/builds/fence/permits"))


def test_a_lot_that_is_not_there_and_a_name_too_long_are_told(client):
    client.post(f"{BASE}/lot", data={"new_lot": "Behind the house"})
    assert set(field_errors(client.post(f"{BASE}/lot", data={"lot": "99"}))) == {"lot"}
    assert set(field_errors(client.post(f"{BASE}/lot", data={"new_lot": "x" * 81}))) == {"new_lot"}
