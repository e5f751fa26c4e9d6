"""W1: the marks and words of the list are those of the sheets at the gate."""

from datetime import date

from tests import builders
from tests.pages.readiness.conftest import E
from tests.reading import links, soup, words
from webapp.surfaces import actions

W1 = "/builds/bindery/surfaces"


def mark(scope) -> list[str]:
    return [use["href"].rpartition("#")[2] for use in scope.select("svg.sec use")]


def insulate(database, wall, build):
    with database.writing() as session:
        phase = builders.a_phase(session, build, "Insulation", position=1)
        task = builders.a_task(
            session, phase, "Batts, east", kind="insulation", state="done", done_on=date(2026, 5, 14)
        )
        builders.works_on(session, task, wall.surface)


def test_an_insulated_passed_wall_is_drawn_and_told_alike_on_every_sheet(client, database, build, wall):
    insulate(database, wall, build)
    line = soup(client.get(W1)).select_one(".rows > li")
    assert mark(line) == ["A", "C", "D"]
    assert "1 East wall Insulated. 4 hard stops. M me" in " ".join(line.get_text(" ").split())
    for address in ("/builds/bindery/before-cover", f"{E}/before-cover", f"{E}/standing"):
        assert mark(soup(client.get(address)).main)[:3] == ["A", "C", "D"], address


def test_the_open_one_nearest_to_closing_stands_first_and_closed_ones_apart(client, database, build, settled):
    with database.writing() as session:
        north = builders.a_surface(session, build, "N", "North wall", position=0)
        builders.looked_at(session, build, north)
        builders.a_slot(session, north)
        slab = builders.a_surface(session, build, "SL", "Slab", kind="slab", position=5)
        actions.mark_covered(session, slab.row_id, date(2026, 2, 22), "me", "the pour", [("seen", "me", "today")])
    page = client.get(W1)
    names = [item.b.get_text() for item in soup(page).select(".rows > li")]
    assert names == ["2 East wall", "1 North wall", "3 Slab"]
    said = words(page)
    assert "1 closed for good, 2 open" in said
    assert "2 East wall May be covered. nothing 1 North wall" in said
    assert "3 Slab Closed Sun 22 Feb, not seen before. 1 hard stop." in said


def test_one_surface_shows_its_standing_as_a_panel_and_as_a_link_without_script(client, wall):
    link = soup(client.get(E)).select_one("a[hx-get]")
    assert link["href"] == link["hx-get"] == f"{E}/standing"
    whole, panel = client.get(f"{E}/standing"), client.get(f"{E}/standing", headers={"hx-request": "true"})
    assert links(whole)["Drawing and pictures of it"] == E
    assert "<html" not in panel.text
    assert links(panel, "ul")["Do not cover Seen by the inspector. 4 hard stops."] == f"{E}/before-cover"


def test_the_standing_of_a_surface_that_is_not_there_is_not_found(client):
    assert client.get(f"{W1}/Q/standing").status_code == 404
