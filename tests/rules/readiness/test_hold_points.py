"""Which hold points an order breaks, worked out again with networkx from the same links."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from webapp.plan.rules.graph import Link
from webapp.readiness.rules.hold_points import Broken, Hold, broken_by_tasks, broken_by_visits, newly

CEILING = 5
ROUGH = Hold("inspection:1@5", 1, CEILING)
LINKS = (Link("task:2", ROUGH.key), Link(ROUGH.key, "task:1"))
HIDES = {"task:2": {CEILING}}


def test_board_before_the_duct_hides_what_is_to_be_seen_of_it():
    assert broken_by_tasks(("task:1", "task:2"), LINKS, [ROUGH], HIDES) == ()
    (found,) = broken_by_tasks(("task:2", "task:1"), LINKS, [ROUGH], HIDES)
    assert found == Broken("task:2", 1, CEILING, "task:1")


def test_a_wish_breaks_nothing_and_work_that_hides_nothing_neither():
    wished = (Link("task:2", ROUGH.key, hard=False), LINKS[1])
    assert broken_by_tasks(("task:2", "task:1"), wished, [ROUGH], HIDES) == ()
    assert broken_by_tasks(("task:2", "task:1"), LINKS, [ROUGH], {}) == ()


def test_what_passed_is_no_hold_point_any_more():
    assert broken_by_tasks(("task:2", "task:1"), LINKS, [], HIDES) == ()


def test_an_inspection_before_one_whose_place_is_closed_by_then_is_told():
    board = Hold("inspection:2@5", 2, CEILING)
    links = (*LINKS, Link(board.key, "task:2"))
    assert broken_by_visits((1, 2), links, [ROUGH, board], HIDES) == ()
    (found,) = broken_by_visits((2, 1), links, [ROUGH, board], HIDES)
    assert found == Broken("inspection:2", 1, CEILING, "task:2")


def test_one_that_only_needs_the_other_hides_nothing_and_is_told_too():
    then = Hold("inspection:2", 2, None)
    (found,) = broken_by_visits((2, 1), [Link(then.key, ROUGH.key)], [ROUGH, then], HIDES)
    assert found == Broken("inspection:2", 1, 0)


def test_only_what_is_new_is_asked_about():
    old = Broken("task:2", 1, CEILING, "task:1")
    new = Broken("task:3", 1, CEILING, "task:1")
    assert newly([Broken("task:2", 1, CEILING, "task:9"), new], [old]) == (new,)


KEYS = tuple(f"task:{number}" for number in range(6)) + tuple(f"inspection:{number}@7" for number in range(3))
HOLDS = tuple(Hold(key, int(key[11]), 7) for key in KEYS if key.startswith("inspection"))


@given(
    st.lists(
        st.tuples(st.sampled_from(KEYS), st.sampled_from(KEYS)).filter(lambda pair: pair[0] != pair[1]), max_size=14
    ),
    st.permutations(KEYS[:6]),
    st.sets(st.sampled_from(KEYS[:6])),
)
def test_the_same_is_found_by_networkx(pairs, order, hiding):
    """A waiter points to what it needs: networkx 3, `descendants` are all that is needed, `ancestors` all that wait."""
    graph = nx.DiGraph(pairs)
    graph.add_nodes_from(KEYS)
    place = {key: at for at, key in enumerate(order)}
    expected = set()
    for hold in HOLDS:
        needed = {key for key in nx.descendants(graph, hold.key) if key in place}
        for task in nx.ancestors(graph, hold.key) & hiding:
            if task not in needed and any(place[key] > place[task] for key in needed):
                expected.add((task, hold.inspection_id, 7))
    links = [Link(waiter, needs) for waiter, needs in dict.fromkeys(pairs)]
    found = broken_by_tasks(order, links, HOLDS, {key: {7} for key in hiding})
    assert {(one.what, one.inspection_id, one.surface_id) for one in found} == expected
