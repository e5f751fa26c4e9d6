"""Which states a task can go to, and on which day: pure answers, a refusal is a sentence."""

from datetime import date

from webapp.plan.rules.kinds import TaskState
from webapp.values.dates import show_date

MAY_START = frozenset({TaskState.NOT_STARTED, TaskState.REOPENED})


def why_not_start(title: str, state: str) -> str:
    """Empty when the task can be started."""
    if state in MAY_START:
        return ""
    if state == TaskState.UNDER_WAY:
        return f"“{title}” is under way already."
    return f"“{title}” is done. Reopen it if there is more to do."


def why_not_finish(title: str, state: str, started_on: date | None, on: date) -> str:
    """Empty when the task can be done on this day. It need not have been started: short ones never are."""
    if state == TaskState.DONE:
        return f"“{title}” is done already."
    if started_on and on < started_on:
        return f"“{title}” was started on {show_date(started_on)}; it cannot be done before that."
    return ""


def why_not_reopen(title: str, state: str, why: str) -> str:
    """Empty when the task can be reopened."""
    if state != TaskState.DONE:
        return f"“{title}” is not done, so there is nothing to reopen."
    return "" if why.strip() else "Say why it is reopened; the sentence stays with the task."


def shifted(order: tuple[int, ...], moved: int, by: int) -> tuple[int, ...]:
    """`order` with `moved` one place earlier (-1) or later (1); at the end of the list nothing changes."""
    return placed(order, moved, order.index(moved) + by)


def placed(order: tuple[int, ...], moved: int, at: int) -> tuple[int, ...]:
    """`order` with `moved` at place `at`, counted from 0; a place beyond an end is that end."""
    line = [number for number in order if number != moved]
    line.insert(min(max(at, 0), len(line)), moved)
    return tuple(line)


def too_early(order: tuple[int, ...], needs: tuple[tuple[int, int], ...]) -> tuple[tuple[int, int], ...]:
    """Pairs (waiter, needed) whose waiter stands before what it needs."""
    place = {number: at for at, number in enumerate(order)}
    return tuple((waiter, needed) for waiter, needed in needs if place[waiter] < place[needed])
