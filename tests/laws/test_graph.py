"""Laws of the graph of needs on random graphs, held against networkx, a general graph library."""

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from webapp.plan.rules.graph import Link, Loop, Reach, any_loop, downstream, in_order, loop_with, upstream

KEYS = tuple(f"task:{number}" for number in range(12))
pairs = st.tuples(st.sampled_from(KEYS), st.sampled_from(KEYS))
any_links = st.lists(st.builds(lambda pair, hard: Link(*pair, hard=hard), pairs, st.booleans()), max_size=30)
ranks = st.dictionaries(st.sampled_from(KEYS), st.integers(-3, 3))


@st.composite
def sound_links(draw) -> list[Link]:
    """Links without a circle: a hidden shuffled line, and every need lies earlier in it."""
    line = draw(st.permutations(KEYS))
    chosen = draw(st.lists(pairs.filter(lambda pair: pair[0] != pair[1]), max_size=30))
    return [Link(*sorted(pair, key=line.index, reverse=True)) for pair in chosen]


def drawn(links) -> nx.DiGraph:
    """Our links as arrows from the need to its waiter."""
    graph = nx.DiGraph()
    graph.add_nodes_from(KEYS)
    graph.add_edges_from((link.needs, link.waiter) for link in links)
    return graph


@given(sound_links(), pairs)
def test_a_link_closes_a_circle_exactly_when_networkx_finds_one_and_it_is_the_shortest(links, pair):
    extra = Link(*pair)
    circle = loop_with(links, extra)
    assert (circle is None) == nx.is_directed_acyclic_graph(drawn([*links, extra]))
    if circle is not None:
        assert circle[0] == extra.waiter
        assert len(circle) == nx.shortest_path_length(drawn(links), extra.waiter, extra.needs) + 1
        graph = drawn([*links, extra])
        following = (*circle[1:], circle[0])
        assert all(graph.has_edge(need, key) for key, need in zip(circle, following, strict=True))


@given(any_links)
def test_some_circle_is_found_exactly_when_there_is_one_and_each_step_of_it_is_a_link(links):
    circle = any_loop(links)
    assert (circle is None) == nx.is_directed_acyclic_graph(drawn(links))
    if circle is not None:
        assert len(set(circle)) == len(circle)
        graph = drawn(links)
        following = (*circle[1:], circle[0])
        assert all(graph.has_edge(need, key) for key, need in zip(circle, following, strict=True))


@given(sound_links(), st.permutations(KEYS), ranks)
def test_order_is_the_one_networkx_gives_for_the_same_rank_and_never_puts_a_thing_before_its_need(links, keys, rank):
    order = in_order(keys, links, rank)
    place = {key: number for number, key in enumerate(order)}
    assert all(place[link.needs] < place[link.waiter] for link in links)
    given_place = {key: number for number, key in enumerate(keys)}
    assert order == tuple(
        nx.lexicographical_topological_sort(drawn(links), key=lambda key: (rank.get(key, 0), given_place[key]))
    )


@given(sound_links(), st.lists(st.sampled_from(KEYS), unique=True))
def test_order_of_a_few_keys_honours_needs_through_keys_left_out(links, keys):
    order = in_order(keys, links)
    assert sorted(order) == sorted(keys)
    graph = drawn(links)
    for number, key in enumerate(order):
        assert not nx.ancestors(graph, key) & set(order[number:])


@given(any_links)
def test_order_is_refused_exactly_when_there_is_a_circle(links):
    try:
        in_order(KEYS, links)
    except Loop as loop:
        assert loop.keys
        assert not nx.is_directed_acyclic_graph(drawn(links))
    else:
        assert nx.is_directed_acyclic_graph(drawn(links))


@given(any_links, st.sampled_from(KEYS))
def test_up_and_down_the_line_are_networkx_ancestors_and_descendants(links, key):
    assert upstream(key, links) == nx.ancestors(drawn(links), key)
    assert downstream(key, links) == nx.descendants(drawn(links), key)


@given(any_links)
def test_reach_of_all_keys_at_once_agrees_with_walking_from_each_also_in_circles(links):
    graph = drawn(links)
    numbered = {key: number for number, key in enumerate(KEYS)}
    reach = Reach([[numbered[link.waiter] for link in links if link.needs == key] for key in KEYS])
    on_a_circle = {key for circle in nx.simple_cycles(graph) for key in circle}
    for key, number in numbered.items():
        reached = {other for other in KEYS if reach.downstream(number) & reach.bit(numbered[other])}
        assert reached - {key} == nx.descendants(graph, key)
        assert (number in reach.circular) == (key in on_a_circle)
