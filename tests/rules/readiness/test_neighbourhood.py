"""The drawn needs of any small graph: all joined, nothing on top of anything, nothing left out without a count.

Which needs follow from others is taken from networkx (`transitive_reduction`), a general-purpose library for graphs.
"""

import re
from datetime import date, timedelta
from itertools import combinations, pairwise

import networkx as nx
from hypothesis import given
from hypothesis import strategies as st

from webapp.readiness.rules.boxes import LETTER, MOST_LINES, WIDTH
from webapp.readiness.rules.neighbourhood import MOST_ROWS_UP, ROW, Drawing, drawn
from webapp.readiness.rules.network import Link, Network, Node, WaitsFor

TODAY = date(2026, 5, 16)
ASKED = "task:0"
TITLES = st.text(alphabet="abcdefghijklmnopqrstuvwxyz-, ", min_size=1, max_size=70).map(lambda words: f"T{words}")


@st.composite
def networks(draw: st.DrawFn, *, circles: bool = False) -> Network:
    """Up to eleven things in any order of need; some done with a wait still running, some needs only wishes."""
    size = draw(st.integers(1, 11))
    asked = draw(st.integers(0, size - 1))
    names = {place: f"task:{(place - asked) % size}" for place in range(size)}
    nodes = [
        Node(
            names[place],
            draw(st.sampled_from(("task", "cover", "question"))),
            draw(TITLES),
            settled=place != asked and draw(st.integers(0, 5)) == 0,
            settled_on=TODAY,
            waits_for=draw(st.sampled_from(WaitsFor)),
            rank=draw(st.integers(0, 3)),
            ready_says=draw(st.sampled_from(("", "Go on"))),
        )
        for place in range(size)
    ]
    pairs = [(waiter, needs) for waiter in range(size) for needs in range(size) if waiter < needs or circles]
    chosen = draw(st.lists(st.sampled_from(pairs), unique=True, max_size=24)) if pairs else []
    links = [
        Link(names[waiter], names[needs], draw(st.booleans()), draw(st.sampled_from((0, 0, 3))))
        for waiter, needs in chosen
        if waiter != needs
    ]
    return Network(nodes, links, TODAY)


def chain_of(length: int) -> Network:
    """The asked thing needs all others, and each of them the next."""
    keys = [f"task:{number}" for number in range(length + 1)]
    links = [Link(waiter, needs) for waiter, needs in combinations(keys, 2)]
    return Network([Node(key, "task", f"Step {key[5:]}") for key in keys], links, TODAY)


def counted(drawing: Drawing, *, below: bool) -> int:
    """What the boxes that only count say in sum, above or below the asked thing."""
    asked = next(box for box in drawing.boxes if box.key == ASKED)
    counts = [box for box in drawing.boxes if box.key.startswith("count:") and (box.y > asked.y) == below]
    for box in counts:
        assert re.fullmatch(r"\d+ more", " ".join(text.words for text in box.texts))
    return sum(int(box.texts[0].words.split()[0]) for box in counts)


def assert_all_joined(drawing: Drawing) -> None:
    """Every arrow goes down between two drawn boxes; by them every box above leads to the asked one, and it to those
    below."""
    at = {box.key: box for box in drawing.boxes}
    ways = nx.DiGraph([(arrow.needs, arrow.waiter) for arrow in drawing.arrows])
    ways.add_node(ASKED)
    assert all(at[arrow.needs].bottom < at[arrow.waiter].y for arrow in drawing.arrows)
    above = {box.key for box in drawing.boxes if box.y < at[ASKED].y}
    assert nx.ancestors(ways, ASKED) == above
    assert nx.descendants(ways, ASKED) == set(at) - above - {ASKED}


def assert_on_the_sheet(drawing: Drawing) -> None:
    """Boxes and words lie inside the drawing, no two boxes overlap, no row has more than it may."""
    for box in drawing.boxes:
        assert box.x > 0 and box.x + box.width < WIDTH and box.y > 0 and box.bottom < drawing.height
        assert all(len(text.words) * LETTER <= box.width for text in box.texts)
        assert all(box.y < text.y - 13 and text.y + 5 < box.bottom for text in box.texts)
        assert sum(not text.quiet for text in box.texts) <= MOST_LINES
        assert sum(other.y == box.y for other in drawing.boxes) <= ROW
    for one, other in combinations(drawing.boxes, 2):
        apart = one.x + one.width < other.x or other.x + other.width < one.x
        assert apart or one.bottom < other.y or other.bottom < one.y


def corners(path: str) -> list[tuple[int, int]]:
    """Where a line of level and upright strokes turns."""
    x = y = 0
    found = []
    for stroke, figures in re.findall(r"([MHVv])([\d ]+)", path):
        if stroke == "M":
            x, y = (int(figure) for figure in figures.split())
        elif stroke == "H":
            x = int(figures)
        else:
            y = int(figures) + (y if stroke == "v" else 0)
        found.append((x, y))
    return found


def assert_lines_clear_of_boxes(drawing: Drawing) -> None:
    """A line runs beside boxes, never through one, and ends above its waiter."""
    at = {box.key: box for box in drawing.boxes}
    for arrow in drawing.arrows:
        turns = corners(arrow.path)
        assert turns[0][1] == at[arrow.needs].bottom
        assert turns[-1] == (at[arrow.waiter].middle, at[arrow.waiter].y - 9)
        for (x1, y1), (x2, y2) in pairwise(turns):
            assert min(x1, x2) > 0 and max(x1, x2) < WIDTH
            for box in drawing.boxes:
                beside = max(x1, x2) < box.x or min(x1, x2) > box.x + box.width
                assert beside or max(y1, y2) <= box.y or min(y1, y2) >= box.bottom


@given(networks(), st.booleans())
def test_every_box_is_joined_and_leads_down_to_the_asked_thing(network, hold_point):
    assert_all_joined(drawn(network, ASKED, hold_point))


@given(networks(), st.booleans())
def test_boxes_and_words_lie_on_the_sheet_and_not_on_each_other(network, hold_point):
    assert_on_the_sheet(drawn(network, ASKED, hold_point))


@given(networks())
def test_no_line_runs_through_a_box(network):
    assert_lines_clear_of_boxes(drawn(network, ASKED, hold_point=False))


@given(networks())
def test_the_counts_say_exactly_how_many_needs_are_not_named(network):
    drawing, around = drawn(network, ASKED, hold_point=False), network.around(ASKED)
    needs = nx.DiGraph([(link.waiter, link.needs) for link in around.links if around.level[link.waiter] <= 0])
    named = {box.key for box in drawing.boxes}
    direct = [needed for waiter, needed in nx.transitive_reduction(needs).edges if waiter in named]
    assert counted(drawing, below=False) == len(set(direct) - named)
    freed = {link.waiter for link in around.links if link.needs == ASKED}
    assert counted(drawing, below=True) == len(freed - named)


@given(networks(circles=True))
def test_things_that_need_each_other_in_a_circle_are_drawn_as_soundly(network):
    drawing = drawn(network, ASKED, hold_point=False)
    assert_all_joined(drawing)
    assert_on_the_sheet(drawing)
    assert_lines_clear_of_boxes(drawing)


def test_what_lies_beyond_the_topmost_row_is_counted_above_it():
    drawing = drawn(chain_of(MOST_ROWS_UP + 2), ASKED, hold_point=False)
    assert_all_joined(drawing)
    assert counted(drawing, below=False) == 1
    assert drawing.boxes[0].key.startswith("count:")


def test_a_wish_and_what_is_freed_are_dashed_and_what_was_asked_is_drawn_heaviest():
    nodes = [
        Node(ASKED, "task", "Board"),
        Node("a", "shot", "Shot"),
        Node("b", "task", "Lift"),
        Node("c", "task", "Mud"),
    ]
    links = [Link(ASKED, "a", hard=False), Link(ASKED, "b"), Link("c", ASKED)]
    drawing = drawn(Network(nodes, links, TODAY), ASKED, hold_point=True)
    assert {(arrow.needs, arrow.dashed) for arrow in drawing.arrows} == {("a", True), ("b", False), (ASKED, True)}
    assert [(box.pen, box.dashed) for box in drawing.boxes if box.key in {ASKED, "c"}] == [("l4", False), ("l2", True)]
    assert [text.words for box in drawing.boxes if box.key == ASKED for text in box.texts] == ["Board", "hold point"]


def test_a_running_wait_is_called_drying_and_what_can_start_says_so():
    nodes = [
        Node(ASKED, "task", "Mud"),
        Node("a", "task", "Pour", settled=True, settled_on=TODAY),
        Node("b", "task", "Mix"),
    ]
    links = [Link(ASKED, "a", lag_days=7), Link(ASKED, "b")]
    later = [
        text.words
        for box in drawn(Network(nodes, links, TODAY + timedelta(days=6)), ASKED, False).boxes
        for text in box.texts
    ]
    assert later[:4] == ["Pour", "drying", "Mix", "start now"]
