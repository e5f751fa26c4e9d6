"""What needs what: a need of itself, a second one of the same, and a circle are refused by name."""

import networkx as nx
import pytest

from tests import builders
from webapp.plan import actions, store
from webapp.plan.actions import TypedNeed
from webapp.values.errors import NotFound, RuleBroken
from webapp.values.own_words import spoken


@pytest.fixture
def made(session):
    return builders.a_build(session)


@pytest.fixture
def bindery(session, made):
    return store.get_build(session, made.slug)


@pytest.fixture
def tasks(session, made):
    phase = builders.a_phase(session, made)
    titles = ("Extractor duct", "Ceiling board", "Mud and tape")
    return [builders.a_task(session, phase, title, place).row_id for place, title in enumerate(titles, 1)]


def refused(session, build, typed):
    with pytest.raises(RuleBroken) as caught:
        actions.add_need(session, build, typed)
    return caught.value


def test_a_need_is_kept_as_typed(session, bindery, tasks):
    duct, board, _ = tasks
    actions.add_need(session, bindery, TypedNeed(board, duct, "wish", 7, "cure of the sealant"))
    (need,) = store.list_needs(session, bindery.id)
    assert (need.what_id, need.needs_id, need.strength, need.lag_days) == (board, duct, "wish", 7)
    assert need.reason == "cure of the sealant"


def test_two_that_would_wait_for_each_other_are_named_in_order(session, bindery, tasks):
    duct, board, _ = tasks
    actions.add_need(session, bindery, TypedNeed(board, duct))
    refusal = refused(session, bindery, TypedNeed(duct, board))
    assert refusal.heading == "Not saved: these would wait for each other"
    assert [reason.sentence for reason in refusal.verdict.reasons] == [
        "“Extractor duct” needs “Ceiling board” needs “Extractor duct”."
    ]
    assert [(way.label, way.href) for way in refusal.ways_on] == [
        ("Leave it as it was", f"/builds/bindery/tasks/{duct}"),
        ("Look at “Extractor duct”", f"/builds/bindery/tasks/{duct}"),
        ("Look at “Ceiling board”", f"/builds/bindery/tasks/{board}"),
    ]
    assert len(store.list_needs(session, bindery.id)) == 1


def test_a_longer_circle_is_named_whole_and_agrees_with_networkx(session, bindery, tasks):
    duct, board, mud = tasks
    actions.add_need(session, bindery, TypedNeed(board, duct))
    actions.add_need(session, bindery, TypedNeed(mud, board))
    refusal = refused(session, bindery, TypedNeed(duct, mud))
    # Outside check: networkx finds the same circle in the graph that would have come about.
    graph = nx.DiGraph([(board, duct), (mud, board), (duct, mud)])
    (circle,) = nx.simple_cycles(graph)
    assert set(circle) == {duct, board, mud}
    assert refusal.verdict.reasons[0].sentence == (
        "“Extractor duct” needs “Mud and tape” needs “Ceiling board” needs “Extractor duct”."
    )
    assert len(refusal.ways_on) == 4


def test_a_circle_through_an_inspection_is_refused_too(session, bindery, tasks):
    duct, board, _ = tasks
    actions.add_need(session, bindery, TypedNeed(3, duct, what_kind="inspection", what_surface_id=5))
    actions.add_need(session, bindery, TypedNeed(board, 3, needs_kind="inspection", needs_surface_id=5))
    refusal = refused(session, bindery, TypedNeed(duct, board))
    assert "“Ceiling board” needs an inspection needs “Extractor duct”" in spoken(refusal.verdict.reasons[0].sentence)


def test_a_wish_may_not_close_a_circle_either(session, bindery, tasks):
    duct, board, _ = tasks
    actions.add_need(session, bindery, TypedNeed(board, duct, "wish"))
    assert "wait for each other" in refused(session, bindery, TypedNeed(duct, board)).heading


def test_a_task_cannot_wait_for_itself(session, bindery, tasks):
    refusal = refused(session, bindery, TypedNeed(tasks[0], tasks[0]))
    assert refusal.heading == "Not saved: a task cannot wait for itself"


def test_the_same_need_twice_is_said_to_be_there(session, bindery, tasks):
    duct, board, _ = tasks
    actions.add_need(session, bindery, TypedNeed(board, duct))
    refusal = refused(session, bindery, TypedNeed(board, duct, "wish"))
    assert refusal.verdict.reasons[0].sentence == "“Ceiling board” already needs “Extractor duct”."


def test_a_task_of_another_build_cannot_be_needed(session, bindery, tasks):
    other = builders.a_task(session, builders.a_phase(session, builders.a_build(session, "Shed")))
    with pytest.raises(NotFound):
        actions.add_need(session, bindery, TypedNeed(tasks[0], other.row_id))


def test_a_need_taken_out_leaves_a_line_and_lets_the_other_way_in(session, bindery, tasks):
    duct, board, _ = tasks
    need = actions.add_need(session, bindery, TypedNeed(board, duct, lag_days=7, reason="sealant"))
    actions.drop_need(session, bindery.id, need.row_id)
    (line,) = store.task_history(session, board)
    assert (line.was, line.became, line.why) == ("needed “Extractor duct”, then 7 days", "need taken out", "sealant")
    actions.add_need(session, bindery, TypedNeed(duct, board))


def test_a_need_of_another_build_is_not_taken_out(session, bindery, tasks):
    need = actions.add_need(session, bindery, TypedNeed(tasks[1], tasks[0]))
    with pytest.raises(NotFound):
        actions.drop_need(session, bindery.id + 1, need.row_id)
