"""Laws of the one graph on random builds; root causes are held against their definition, computed with networkx."""

from dataclasses import replace
from datetime import date, timedelta
from itertools import pairwise

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from webapp.plan.rules.graph import Link
from webapp.readiness.rules.network import Network, Node, WaitsFor

TODAY = date(2026, 5, 16)
LONG_AGO = date(2025, 5, 16)
KINDS = ("task", "inspection", "cover")
KEYS = tuple(f"task:{number}" for number in range(10))
some_key = st.sampled_from(KEYS)
lags = st.sampled_from((0, 0, 0, 2, 7))


@st.composite
def builds(draw) -> tuple[list[Node], list[Link]]:
    """Ten things, some settled lately, and links without a circle."""
    nodes = []
    for key in KEYS:
        settled = draw(st.booleans()) and draw(st.booleans())
        on = TODAY - timedelta(days=draw(st.integers(0, 8))) if settled and draw(st.booleans()) else None
        whom, kind = draw(st.sampled_from(WaitsFor)), draw(st.sampled_from(KINDS))
        nodes.append(Node(key, kind, key, settled, on, whom, rank=draw(st.integers(0, 3))))
    line = draw(st.permutations(KEYS))
    ends = st.lists(st.tuples(some_key, some_key).filter(lambda pair: pair[0] != pair[1]), max_size=22)
    links = [
        Link(*sorted(pair, key=line.index, reverse=True), hard=draw(st.integers(0, 4)) > 0, lag_days=draw(lags))
        for pair in draw(ends)
    ]
    return nodes, links


def settle(nodes: list[Node], key: str, on: date | None = TODAY) -> list[Node]:
    return [replace(n, settled=True, settled_on=on) if n.key == key and not n.settled else n for n in nodes]


def is_open(nodes: list[Node], link: Link) -> bool:
    """The definition, from the facts alone: not settled, or the wait after it not over. One without a day runs on."""
    node = next(node for node in nodes if node.key == link.needs)
    if not node.settled:
        return True
    if node.settled_on is None:
        return link.lag_days > 0
    return node.settled_on + timedelta(days=link.lag_days) > TODAY


def stopping(nodes: list[Node], links: list[Link]) -> nx.DiGraph:
    """Arrows from an open hard need to each waiter that is not settled."""
    settled = {node.key for node in nodes if node.settled}
    graph = nx.DiGraph()
    graph.add_nodes_from(KEYS)
    graph.add_edges_from(
        (link.needs, link.waiter) for link in links if link.hard and link.waiter not in settled and is_open(nodes, link)
    )
    return graph


def can_start(nodes: list[Node], links: list[Link]) -> set[str]:
    return {node.key for node in Network(nodes, links, TODAY).startable(KINDS)}


@given(builds())
def test_what_can_start_is_what_has_no_arrow_into_it(build):
    nodes, links = build
    graph, network = stopping(nodes, links), Network(nodes, links, TODAY)
    free = {node.key for node in nodes if not node.settled and graph.in_degree(node.key) == 0}
    assert can_start(nodes, links) == free
    assert {key for key in KEYS if network.can_start(key)} == free


@given(builds())
def test_roots_are_the_sources_among_the_unsettled_ancestors_as_networkx_finds_them(build):
    nodes, links = build
    graph, network = stopping(nodes, links), Network(nodes, links, TODAY)
    for node in nodes:
        area = nx.ancestors(graph, node.key) | {node.key}
        sources = {key for key in area if graph.in_degree(key) == 0}
        found = network.roots(node.key)
        assert {root.node.key for root in found} == (set() if node.settled else sources)
        assert bool(found) != node.settled
        for root in found:
            expected = WaitsFor.DRYING if root.node.settled else root.node.waits_for
            assert root.waits_for is expected
            known = root.node.settled and root.node.settled_on is not None
            assert (root.until is not None and root.until > TODAY) == known


@given(builds())
def test_roots_are_an_antichain_no_root_waits_for_another(build):
    nodes, links = build
    graph, network = stopping(nodes, links), Network(nodes, links, TODAY)
    for key in KEYS:
        roots = {root.node.key for root in network.roots(key)}
        assert all(not nx.ancestors(graph, root) & roots for root in roots)


@given(builds())
def test_how_much_a_root_holds_up_is_what_lies_downstream_of_it(build):
    nodes, links = build
    graph, network = stopping(nodes, links), Network(nodes, links, TODAY)
    for node in nodes:
        down = nx.descendants(graph, node.key)
        if not node.settled:
            assert network.frees(node.key).downstream == len(down)
        for root in network.roots(node.key):
            if not root.node.settled:
                assert root.holds_up == len(nx.descendants(graph, root.node.key))
            else:
                held = {key for key in KEYS if root in network.roots(key)}
                assert root.holds_up == len(held) <= len(nx.descendants(graph, root.node.key))


@given(builds(), some_key)
def test_freeing_now_is_the_difference_between_two_networks(build, key):
    nodes, links = build
    before, after = can_start(nodes, links), can_start(settle(nodes, key), links)
    assert {node.key for node in Network(nodes, links, TODAY).frees(key).now} == after - before


@given(builds())
def test_what_a_root_frees_can_start_once_it_is_settled_and_its_wait_is_over(build):
    nodes, links = build
    before = can_start(nodes, links)
    for root in Network(nodes, links, TODAY).waiting():
        others = [n for n in nodes if n.key != root.node.key]
        over = can_start([*others, replace(root.node, settled=True, settled_on=LONG_AGO)], links)
        assert set(root.frees) <= over - before


@given(builds(), some_key, st.sampled_from((TODAY, None)))
def test_settling_a_thing_blocks_nothing(build, key, on):
    nodes, links = build
    assert can_start(nodes, links) - {key} <= can_start(settle(nodes, key, on), links)


@given(builds(), some_key)
def test_settling_a_thing_brings_no_root_but_its_own_wait_and_what_waited_for_it(build, key):
    nodes, links = build
    allowed = nx.descendants(stopping(nodes, links), key) | {key}
    before, after = Network(nodes, links, TODAY), Network(settle(nodes, key), links, TODAY)
    for asked in KEYS:
        were = {root.node.key for root in before.roots(asked)}
        assert {root.node.key for root in after.roots(asked)} - were <= allowed


@given(builds(), st.tuples(some_key, some_key), st.booleans(), lags)
def test_one_more_link_never_makes_anything_startable(build, ends, hard, lag):
    nodes, links = build
    more = [*links, Link(*ends, hard=hard, lag_days=lag)]
    assert can_start(nodes, more) <= can_start(nodes, links)
    network = Network(nodes, more, TODAY)
    assert all(network.roots(node.key) for node in nodes if not node.settled)


@given(builds())
def test_a_wish_changes_no_answer_about_hard_stops(build):
    nodes, links = build
    hard_only = Network(nodes, [link for link in links if link.hard], TODAY)
    network = Network(nodes, links, TODAY)
    for key in KEYS:
        assert network.roots(key) == hard_only.roots(key)
        assert network.can_start(key) == hard_only.can_start(key)


@given(builds(), some_key)
def test_direct_needs_are_all_named_once_and_only_if_open(build, key):
    nodes, links = build
    open_links = [link for link in links if link.waiter == key and is_open(nodes, link)]
    unmet = Network(nodes, links, TODAY).unmet(key)
    assert sorted(need.node.key for need in unmet) == sorted({link.needs for link in open_links})
    assert {need.node.key for need in unmet if need.hard} == {link.needs for link in open_links if link.hard}
    assert all(need.drying == need.node.settled for need in unmet)


@given(builds(), some_key, st.integers(0, 4), st.integers(0, 3))
def test_the_drawing_puts_each_need_below_its_waiter_and_the_chain_follows_links(build, key, up, down):
    nodes, links = build
    network, graph = Network(nodes, links, TODAY), stopping(nodes, links)
    around = network.around(key, up, down)
    assert around.level[key] == 0
    assert {node.key for node in around.nodes} == set(around.level)
    assert all(around.level[link.needs] < around.level[link.waiter] for link in around.links)
    chain = network.chain(key)
    assert chain[-1] == key
    assert all(graph.has_edge(*pair) for pair in pairwise(chain))
    if len(chain) > 1:
        assert chain[0] == network.roots(key)[0].node.key
