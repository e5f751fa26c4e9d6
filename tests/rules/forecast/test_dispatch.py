"""One builder's schedule: sound by a simulator of its own, never below the bound, exact where theory says so."""

import random

import networkx as nx
import pytest

from webapp.forecast.rules.axes import Axes, axes_of, first_free
from webapp.forecast.rules.bound import least_end
from webapp.forecast.rules.dispatch import NoEnd, Schedule, dispatch, plan
from webapp.forecast.rules.network import Network, Node, network_of
from webapp.forecast.rules.passes import latest_ends, plain_passes
from webapp.plan.rules.graph import Link, Loop

WEEK = 7 * 24
EVENINGS = (
    (1 * 24 + 18, 1 * 24 + 21),
    (3 * 24 + 18, 3 * 24 + 21),
    (5 * 24 + 9, 5 * 24 + 17),
    (6 * 24 + 10, 6 * 24 + 16),
)
"""Tuesday and Thursday 3 h, Saturday 8 h, Sunday 6 h, in slots of an hour"""


def calendar(weeks: int, drawn: random.Random | None = None) -> Axes:
    """Twenty hours a week; with `drawn`, one week in ten is lost."""
    lost = [drawn is not None and drawn.random() < 0.1 for _ in range(weeks)]
    own = [(week * WEEK + a, week * WEEK + b) for week in range(weeks) if not lost[week] for a, b in EVENINGS]
    return axes_of(own, weeks * WEEK)


def random_network(drawn: random.Random, size: int, *, waits_at_ends: bool = False) -> Network:
    nodes, links = [], []
    for number in range(size):
        nodes.append(Node(f"t{number}", drawn.randint(1, 9)))
        links += [Link(f"t{number}", f"t{need}") for need in range(number) if drawn.random() < 1.6 / size]
    last = {f"t{number}" for number in range(size)} - {link.needs for link in links}
    for key in [node.key for node in nodes]:
        if (key in last or not waits_at_ends) and drawn.random() < 0.3:
            nodes.append(Node(f"w{key}", drawn.randint(24, 28 * 24), wait=True))
            if key not in last:
                links = [Link(link.waiter, f"w{key}") if link.needs == key else link for link in links]
            links.append(Link(f"w{key}", key))
    return network_of(nodes, links)


def simulated(network: Network, axes: Axes, schedule: Schedule) -> None:
    """Slot by slot from the pieces alone: one thing at a time, in sessions only, all needs and waits kept."""
    left = [node.length for node in network.nodes]
    over = [-1] * len(left)
    used = set()
    worked = {}
    for piece in schedule.pieces:
        for unit in range(piece.first, piece.end):
            slot = axes.slot[unit]
            assert slot not in used, "two things at once"
            used.add(slot)
            worked.setdefault(piece.place, []).append(slot)
    for place, node in enumerate(network.nodes):
        needed = max([node.not_before, *(over[need] for need in network.needs[place])])
        if node.wait:
            over[place] = needed + node.length
        elif node.length:
            slots = worked[place]
            assert len(slots) == node.length and min(slots) >= needed, node.key
            over[place] = max(slots) + 1
        else:
            over[place] = needed
        left[place] = 0
    assert over == list(schedule.ends)


@pytest.mark.parametrize("seed", range(40))
def test_schedules_are_sound_and_never_below_the_bound(seed):
    drawn = random.Random(seed)
    network, axes = random_network(drawn, drawn.choice((5, 12, 30))), calendar(120, drawn)
    schedule, bound = plan(network, axes)
    simulated(network, axes, schedule)
    assert bound <= schedule.end
    plain = dispatch(network, axes, range(len(network.nodes)))
    assert schedule.end <= plain.end, "no later than the order in which it was typed"


@pytest.mark.parametrize("seed", range(60))
def test_with_waits_only_at_the_ends_the_schedule_meets_the_bound(seed):
    """Exact there: Baker, Lawler, Lenstra, Rinnooy Kan, Operations Research 31, 1983 (one machine, preemption, heads,
    tails and precedence)."""
    drawn = random.Random(1000 + seed)
    network, axes = random_network(drawn, 20, waits_at_ends=True), calendar(80)
    schedule, bound = plan(network, axes)
    assert schedule.end == bound


def test_a_wait_between_own_work_can_beat_the_rule_and_the_bound_says_by_how_much():
    """A 3 h, wait 4, C 4 h and B 1 h, wait 3, D 4 h: the rule takes A first and needs 15, the best is 12."""
    nodes = [Node("A", 3), Node("a", 4, wait=True), Node("C", 4), Node("B", 1), Node("b", 3, wait=True), Node("D", 4)]
    links = [Link("a", "A"), Link("C", "a"), Link("b", "B"), Link("D", "b")]
    axes = axes_of([(0, 40)], 40)
    schedule, bound = plan(network_of(nodes, links), axes)
    assert (schedule.end, bound) == (15, 12)


@pytest.mark.parametrize("seed", range(20))
def test_the_plain_pass_is_the_longest_path(seed):
    """networkx finds the longest path of the same graph by itself."""
    drawn = random.Random(seed)
    network = random_network(drawn, 30)
    graph = nx.DiGraph()
    for place, node in enumerate(network.nodes):
        graph.add_edge((place, 0), (place, 1), weight=node.length)
        graph.add_edges_from([((need, 1), (place, 0)) for need in network.needs[place]], weight=0)
    assert plain_passes(network).length == nx.dag_longest_path_length(graph)


def test_work_ends_with_its_session_and_not_at_the_start_of_the_next():
    axes = calendar(2)
    network = network_of([Node("a", 3), Node("dry", 24, wait=True)], [Link("dry", "a")])
    schedule, _ = plan(network, axes)
    assert schedule.ends == (1 * 24 + 21, 2 * 24 + 21)
    assert latest_ends(network, axes, 4 * 24)[0] == 3 * 24
    assert axes.latest_start(3 * 24, 3) == 1 * 24 + 18


def test_a_milestone_takes_no_time_and_two_ends_are_fine():
    network = network_of([Node("done", 0), Node("a", 2), Node("b", 1)], [Link("done", "a")])
    schedule, bound = plan(network, axes_of([(4, 10)], 10))
    assert dict(zip([node.key for node in network.nodes], schedule.ends, strict=True)) == {"a": 6, "done": 6, "b": 7}
    assert bound == schedule.end == 7


def test_what_cannot_be_is_refused():
    with pytest.raises(Loop):
        network_of([Node("a", 1), Node("b", 1)], [Link("a", "b"), Link("b", "a")])
    with pytest.raises(KeyError):
        network_of([Node("a", 1)], [Link("a", "gone")])
    with pytest.raises(NoEnd):
        plan(network_of([Node("a", 9)], []), axes_of([(0, 4)], 10))
    with pytest.raises(ValueError, match="overlaps"):
        axes_of([(0, 4), (3, 5)], 10)


def test_a_long_chain_reaches_no_limit():
    nodes = [Node(f"t{number}", 1) for number in range(3000)]
    links = [Link(f"t{number + 1}", f"t{number}") for number in range(2999)]
    network = network_of(nodes, links)
    schedule, bound = plan(network, axes_of([(0, 3000)], 3000))
    assert schedule.end == bound == 3000 and len(schedule.pieces) == 3000


def test_the_first_free_slot_and_the_end_of_all_of_them():
    axes = axes_of([(2, 4), (8, 9)], 12)
    assert [first_free(axes, slot) for slot in (0, 2, 3, 4, 8, 9)] == [2, 2, 3, 8, 8, 12]
    assert least_end(network_of([Node("a", 3)], []), axes, 9) == 9
