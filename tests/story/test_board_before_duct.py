"""Scenario "Re-ordered": the duct stands before the ceiling board, and the ceiling board is put first."""

import pytest

from tests import builders
from tests.reading import links, soup, words
from tests.story.bindery import BASE, saved
from webapp.inspections.models import Inspection
from webapp.plan.models import Need

HIDDEN = "Duct and line set, rough would be hidden on the ceiling"
WHY = "The helper can only come on Saturday"


@pytest.fixture
def ceiling(database, build):
    """A duct, then the board that closes the ceiling; the inspection needs the duct."""
    with database.writing() as session:
        permit = builders.a_permit(session, build, "BLD")
        above = builders.a_surface(session, build, "C", "Ceiling", kind="ceiling", facing="")
        kind = builders.an_inspection(session, permit, "Duct and line set, rough", (above,), code="IMEC")
        phase = builders.a_phase(session, build, "Ceiling")
        duct = builders.a_task(session, phase, "Hang the duct", 1, kind="ducting")
        board = builders.a_task(session, phase, "Hang the ceiling board", 2)
        builders.works_on(session, duct, above)
        builders.works_on(session, board, above, closes=True)
        need = {"what_kind": "inspection", "what_id": kind.row_id, "needs_kind": "task", "needs_id": duct.row_id}
        builders.kept(session, Need(build_id=build.row_id, **need))
        return {
            "board": board.row_id,
            "duct": duct.row_id,
            "phase": phase.row_id,
            "kind": kind.row_id,
            "surface": above.row_id,
        }


def order(client, ceiling) -> list[str]:
    page = soup(client.get(f"{BASE}/phases/{ceiling['phase']}"))
    return [tag.get_text() for tag in page.select("#tasks .rows b")]


def test_i_am_told_what_would_be_hidden_and_nothing_is_moved(client, ceiling):
    answer = client.post(f"{BASE}/tasks/{ceiling['board']}/move", data={"to": "1"})
    assert answer.status_code == 409
    told = words(answer)
    assert HIDDEN in told
    assert "“Hang the ceiling board” stands before “Hang the duct”, which that visit needs." in told
    assert links(answer)["Put it back"] == f"{BASE}/phases/{ceiling['phase']}?order=1"
    assert order(client, ceiling) == ["Hang the duct", "Hang the ceiling board"]


def test_it_can_be_kept_with_a_reason_and_stays_in_view_everywhere(client, ceiling):
    path = f"{BASE}/tasks/{ceiling['board']}/move"
    bare = client.post(path, data={"to": "earlier", "keep": "yes", "why": " "})
    assert bare.status_code == 422
    assert "Write why you keep it" in words(bare)
    saved(client.post(path, data={"to": "earlier", "keep": "yes", "why": WHY}))
    assert order(client, ceiling) == ["Hang the ceiling board", "Hang the duct"]
    pages = ("today", "what-stops", f"tasks/{ceiling['board']}/stops", "surfaces/C/before-cover", "inspections")
    for page in pages:
        told = words(client.get(f"{BASE}/{page}"))
        assert HIDDEN in told, page
        assert WHY in told, page


def test_keeping_it_opens_no_gate(client, ceiling):
    saved(client.post(f"{BASE}/tasks/{ceiling['board']}/move", data={"to": "1", "keep": "yes", "why": WHY}))
    refused = client.post(f"{BASE}/tasks/{ceiling['board']}/finish", data={"on": "today"})
    assert refused.status_code == 409
    assert "Duct and line set, rough" in words(refused)
    assert client.get(f"{BASE}/surfaces/C/cover").status_code == 409


def test_it_is_gone_once_the_order_is_mended_and_asked_anew_when_broken_again(client, ceiling):
    path = f"{BASE}/tasks/{ceiling['board']}/move"
    saved(client.post(path, data={"to": "1", "keep": "yes", "why": WHY}))
    saved(client.post(path, data={"to": "later"}))
    for page in ("today", "inspections"):
        assert HIDDEN not in words(client.get(f"{BASE}/{page}"))
    assert client.post(path, data={"to": "1"}).status_code == 409


def test_it_is_gone_once_the_visit_passed(client, ceiling, database, build):
    saved(client.post(f"{BASE}/tasks/{ceiling['board']}/move", data={"to": "1", "keep": "yes", "why": WHY}))
    with database.writing() as session:
        visit = builders.a_visit(session, session.get(Inspection, ceiling["kind"]), outcome="asked").row_id
    seen = {"day": "2026-05-16", f"kind_{ceiling['surface']}": "passed"}
    saved(client.post(f"{BASE}/visits/{visit}/result", data=seen))
    for page in ("today", "what-stops", "inspections"):
        assert HIDDEN not in words(client.get(f"{BASE}/{page}"))


def test_moving_the_phase_is_asked_about_in_the_same_words(client, ceiling, database, build):
    with database.writing() as session:
        after = builders.a_phase(session, build, "After", 2)
        moved = f"{BASE}/phases/{after.row_id}/move"
        late = builders.a_task(session, after, "Seal the duct", kind="ducting")
        need = {"what_kind": "inspection", "what_id": ceiling["kind"], "needs_kind": "task", "needs_id": late.row_id}
        builders.kept(session, Need(build_id=build.row_id, **need))
        builders.a_phase(session, build, "Nothing", 3)
    assert HIDDEN in words(client.get(f"{BASE}/today")), "an order that breaks it is told without being asked"
    saved(client.post(moved, data={"to": "1"}))
    assert HIDDEN not in words(client.get(f"{BASE}/today"))
    answer = client.post(moved, data={"to": "3"})
    assert (answer.status_code, HIDDEN in words(answer)) == (409, True)


def test_each_waiting_for_the_other_is_refused_with_both_names(client, ceiling):
    duct, board = ceiling["duct"], ceiling["board"]
    need = {"strength": "hard", "phase": str(ceiling["phase"])}
    saved(client.post(f"{BASE}/tasks/{board}/needs", data=need | {"needs_id": str(duct)}))
    answer = client.post(f"{BASE}/tasks/{duct}/needs", data=need | {"needs_id": str(board)})
    assert answer.status_code == 409
    assert "“Hang the duct”" in words(answer) and "“Hang the ceiling board”" in words(answer)
