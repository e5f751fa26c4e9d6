"""The house file: each surface, what its closing rests on, and every gap with its reason, on one sheet."""

import json
from datetime import date

import pytest

from tests import builders
from tests.counting import queries
from tests.reading import headings, links, words
from webapp.surfaces.models import Cover, Lifted

HOUSE = "/builds/bindery/house-file"


@pytest.fixture
def north(database, build):
    """Closed, one wish skipped, one picture never taken."""
    with database.writing() as session:
        surface = builders.a_surface(session, build, "N", "North wall")
        builders.an_item(session, surface)
        builders.a_run(session, surface)
        slot = builders.a_slot(session, surface, 1, what="Vent pipe", strength="wish")
        builders.a_slot(session, surface, 2, what="Whole wall, tape in it")
        evidence = [["Rough electrical passed", "the inspector, card signed", "2 April 2026"]]
        session.add(
            Cover(
                surface_id=surface.row_id,
                covered_on=date(2026, 4, 30),
                layers="board",
                evidence=json.dumps(evidence),
                at=builders.AT,
            )
        )
        session.add(
            Lifted(
                surface_id=surface.row_id,
                node_key=f"slot:{slot.row_id}",
                what="Picture 1: vent pipe",
                why="Camera flat",
                on_day=date(2026, 4, 29),
                at=builders.AT,
            )
        )


def test_an_empty_house_file_leads_onward(client):
    assert "The file grows by itself" in words(client.get(HOUSE))
    assert links(client.get(HOUSE))["Add the first surface A wall, ceiling, slab or trench"].endswith("/surfaces/new")


def test_a_skipped_wish_and_its_reason_stand_in_the_house_file_for_ever(client, north):
    page = client.get(HOUSE)
    told = words(page)
    assert "Picture 1: vent pipe “Camera flat” Me, " in told
    assert "Rough electrical passed the inspector, card signed 2 April 2026" in told
    assert "On record: 1 thing, 1 stretch of cable, pipe or duct, 0 pictures." in told
    assert "Wall closed 30 April 2026 by me, board" in headings(page)


def test_what_is_missing_behind_a_closed_surface_is_said(client, north):
    page = client.get(HOUSE)
    assert "Missing, though it is closed" in headings(page)
    assert "Picture 2: whole wall, tape in it" in words(page)


def test_permits_stand_without_their_numbers(client, database, build, north):
    with database.writing() as session:
        permit = builders.a_permit(session, build, number="E-4711", issued_on=date(2026, 1, 5))
        builders.an_inspection(session, permit, "Rough electrical")
    told = words(client.get(HOUSE))
    assert "issued 5 January 2026" in told and "Rough electrical" in told and "not looked at yet" in told
    assert "4711" not in told


def test_circuits_and_lines_are_listed(client, database, build):
    with database.writing() as session:
        builders.a_surface(session, build, "N", "North wall")
        builders.a_line(session, build)
    assert "C01 Bench receptacles 20 A, 12-2" in words(client.get(HOUSE))


def test_a_stranger_does_not_read_it(stranger, north):
    assert stranger.get(HOUSE, follow_redirects=False).status_code == 303


def test_a_house_of_many_surfaces_asks_no_more_queries_than_one_of_few(client, database, build, north):
    with queries(database, anew=True) as asked:
        client.get(HOUSE)
    with database.writing() as session:
        for number in range(6):
            builders.a_surface(session, build, f"A{number}", f"Wall {number}", position=number + 2)
    with queries(database, anew=True) as more:
        client.get(HOUSE)
    assert len(more) <= len(asked)
