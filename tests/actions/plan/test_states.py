"""A task started, done, reopened: each change leaves a line with what was before."""

from datetime import date

import pytest

from tests import builders
from webapp.plan import actions, store
from webapp.values.errors import NotFound, RuleBroken

MONDAY, FRIDAY, SATURDAY = date(2026, 5, 11), date(2026, 5, 15), date(2026, 5, 16)


@pytest.fixture
def task(session):
    return builders.a_task(session, builders.a_phase(session, builders.a_build(session)), "Extractor duct")


def lines(session, task):
    return [(line.was, line.became, line.on_day, line.why) for line in store.task_history(session, task.row_id)]


def test_every_change_is_kept_the_latest_first(session, task):
    actions.start_task(session, task.row_id, MONDAY)
    actions.finish(session, task.row_id, FRIDAY)
    actions.reopen_task(session, task.row_id, SATURDAY, "  the sleeve leaks ")
    assert lines(session, task) == [
        ("done on 15 May 2026", "reopened", SATURDAY, "the sleeve leaks"),
        ("under way", "done", FRIDAY, ""),
        ("not started", "under way", MONDAY, ""),
    ]
    assert (task.state, task.started_on, task.done_on) == ("reopened", MONDAY, None)


def test_starting_again_keeps_the_first_day(session, task):
    actions.start_task(session, task.row_id, MONDAY)
    actions.finish(session, task.row_id, MONDAY)
    actions.reopen_task(session, task.row_id, FRIDAY, "one clamp is missing")
    actions.start_task(session, task.row_id, SATURDAY)
    assert (task.state, task.started_on) == ("under way", MONDAY)
    assert lines(session, task)[0] == ("reopened", "under way", SATURDAY, "")


def test_a_task_done_in_one_evening_was_started_that_day(session, task):
    actions.finish(session, task.row_id, FRIDAY)
    assert (task.started_on, task.done_on) == (FRIDAY, FRIDAY)


@pytest.mark.parametrize("verb", [actions.start_task, actions.finish])
def test_a_done_task_is_neither_started_nor_done_again(session, task, verb):
    actions.finish(session, task.row_id, FRIDAY)
    with pytest.raises(RuleBroken, match="is done"):
        verb(session, task.row_id, SATURDAY)
    assert len(lines(session, task)) == 1


def test_reopening_without_a_reason_is_refused_and_nothing_changes(session, task):
    actions.finish(session, task.row_id, FRIDAY)
    with pytest.raises(RuleBroken, match="Say why"):
        actions.reopen_task(session, task.row_id, SATURDAY, " ")
    assert (task.state, task.done_on) == ("done", FRIDAY)


def test_days_put_right_keep_what_they_were(session, task):
    actions.finish(session, task.row_id, FRIDAY)
    actions.correct_days(session, task.row_id, MONDAY, FRIDAY)
    assert lines(session, task)[0][:2] == (
        "started 15 May 2026, done 15 May 2026",
        "started 11 May 2026, done 15 May 2026",
    )
    actions.correct_days(session, task.row_id, MONDAY, FRIDAY)
    assert len(lines(session, task)) == 2


def test_a_task_that_is_not_there_is_said_so(session):
    with pytest.raises(NotFound, match="no such task"):
        actions.start_task(session, 999, MONDAY)
