"""The key plan on the sheet of surfaces: numbers lead to their surfaces, openings and measures come from the record."""

from datetime import date

import pytest

from tests import builders
from tests.reading import links, soup
from webapp.values.length import NM_PER_FOOT as FOOT

W1 = "/builds/bindery/surfaces"


@pytest.fixture
def room(database, build):
    with database.writing() as session:
        walls = {
            side: builders.a_surface(
                session,
                build,
                side,
                f"{name} wall",
                position=at,
                facing=side,
                length_nm=feet * FOOT,
                origin_corner=corner,
            )
            for at, (side, name, feet, corner) in enumerate(
                [("E", "East", 14, "NE"), ("S", "South", 22, "SE"), ("W", "West", 14, "SW"), ("N", "North", 22, "NW")]
            )
        }
        builders.an_opening(session, walls["N"], x_nm=8 * FOOT, width_nm=4 * FOOT)
        builders.an_opening(session, walls["E"], "Old door", kind="door", removed_on=date(2026, 1, 2))


def test_each_number_leads_to_its_surface(client, room):
    page = client.get(W1)
    for number, side in enumerate("ESWN", 1):
        named = {label: href for label, href in links(page).items() if label.strip() == str(number)}
        assert list(named.values()) == [f"{W1}/{side}"]
    labels = [link["aria-label"] for link in soup(page).select("svg a")]
    assert labels[0] == "1, East wall"


def test_openings_that_are_there_are_drawn_with_the_inside_measures(client, room):
    plan = soup(client.get(W1)).select_one(".plan svg")
    words = [text.get_text() for text in plan.select("text")]
    assert {"22′ 0″", "14′ 0″", "4 ft"} <= set(words)
    assert "window" in soup(client.get(W1)).select_one(".plan .legend").get_text()
    panes = [path for path in plan.select("path.l1") if path["d"].count("h") == 2 and path["d"].count("M") == 2]
    assert panes, "the window has its panes"


def test_a_plan_without_sizes_says_that_it_is_not_to_scale(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "E", "East wall", facing="E", length_nm=None)
    assert "Not to scale." in soup(client.get(W1)).select_one(".plan figcaption").get_text()
