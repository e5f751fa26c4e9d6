"""What stops board on the south wall of the bindery, asked of the one graph."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from webapp.readiness.rules.network import Link, Network, Node, WaitsFor

TODAY = date(2026, 5, 16)
PLATES = Node("correction:1", "correction", "Plates on three studs, S", minutes=25, rank=1)
GROUND = Node("correction:2", "correction", "Ground the two-gang box, S", minutes=40, rank=2)
VISIT = Node("inspection:3@7", "inspection", "Re-visit, electrical S", waits_for=WaitsFor.INSPECTOR, rank=3)
BATTS = Node("task:4", "task", "Insulation S", rank=4)
LIFT = Node("goods:5", "goods", "Lift hired", waits_for=WaitsFor.SUPPLIER, until=TODAY + timedelta(days=6), rank=5)
SHOT = Node("shot:6", "shot", "First board going up", skippable=True, rank=6)
COVER = Node("cover:7", "cover", "South wall", rank=7)
MUD = Node("task:8", "task", "Mud and tape S", rank=8)
NODES = (PLATES, GROUND, VISIT, BATTS, LIFT, SHOT, COVER, MUD)
LINKS = (
    Link(VISIT.key, PLATES.key),
    Link(VISIT.key, GROUND.key),
    Link(BATTS.key, VISIT.key),
    Link(COVER.key, SHOT.key, hard=False),
    Link(COVER.key, BATTS.key),
    Link(COVER.key, LIFT.key, reason="Boards are 12 ft"),
    Link(MUD.key, COVER.key),
)


def bindery(*settled: Node, links=LINKS, on: date | None = TODAY, today: date = TODAY) -> Network:
    """The wall with some things settled `on` a day."""
    done = {node.key for node in settled}
    nodes = [replace(node, settled=True, settled_on=on) if node.key in done else node for node in NODES]
    return Network(nodes, links, today)


def keys(found) -> list[str]:
    return [getattr(one, "node", one).key for one in found]


def test_every_missing_thing_is_named_hard_stops_before_wishes():
    unmet = bindery().unmet(COVER.key)
    assert keys(unmet) == [BATTS.key, LIFT.key, SHOT.key]
    assert [need.hard for need in unmet] == [True, True, False]
    assert unmet[1].reason == "Boards are 12 ft"
    assert keys(bindery().wishes(COVER.key)) == [SHOT.key]


def test_a_wish_comes_after_the_hard_stops_even_where_the_builder_ranked_it_first():
    nodes = (COVER, replace(SHOT, rank=-1), BATTS)
    links = (Link(COVER.key, SHOT.key, hard=False), Link(COVER.key, BATTS.key))
    assert keys(Network(nodes, links, TODAY).unmet(COVER.key)) == [BATTS.key, SHOT.key]


def test_root_causes_are_what_can_be_done_now_mine_first_then_by_day():
    roots = bindery().roots(COVER.key)
    assert keys(roots) == [PLATES.key, GROUND.key, LIFT.key]
    assert [root.waits_for for root in roots] == [WaitsFor.ME, WaitsFor.ME, WaitsFor.SUPPLIER]
    assert [root.until for root in roots] == [None, None, LIFT.until]


def test_a_root_frees_only_what_it_alone_stops():
    assert [root.frees for root in bindery().roots(COVER.key)] == [(), (), ()]
    plates_left = bindery(GROUND).roots(COVER.key)
    assert plates_left[0].frees == (VISIT.key,)
    assert [root.holds_up for root in plates_left] == [4, 2]


def test_a_wish_stops_nothing_but_can_be_followed_when_asked():
    network = bindery(PLATES, GROUND, VISIT, BATTS, LIFT)
    assert network.can_start(COVER.key)
    assert keys(network.roots(COVER.key)) == [COVER.key]
    assert keys(network.roots(COVER.key, hard=False)) == [SHOT.key]


def test_a_thing_whose_needs_are_met_is_its_own_root_and_a_settled_one_has_none():
    network = bindery(PLATES)
    assert keys(network.roots(GROUND.key)) == [GROUND.key]
    assert network.roots(PLATES.key) == ()
    assert not network.can_start(PLATES.key)


def test_a_running_wait_stops_until_its_last_day_is_over():
    links = (*LINKS, Link(MUD.key, BATTS.key, lag_days=7))
    done = (PLATES, GROUND, VISIT, BATTS, LIFT, COVER)
    day_six = bindery(*done, links=links, today=TODAY + timedelta(days=6))
    (wait,) = day_six.unmet(MUD.key)
    assert (wait.node.key, wait.drying, wait.until) == (BATTS.key, True, TODAY + timedelta(days=7))
    (root,) = day_six.roots(MUD.key)
    assert (root.waits_for, root.until, root.frees) == (WaitsFor.DRYING, wait.until, (MUD.key,))
    assert root.holds_up == 1
    day_seven = bindery(*done, links=links, today=TODAY + timedelta(days=7))
    assert day_seven.can_start(MUD.key)


def test_a_wait_that_began_on_an_unknown_day_stops_until_that_day_is_given():
    links = (*LINKS, Link(MUD.key, BATTS.key, lag_days=7))
    done = (PLATES, GROUND, VISIT, BATTS, LIFT, COVER)
    undated = bindery(*done, links=links, on=None)
    assert not undated.can_start(MUD.key)
    (wait,) = undated.unmet(MUD.key)
    assert (wait.node.key, wait.drying, wait.until) == (BATTS.key, True, None)
    (root,) = undated.roots(MUD.key)
    assert (root.node.key, root.waits_for, root.until, root.frees) == (BATTS.key, WaitsFor.DRYING, None, (MUD.key,))
    assert undated.loop is None
    assert bindery(*done, links=links, on=TODAY - timedelta(days=7)).can_start(MUD.key)


def test_what_has_no_wait_after_it_needs_no_day():
    assert bindery(PLATES, GROUND, VISIT, BATTS, LIFT, COVER, on=None).can_start(MUD.key)


def test_two_waits_after_one_pour_are_two_roots():
    links = (Link(BATTS.key, VISIT.key, lag_days=3), Link(MUD.key, VISIT.key, lag_days=28))
    network = bindery(VISIT, links=links)
    waits = [root for root in network.waiting() if root.waits_for is WaitsFor.DRYING]
    assert [(root.until, root.frees) for root in waits] == [
        (TODAY + timedelta(days=3), (BATTS.key,)),
        (TODAY + timedelta(days=28), (MUD.key,)),
    ]
    assert [root.until for root in network.roots(MUD.key)] == [TODAY + timedelta(days=28)]


def test_settling_frees_what_nothing_else_stops_and_starts_waits():
    links = (*LINKS, Link(MUD.key, GROUND.key, lag_days=2))
    frees = bindery(PLATES, links=links).frees(GROUND.key)
    assert (keys(frees.now), keys(frees.later), frees.downstream) == ([VISIT.key], [MUD.key], 4)
    assert bindery().frees(GROUND.key).now == ()
    assert bindery(GROUND).frees(GROUND.key).downstream == 0


def test_a_wish_granted_frees_nothing_that_a_hard_need_still_stops():
    network = bindery(PLATES, GROUND, VISIT, BATTS)
    assert keys(network.unmet(COVER.key)) == [LIFT.key, SHOT.key]
    assert network.frees(SHOT.key).now == ()


def test_what_can_start_is_in_the_builders_order_and_of_the_kinds_asked_for():
    assert bindery().startable() == ()
    assert keys(bindery().startable(("shot", "goods", "correction"))) == [
        PLATES.key,
        GROUND.key,
        LIFT.key,
        SHOT.key,
    ]


def test_waiting_names_each_root_that_is_not_mine_once_soonest_first_and_undated_last():
    network = bindery(PLATES, GROUND)
    assert keys(network.waiting()) == [LIFT.key, VISIT.key]


def test_a_settled_thing_stops_nobody_though_its_own_needs_were_taken_back():
    network = bindery(COVER)
    assert network.can_start(MUD.key)
    assert keys(network.unmet(COVER.key)) == [BATTS.key, LIFT.key, SHOT.key]


def test_the_chain_leads_from_the_first_root_to_the_thing():
    network = bindery()
    assert network.chain(COVER.key) == (PLATES.key, VISIT.key, BATTS.key, COVER.key)
    assert network.chain(PLATES.key) == (PLATES.key,)
    assert bindery(COVER).chain(COVER.key) == (COVER.key,)


def test_the_neighbourhood_has_two_steps_of_needs_and_one_of_waiters_with_the_links_between():
    around = bindery().around(COVER.key)
    assert around.level == {
        VISIT.key: -2,
        BATTS.key: -1,
        LIFT.key: -1,
        SHOT.key: -1,
        COVER.key: 0,
        MUD.key: 1,
    }
    assert keys(around.nodes) == [VISIT.key, BATTS.key, LIFT.key, SHOT.key, COVER.key, MUD.key]
    assert set(around.links) == set(LINKS[2:])


def test_a_need_of_a_need_is_drawn_above_it_though_it_is_needed_directly_too():
    around = bindery(links=(*LINKS, Link(COVER.key, VISIT.key))).around(COVER.key)
    assert around.level[VISIT.key] == -2


def test_behind_a_running_wait_nothing_more_is_drawn_though_a_result_was_taken_back():
    network = bindery(BATTS, links=(*LINKS, Link(MUD.key, BATTS.key, lag_days=7)))
    assert VISIT.key not in network.around(MUD.key).level
    assert network.around(BATTS.key).level[VISIT.key] == -1


def test_two_links_between_the_same_things_are_one_need_hard_and_with_both_reasons():
    double = (
        Link(MUD.key, BATTS.key, hard=False, reason="tidier", lag_days=9),
        Link(MUD.key, BATTS.key, lag_days=2, reason="glue"),
        Link(MUD.key, BATTS.key, reason="access"),
    )
    network = bindery(links=double)
    (need,) = network.unmet(MUD.key)
    assert (need.hard, need.reason) == (True, "glue; access")
    assert keys(network.frees(BATTS.key).later) == [MUD.key]
    assert network.wishes(MUD.key) == ()


def test_things_that_wait_for_each_other_never_look_free():
    network = bindery(PLATES, GROUND, LIFT, links=(*LINKS, Link(VISIT.key, COVER.key)))
    assert sorted(network.loop or ()) == sorted((VISIT.key, BATTS.key, COVER.key))
    roots = network.roots(MUD.key)
    assert keys(roots) == [VISIT.key, BATTS.key, COVER.key]
    assert {root.waits_for for root in roots} == {WaitsFor.ANSWER}
    assert not network.can_start(VISIT.key)
    assert network.frees(VISIT.key).downstream == 3
    assert network.around(COVER.key).level[COVER.key] == 0
    assert bindery().loop is None


def test_a_link_to_nothing_and_a_thing_twice_are_refused_in_a_sentence():
    with pytest.raises(KeyError, match=r"'task:8' needs 'fee:9', but 'fee:9' is not in the graph\."):
        bindery(links=(Link(MUD.key, "fee:9"),))
    with pytest.raises(ValueError, match=r"'task:8' is in the graph twice"):
        Network((MUD, BATTS, MUD), (), TODAY)
    with pytest.raises(KeyError, match=r"'fee:9' is not in the graph\."):
        bindery().roots("fee:9")
    assert "fee:9" not in bindery()
    assert bindery().node(MUD.key) == MUD


def test_the_letters_of_the_tags_are_all_different():
    assert "".join(whom.letter for whom in WaitsFor) == "MISDWFHXA"
    assert [whom.letter for whom in (WaitsFor.INSPECTOR, WaitsFor.DRYING, WaitsFor.MONEY)] == ["I", "D", "F"]
