"""The way of a line, by hand and against networkx (connected components, spanning trees) as a general graph library."""

from dataclasses import dataclass
from itertools import pairwise
from math import hypot

import networkx as nx
import pytest
from hypothesis import given
from hypothesis import strategies as st

from webapp.surfaces.rules.ways import Piece, Step, drawn_length, gaps, is_near, meets_edge, pieces, way

INCH = 25_400_000
PANEL, A, B, C, D = 1, 2, 3, 4, 5
ORDER = (PANEL, A, B, C, D)


@dataclass(frozen=True)
class Stretch:
    id: int
    from_item_id: int | None = None
    to_item_id: int | None = None
    continues_id: int | None = None
    surface_id: int = 1
    points: tuple[tuple[int, int], ...] = ((0, 0), (INCH, 0))


def parts(*stretches, first=(PANEL,)):
    return way(pieces(stretches), first, ORDER)


def told(part):
    """The thing it begins at, and each step as start, stretches, end, ring."""
    return part.first, [(step.start, step.stretches, step.item, step.again) for step in part.steps]


def test_a_way_goes_from_the_panel_from_box_to_box():
    (only,) = parts(Stretch(12, A, B), Stretch(11, PANEL, A))
    assert told(only) == (PANEL, [(PANEL, (11,), A, False), (A, (12,), B, False)])


def test_stretches_that_go_on_from_one_another_are_one_piece():
    one, two, three = Stretch(10, PANEL, A), Stretch(11, continues_id=10), Stretch(12, to_item_id=A, continues_id=11)
    assert pieces((three, one, two)) == (Piece((10, 11, 12), PANEL, A),)
    assert pieces((two, three)) == (Piece((11, 12), None, A),), "what it goes on from is of another line"


def test_a_branch_is_followed_to_its_end_before_the_next():
    (only,) = parts(Stretch(11, PANEL, A), Stretch(12, A, B), Stretch(13, A, C), Stretch(14, B, D))
    assert [(step.start, step.item) for step in only.steps] == [(PANEL, A), (A, B), (B, D), (A, C)]


def test_a_pipe_that_parts_at_a_tee_has_a_piece_for_each_branch():
    tee = Stretch(10, A), Stretch(11, None, B, 10), Stretch(12, None, C, 10)
    assert pieces(tee) == (Piece((10, 11), A, B), Piece((10, 12), A, C))


def test_a_ring_closes_where_it_began_and_is_walked_once():
    (ring,) = parts(Stretch(11, PANEL, A), Stretch(12, A, B), Stretch(13, B, PANEL))
    assert told(ring)[1] == [(PANEL, (11,), A, False), (A, (12,), B, False), (B, (13,), PANEL, True)]


def test_two_parts_that_no_run_joins_are_two_and_the_one_with_the_panel_comes_first():
    other, one = parts(Stretch(11, A, B), Stretch(12, PANEL, C), first=())[::-1]
    assert (one.first, other.first) == (PANEL, A)
    assert [part.first for part in parts(Stretch(11, A, B), Stretch(12, C, D), first=(D,))] == [D, A]


def test_an_end_that_is_not_known_is_nothing_on_record():
    assert told(parts(Stretch(11, PANEL, None))[0]) == (PANEL, [(PANEL, (11,), None, False)])
    assert told(parts(Stretch(11, None, B))[0]) == (B, [(B, (11,), None, False)])
    assert told(parts(Stretch(11))[0]) == (None, [(None, (11,), None, False)])
    assert len(parts(Stretch(11), Stretch(12))) == 2, "two unknown ends are not one place"


def test_a_run_written_the_other_way_round_is_walked_from_the_panel_all_the_same():
    (only,) = parts(Stretch(10, A, None), Stretch(11, None, PANEL, 10))
    assert told(only) == (PANEL, [(PANEL, (11, 10), A, False)])


def test_stretches_in_a_circle_each_stand_for_themselves():
    round_and_round = Stretch(10, A, B, 11), Stretch(11, None, None, 10)
    assert sorted(pieces(round_and_round), key=lambda piece: piece.stretches) == [
        Piece((10,), A, B),
        Piece((11,), None, None),
    ]


ends = st.one_of(st.none(), st.integers(1, 8))


@given(st.lists(st.tuples(ends, ends), max_size=14), st.sets(st.integers(1, 8), max_size=2))
def test_the_way_agrees_with_a_graph_library(drawn, first):
    found = pieces(Stretch(100 + number, begins, to) for number, (begins, to) in enumerate(drawn))
    graph = nx.MultiGraph()
    for number, (begins, to) in enumerate(drawn):
        graph.add_edge(begins or ("from", number), to or ("to", number), key=number)
    walked = way(found, first, range(1, 9))
    assert len(walked) == nx.number_connected_components(graph)
    assert sorted(step.stretches for part in walked for step in part.steps) == sorted(one.stretches for one in found)
    for part, component in match(walked, graph):
        assert {step.item for step in part.steps} | {part.first} <= component | {None}
        tree = [step for step in part.steps if not step.again]
        assert len(tree) == len(component) - 1, "one step to each place but the first: a spanning tree"
        assert not first & component or part.first in first
        check_order(part)


def match(walked, graph):
    """Each part with the component of the graph that holds its first stretch."""
    by_key = {key: set(nx.node_connected_component(graph, u)) for u, _, key in graph.edges(keys=True)}
    return [(part, by_key[part.steps[0].stretches[0] - 100]) for part in walked]


def check_order(part):
    reached = {part.first}
    for step in part.steps:
        assert step.start in reached, "no step begins where nobody was yet"
        assert (step.item in reached) == step.again or step.item is None
        reached.add(step.item)


def test_the_same_ends_twice_are_two_pieces_and_the_second_closes_a_ring():
    (only,) = parts(Stretch(11, PANEL, A), Stretch(12, PANEL, A))
    assert only.steps[1] == Step(A, (12,), PANEL, True)


def test_the_drawn_length_is_the_sum_of_the_straight_parts():
    assert drawn_length(((0, 0), (3 * INCH, 0), (3 * INCH, 4 * INCH))) == 7 * INCH
    assert drawn_length(((0, 0), (3 * INCH, 4 * INCH))) == 5 * INCH, "three, four, five"
    assert drawn_length(((1, 1),)) == 0


@given(st.lists(st.tuples(*[st.integers(0, 10**10)] * 2), min_size=2, max_size=8))
def test_a_slanted_length_is_right_to_the_nanometre_for_each_part(points):
    exact = sum(hypot(b[0] - a[0], b[1] - a[1]) for a, b in pairwise(points))
    assert abs(drawn_length(points) - exact) <= (len(points) - 1) * 0.5 + 1e-4


@pytest.mark.parametrize(
    ("point", "meets"),
    [((0, 50), True), ((100, 50), True), ((50, 104), True), ((50, 5), True), ((50, 50), False), ((8, 50), False)],
)
def test_a_stretch_goes_on_at_an_edge_of_its_surface(point, meets):
    # Six inches short of it for the plates: common practice, no source.
    assert meets_edge((point[0] * INCH, point[1] * INCH), 100 * INCH, 109 * INCH) is meets
    assert meets_edge((50, 50), None, 109), "one not measured has no known edge"


def test_a_stretch_that_goes_on_before_the_edge_is_named_on_both_surfaces():
    sizes = {1: (100 * INCH, 109 * INCH), 2: (257 * INCH, 161 * INCH)}
    up = ((20 * INCH, 60 * INCH), (20 * INCH, 108 * INCH))
    short = ((20 * INCH, 60 * INCH), (20 * INCH, 80 * INCH))
    over, inside = ((257 * INCH, 20 * INCH), (90 * INCH, 20 * INCH)), ((90 * INCH, 20 * INCH), (50 * INCH, 20 * INCH))

    def found(first, second):
        return gaps((Stretch(10, points=first), Stretch(11, None, None, 10, 2, second)), sizes)

    assert found(up, over) == ()
    assert found(short, over) == (10,)
    assert found(up, inside) == (11,)
    assert found(short, inside) == (10, 11)
    assert gaps((Stretch(10, points=short), Stretch(11, None, None, 10, 1, short)), sizes) == (), "of one surface"
    assert gaps((Stretch(11, None, None, 10, 2, inside),), sizes) == (), "goes on from nothing of this line"


def test_a_run_begins_near_its_box_and_a_wide_one_reaches_further():
    # One stud bay of 16 in: common practice, no source.
    assert is_near((16 * INCH, 0), 0, 0, None)
    assert not is_near((17 * INCH, 0), 0, 0, None)
    assert is_near((17 * INCH, 0), 0, 0, 14 * INCH)
    assert is_near((17 * INCH, 0), None, 0, None), "without offsets it may be anywhere"
