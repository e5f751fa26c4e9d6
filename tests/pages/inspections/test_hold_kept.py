"""A result that did not pass keeps its surfaces open, whatever is ticked on the inspection afterwards."""

import pytest

from tests import builders
from tests.reading import words


@pytest.fixture
def framing(database, build):
    """Framing of the north wall, said to hold its closing; another inspection passed there. Gives the form as shown."""
    with database.writing() as session:
        north = builders.a_surface(session, build, "N", "North wall")
        builders.looked_at(session, build, north)
        permit = builders.a_permit(session, build, "BLD")
        kind = builders.an_inspection(session, permit, "Framing", (north,), position=2)
        visit = builders.a_visit(session, kind)
        form = {"name": "Framing", "permit": str(permit.row_id), "code": "FRAMING", "surfaces": str(north.row_id)}
        session.flush()
        session.refresh(visit)
        session.expunge(visit)
    return visit, form


def unticked(client, form):
    path = "/builds/bindery/inspections/FRAMING/edit"
    return client.post(path, data=form | {"notice_days": "1", "ask_by": "15:30"}, follow_redirects=False)


@pytest.mark.parametrize("kind", ["failed", "part passed", "seen at the next visit"])
def test_unticking_the_hold_does_not_free_what_did_not_pass(client, database, framing, kind):
    visit, form = framing
    with database.writing() as session:
        builders.a_result(session, visit, None, kind, surface_id=int(form["surfaces"]))
    answer = unticked(client, form)
    assert answer.status_code == 409
    assert f"Framing: {kind}. Its surfaces stay open until it passes." in answer.text
    assert "Do not cover" in client.get("/builds/bindery/surfaces/N/before-cover").text


def test_before_anything_was_said_the_hold_is_mine_to_set(client, framing):
    assert unticked(client, framing[1]).status_code == 303


def test_taking_off_the_hold_is_told_on_the_sheet_of_the_inspection(client, framing):
    sent = framing[1] | {"why": "The office says it is not theirs."}
    assert "What it said before" not in client.get("/builds/bindery/inspections/FRAMING").text
    assert unticked(client, sent).status_code == 303
    shown = words(client.get("/builds/bindery/inspections/FRAMING"))
    assert "Its surfaces stay open until it passed: yes, now no" in shown
    assert "The office says it is not theirs." in shown
    assert 'name="why"' in client.get("/builds/bindery/inspections/FRAMING/edit").text
    assert 'name="why"' not in client.get("/builds/bindery/inspections/new").text
