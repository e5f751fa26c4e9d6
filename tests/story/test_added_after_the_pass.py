"""A surface written down after the whole building passed: nobody said it was seen, so it is asked about."""

from datetime import UTC, datetime

import pytest

from tests import builders
from tests.reading import words
from tests.story.bindery import BASE, answer_of, owed, saved

LATER = datetime(2026, 5, 16, 9, 0, tzinfo=UTC)


@pytest.fixture
def shell(database, build):
    """The shell passed on the whole building while only the north wall was on record."""
    with database.writing() as session:
        builders.a_surface(session, build, "N", "North wall")
        kind = builders.an_inspection(session, builders.a_permit(session, build), "Shell", code="SHELL")
        builders.a_result(session, builders.a_visit(session, kind), None, recorded_at=datetime(2026, 5, 7, tzinfo=UTC))


def add_east(client) -> None:
    sent = {"name": "East wall", "code": "E", "kind": "wall", "facing": "E"}
    saved(client.post(f"{BASE}/surfaces", data=sent))


def test_the_pass_counts_for_what_was_there_and_is_asked_about_for_what_came_later(client, shell):
    add_east(client)
    assert answer_of(client, "N") == "May be covered"
    assert owed(client, "E") == ["Shell, E"]
    assert "before this surface was written down. Did the inspector see it too?" in words(
        client.get(f"{BASE}/surfaces/E/before-cover")
    )


def test_the_inspectors_word_settles_it_and_stays(client, shell):
    add_east(client)
    sent = {"by": "authority", "what": "inspection:1@2", "who": "the inspector, by telephone", "why": "He saw it too"}
    saved(client.post(f"{BASE}/surfaces/E/let-go", data=sent | {"on": "2026-05-16"}))
    assert answer_of(client, "E") == "May be covered"


def test_a_later_pass_of_the_whole_building_counts(client, shell):
    add_east(client)
    saved(client.post(f"{BASE}/inspections/SHELL/visits", data={"day": "2026-05-18", "asked_on": "2026-05-15"}))
    saved(client.post(f"{BASE}/visits/2/result", data={"day": "2026-05-16", "kind_whole": "passed"}))
    assert owed(client, "E") == []
