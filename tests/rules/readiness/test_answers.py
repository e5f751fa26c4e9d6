"""The graph's answers in the builder's words."""

from dataclasses import replace
from datetime import date, timedelta

import pytest

from webapp.readiness.rules.answers import cover_answer, freed, stops_sentence, whom_sentence
from webapp.readiness.rules.network import Link, Network, Node, Root, Unmet, WaitsFor

TODAY = date(2026, 5, 16)
COVER = Node("cover:7", "cover", "East wall")


def east_wall(hard: int, wishes: int, *, covered: bool = False) -> Network:
    stops = [Node(f"correction:{n}", "correction", f"Correction {n}") for n in range(hard)]
    wanted = [Node(f"pictures:{n}", "picture", f"Picture {n}", skippable=True) for n in range(wishes)]
    links = [Link(COVER.key, node.key) for node in stops]
    links += [Link(COVER.key, node.key, hard=False) for node in wanted]
    return Network((*stops, *wanted, replace(COVER, settled=covered)), links, TODAY)


def roots(*whom: WaitsFor) -> list[Root]:
    return [Root(Node(f"task:{n}", "task", ""), one, None, (), 0) for n, one in enumerate(whom)]


@pytest.mark.parametrize(
    ("hard", "wishes", "sentence"),
    [
        (2, 3, "East wall: 5 owed, 2 of them hard stops."),
        (1, 3, "East wall: 4 owed, 1 of them a hard stop."),
        (1, 0, "East wall: 1 owed, a hard stop."),
        (2, 0, "East wall: 2 owed, both hard stops."),
        (3, 0, "East wall: 3 owed, all hard stops."),
        (0, 1, "East wall: no hard stop, one wish open."),
        (0, 3, "East wall: no hard stop, three wishes open."),
        (0, 0, "East wall: nothing owed."),
    ],
)
def test_the_cover_answer_counts_what_is_owed_and_keeps_wishes_apart(hard, wishes, sentence):
    answer = cover_answer(east_wall(hard, wishes), COVER.key, "East wall")
    assert answer.sentence == sentence
    assert answer.may_be_covered == (hard == 0)
    assert (len(answer.stops), len(answer.wishes)) == (hard, wishes)


def test_a_covered_wall_still_says_what_was_taken_back():
    answer = cover_answer(east_wall(1, 0, covered=True), COVER.key, "East wall")
    assert answer.sentence == "East wall: covered, 1 owed, a hard stop."
    assert not answer.may_be_covered


@pytest.mark.parametrize(
    ("whom", "note"),
    [
        ((), "none"),
        ((WaitsFor.ME,), "1, mine"),
        ((WaitsFor.ME, WaitsFor.ME), "2, both mine"),
        ((WaitsFor.INSPECTOR,) * 3, "3, all the inspector’s"),
        ((WaitsFor.SUPPLIER, WaitsFor.ME, WaitsFor.ME), "3: 2 mine, 1 the supplier’s"),
    ],
)
def test_the_short_note_says_how_many_and_whose(whom, note):
    assert whom_sentence(roots(*whom)) == note


def test_a_direct_need_whose_wait_runs_counts_as_drying():
    pour = Node("task:1", "task", "Pour", settled=True, settled_on=TODAY)
    assert whom_sentence([Unmet(pour, True, "", TODAY + timedelta(days=7), True)]) == "1, drying"


@pytest.mark.parametrize(
    ("whom", "lede"),
    [
        ((), "Nothing stops it."),
        ((WaitsFor.ME,), "One thing. You can start it today."),
        ((WaitsFor.DRYING,), "One thing. It waits for drying."),
        ((WaitsFor.ME,) * 2, "Two things. You can start both today."),
        ((WaitsFor.ME,) * 13, "13 things. You can start all of them today."),
        ((WaitsFor.SUPPLIER, WaitsFor.INSPECTOR), "Two things. Both wait for the inspector and the supplier."),
        ((WaitsFor.MONEY,) * 3, "Three things. All of them wait for money."),
        (
            (WaitsFor.ME,) * 3 + (WaitsFor.INSPECTOR, WaitsFor.SUPPLIER, WaitsFor.HELPER),
            "Six things. Three of them you can start today.",
        ),
    ],
)
def test_the_lede_says_how_many_things_and_how_many_are_for_today(whom, lede):
    assert stops_sentence(roots(*whom)) == lede


def test_freed_names_tasks_and_covers_that_opened_and_nothing_that_is_merely_new():
    visit, board = Node("inspection:3@7", "inspection", "Visit"), Node("task:8", "task", "Board")
    shot, new = Node("shot:9", "shot", "Shot"), Node("task:10", "task", "New")
    links = [Link(COVER.key, visit.key), Link(shot.key, visit.key), Link(board.key, COVER.key)]
    before = Network((visit, COVER, board, shot), links, TODAY)
    passed = replace(visit, settled=True, settled_on=TODAY)
    after = Network((passed, COVER, board, shot, new), links, TODAY)
    assert freed(before, after) == (COVER,)
    assert freed(after, after) == ()


def test_freed_leaves_out_what_was_settled_and_taken_back():
    done = replace(COVER, settled=True)
    assert freed(Network((done,), (), TODAY), Network((COVER,), (), TODAY)) == ()


def test_freed_knows_that_a_wait_ran_out_overnight():
    pour = Node("task:1", "task", "Pour", settled=True, settled_on=TODAY)
    build = Node("task:2", "task", "Plates")
    links = [Link(build.key, pour.key, lag_days=1)]
    before, after = (Network((pour, build), links, TODAY + timedelta(days=days)) for days in (0, 1))
    assert freed(before, after) == (build,)
