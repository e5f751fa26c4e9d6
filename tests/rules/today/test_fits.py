"""What fits the hours, the hands and the weather; and the line to the next visit."""

from datetime import date

import pytest

from webapp.readiness.rules.network import Node, Root, WaitsFor
from webapp.today.rules.appointment import LEFT, RIGHT, dimension
from webapp.today.rules.fits import A_DAY, Chance, first_step, fits, in_hand


def node(key="task:1", **more) -> Node:
    return Node(key, "task", "Job", **more)


def root(key, holds_up=0, **more) -> Root:
    waits_for = more.pop("waits_for", WaitsFor.ME)
    return Root(node(key, **more), waits_for, None, (), holds_up)


@pytest.mark.parametrize(
    ("task", "chance", "fit"),
    [
        (node(minutes=120), Chance(120), True),
        (node(minutes=121), Chance(120), False),
        (node(minutes=None), Chance(60), True),
        (node(minutes=400, started=True), Chance(60), True),
        (node(minutes=400, started=True, one_go=True), Chance(60), False),
        (node(minutes=900), Chance(A_DAY), True),
        (node(minutes=900, one_go=True), Chance(A_DAY), False),
        (node(minutes=60, hands=2), Chance(120), False),
        (node(minutes=60, hands=2), Chance(120, helper=True), True),
        (node(minutes=60, who="helper"), Chance(120), False),
        (node(minutes=60, who="hired"), Chance(A_DAY, helper=True), False),
        (node(minutes=60, weather="dry"), Chance(120, dry=False), False),
    ],
)
def test_what_fits(task, chance, fit):
    assert fits(task, chance) is fit


def test_under_way_comes_first_then_what_holds_up_most():
    roots = [
        root("task:1", 1),
        root("task:2", 9),
        root("task:3", started=True),
        root("task:4", waits_for=WaitsFor.HIRED),
    ]
    assert [one.node.key for one in in_hand(roots, Chance())] == ["task:3", "task:2", "task:1"]


def test_the_first_step_is_under_two_hours_and_of_known_length_if_there_is_one():
    roots = [root("task:1", 9, minutes=180), root("task:2", 5), root("task:3", 1, minutes=90)]
    assert first_step(roots).node.key == "task:3"
    assert first_step(roots[:2]).node.key == "task:2"
    assert first_step(roots[:1]) is None


def test_the_line_to_a_visit_keeps_room_for_its_words():
    today, visit = date(2026, 5, 16), date(2026, 5, 19)
    line = dimension(today, date(2026, 5, 18), visit)
    assert (line.first, line.second) == ("2 days to ask", "1 day")
    assert LEFT < line.first_middle < line.ask_x < line.second_middle < RIGHT
    assert dimension(today, today, visit).first == "ask today"
    assert dimension(today, None, visit).ask_x is None
    assert dimension(visit, None, visit).first == "today"
