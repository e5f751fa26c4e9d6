"""Where a task can go from where it stands, and what a new order breaks."""

from datetime import date

import pytest

from webapp.plan.rules.moves import shifted, too_early, why_not_finish, why_not_reopen, why_not_start

FRIDAY = date(2026, 5, 15)
SATURDAY = date(2026, 5, 16)


@pytest.mark.parametrize("state", ["not started", "reopened"])
def test_what_is_open_can_be_started(state):
    assert why_not_start("Duct", state) == ""


def test_a_task_is_not_started_twice():
    assert why_not_start("Duct", "under way") == "“Duct” is under way already."
    assert why_not_start("Duct", "done") == "“Duct” is done. Reopen it if there is more to do."


@pytest.mark.parametrize("state", ["not started", "under way", "reopened"])
def test_a_short_task_can_be_done_without_ever_being_started(state):
    assert why_not_finish("Duct", state, None, SATURDAY) == ""


def test_nothing_is_done_before_it_was_started():
    assert "started on 16 May 2026" in why_not_finish("Duct", "under way", SATURDAY, FRIDAY)
    assert why_not_finish("Duct", "under way", SATURDAY, SATURDAY) == ""


def test_nothing_is_done_twice():
    assert why_not_finish("Duct", "done", None, SATURDAY) == "“Duct” is done already."


def test_reopening_needs_a_done_task_and_a_reason():
    assert why_not_reopen("Duct", "done", "the sleeve leaks") == ""
    assert why_not_reopen("Duct", "done", "  ").startswith("Say why")
    assert "nothing to reopen" in why_not_reopen("Duct", "under way", "the sleeve leaks")


def test_a_move_at_the_end_of_the_list_changes_nothing():
    assert shifted((7, 8, 9), 7, -1) == (7, 8, 9)
    assert shifted((7, 8, 9), 9, 1) == (7, 8, 9)
    assert shifted((7, 8, 9), 8, -1) == (8, 7, 9)
    assert shifted((7, 8, 9), 8, 1) == (7, 9, 8)


def test_every_task_that_stands_before_what_it_needs_is_named():
    assert too_early((1, 2, 3), ((2, 1), (1, 3), (2, 3))) == ((1, 3), (2, 3))
    assert too_early((3, 1, 2), ((2, 1), (1, 3), (2, 3))) == ()
