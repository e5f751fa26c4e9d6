"""The graph of needs in the words of one wall: order, circles, and what lies up and down the line."""

import pytest

from webapp.plan.rules.graph import Link, Loop, Reach, any_loop, downstream, in_order, loop_with, upstream

ROUGH, VISIT, BATTS, BOARD, MUD = "task:rough", "inspection:1@7", "task:batts", "task:board", "task:mud"
WALL = (Link(VISIT, ROUGH), Link(BATTS, VISIT), Link(BOARD, BATTS), Link(MUD, BOARD))


def test_a_link_that_goes_round_is_refused_with_the_whole_circle_from_its_waiter_on():
    assert loop_with(WALL, Link(ROUGH, BOARD)) == (ROUGH, BOARD, BATTS, VISIT)


def test_the_circle_named_is_the_shortest_one():
    links = (*WALL, Link(BOARD, ROUGH))
    assert loop_with(links, Link(ROUGH, BOARD)) == (ROUGH, BOARD)


@pytest.mark.parametrize("turn", [1, -1])
def test_the_shortest_circle_is_named_whichever_link_was_typed_first(turn):
    links = (*WALL, Link(BOARD, "goods:9"), Link("goods:9", ROUGH))[::turn]
    assert loop_with(links, Link(ROUGH, BOARD)) == (ROUGH, BOARD, "goods:9")


def test_nothing_may_need_itself():
    assert loop_with(WALL, Link(MUD, MUD)) == (MUD,)


def test_a_wish_can_close_a_circle_too():
    links = (Link(BOARD, BATTS, hard=False),)
    assert loop_with(links, Link(BATTS, BOARD, hard=False)) == (BATTS, BOARD)


def test_a_link_that_only_repeats_the_order_is_welcome():
    assert loop_with(WALL, Link(MUD, ROUGH)) is None
    assert loop_with((), Link(MUD, ROUGH)) is None


def test_a_circle_already_there_is_found_although_other_things_hang_on_it():
    links = (Link("tape", "paint"), Link("board", "tape"), Link("batts", "board"), Link("tape", "batts"))
    circle = any_loop((*links, Link("paint", "primer"), Link("trim", "tape")))
    assert circle is not None
    assert sorted(circle) == ["batts", "board", "tape"]
    assert any_loop(links[:3]) is None


def test_a_loop_says_in_words_who_needs_whom():
    assert str(Loop(("a", "b", "c"))) == "These need each other in a circle: a needs b needs c needs a."


def test_order_puts_needs_first_and_otherwise_keeps_the_order_given():
    keys = ("shelf", MUD, BOARD, "lamp", BATTS, VISIT, ROUGH)
    assert in_order(keys, WALL) == ("shelf", "lamp", ROUGH, VISIT, BATTS, BOARD, MUD)


def test_rank_decides_between_things_that_are_free_to_come_first():
    ranks = {"north": 3, "south": 1, "east": 2}
    assert in_order(("north", "south", "east"), (), ranks) == ("south", "east", "north")
    assert in_order(("north", "south", "east"), (Link("south", "north"),), ranks) == (
        "east",
        "north",
        "south",
    )


def test_a_need_through_a_third_thing_still_decides_the_order():
    assert in_order((BATTS, ROUGH), WALL) == (ROUGH, BATTS)
    assert in_order((BATTS, "shelf"), WALL) == (BATTS, "shelf"), "keys left out must not push others back"


def test_order_of_a_circle_is_refused_with_the_circle():
    with pytest.raises(Loop) as caught:
        in_order((ROUGH, BOARD), (*WALL, Link(ROUGH, BOARD)))
    assert sorted(caught.value.keys) == sorted((ROUGH, BOARD, BATTS, VISIT))


def test_up_and_down_the_line_from_the_batts():
    assert upstream(BATTS, WALL) == {ROUGH, VISIT}
    assert downstream(BATTS, WALL) == {BOARD, MUD}
    assert upstream("task:unknown", WALL) == frozenset()


def test_a_chain_longer_than_the_interpreters_own_limit_is_walked():
    chain = [Link(f"t{n + 1}", f"t{n}") for n in range(5_000)]
    assert len(upstream("t5000", chain)) == 5_000
    assert in_order(["t5000", "t0"], chain) == ("t0", "t5000")
    assert any_loop(chain) is None
    assert len(any_loop([*chain, Link("t0", "t5000")]) or ()) == 5_001
    assert len(loop_with(chain, Link("t0", "t5000")) or ()) == 5_001


def test_reach_knows_the_things_that_need_themselves_through_others():
    rough, visit, batts, board, mud, shelf = range(6)
    reach = Reach([[visit], [batts], [board], [mud, batts], [], []])
    assert reach.circular == {batts, board}
    assert reach.downstream(rough) == reach.of([visit])
    assert reach.downstream(rough).bit_count() == 4
    assert reach.downstream(mud) == reach.downstream(shelf) == 0
