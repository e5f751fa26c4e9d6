"""The list to begin with, through the page: ticked as likely, all of it editable, nothing taken for granted."""

from tests import builders
from tests.reading import field_errors, links, soup, words
from webapp.inspections.store import list_inspections

BASE = "/builds/bindery"


def shown(client) -> dict[str, str]:
    """What the form would send as it stands: ticks, names, permits."""
    page = soup(client.get(f"{BASE}/inspections/start"))
    sent = {tag["name"]: tag["value"] for tag in page.select("#f input[type=checkbox][checked], #f input:not([type])")}
    sent |= {tag["name"]: tag["value"] for tag in page.select('#f input[type="text"], #f input[type="hidden"]')}
    chosen = {tag["name"]: tag.select_one("[selected]") for tag in page.select("#f select")}
    return sent | {name: option["value"] for name, option in chosen.items() if option}


def test_an_empty_list_leads_to_it(client, database, build):
    with database.writing() as session:
        builders.a_permit(session, build)
    found = links(client.get(f"{BASE}/inspections"))
    assert found["Begin with a list the usual order, yours to tick and rename"] == f"{BASE}/inspections/start"
    page = words(client.get(f"{BASE}/inspections/start"))
    assert "IRC R109.1.2" in page and "Local rule" in page
    assert "Your local authority decides." in page
    assert "right order" not in page


def test_a_single_permit_is_not_chosen_silently(client, database, build):
    with database.writing() as session:
        permit = builders.a_permit(session, build, "P1", name="Permit").row_id
    assert not [value for name, value in shown(client).items() if name.startswith("permit_") and value]
    page = soup(client.get(f"{BASE}/inspections/new"))
    assert page.select_one("#f-permit [selected]")["value"] == ""
    refused = client.post(f"{BASE}/inspections/start", data={"take_final": "yes", "name_final": "Final"})
    assert refused.status_code == 422
    assert field_errors(refused) == {"permit_final": "Under which permit is it?"}
    assert soup(refused).select_one("#f-name_final")["value"] == "Final"
    assert permit


def test_what_is_ticked_is_put_on_the_list_in_its_order_with_its_source(client, database, build):
    with database.writing() as session:
        ele = builders.a_permit(session, build, "ELE", name="Electrical permit").row_id
        bld = builders.a_permit(session, build, "BLD", name="Building permit").row_id
        wall = builders.a_surface(session, build).row_id
    sent = {
        "take_framing": "yes",
        "name_framing": "Frame",
        "permit_framing": bld,
        "on_framing": wall,
        "take_electrical": "yes",
        "name_electrical": "First fix, electric",
        "permit_electrical": ele,
        "take_board": "yes",
        "name_board": "Board",
        "permit_board": bld,
        "on_board": wall,
    }
    assert client.post(f"{BASE}/inspections/start", data=sent).status_code == 303
    with database.reading() as session:
        made = list_inspections(session, build.row_id)
    assert [one.name for one in made] == ["First fix, electric", "Frame", "Board"]
    assert [one.source for one in made] == [
        "IRC R109.1.2, the model code’s usual order",
        "IRC R109.1.4, the model code’s usual order",
        "local rule",
    ]
    assert [one.holds_cover for one in made] == [True, True, False]
    assert made[1].surface_ids == (wall,)


def test_nothing_ticked_and_two_of_one_name_are_told(client, database, build):
    with database.writing() as session:
        permit = str(builders.a_permit(session, build).row_id)
    assert "Nothing is ticked" in words(client.post(f"{BASE}/inspections/start", data={}))
    twice = {"take_final": "yes", "name_final": "Rough", "take_board": "yes", "name_board": "Rough"}
    answer = client.post(f"{BASE}/inspections/start", data=twice | {"permit_final": permit, "permit_board": permit})
    assert "There are two called “Rough”" in field_errors(answer)["name_final"]


def test_what_is_likely_is_ticked(client, database, build):
    with database.writing() as session:
        builders.a_permit(session, build, "ELE", name="Electrical permit")
        builders.a_surface(session, build)
    ticked = {name for name in shown(client) if name.startswith("take_")}
    assert {"take_electrical", "take_framing", "take_final"} <= ticked
    assert not ticked & {"take_flood", "take_trench", "take_fire_rated", "take_plumbing"}
