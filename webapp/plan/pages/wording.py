"""How tasks and their lists are put in words."""

from collections.abc import Mapping
from datetime import date

from webapp.plan.rules.kinds import WORK_KINDS, LengthUnit, Strength, TaskState, Weather, Who
from webapp.plan.rules.waits import begun_unknown, running_until, wait_of
from webapp.plan.store import TaskFacts
from webapp.values.dates import show_day
from webapp.values.estimate import Estimate
from webapp.values.words import plural

Options = tuple[tuple[str, str], ...]

KINDS: Options = (("", "Choose"), *((kind, kind.capitalize()) for kind in WORK_KINDS))
WHO: Options = ((Who.SELF, "Alone"), (Who.HELPER, "With a helper"), (Who.HIRED, "Hired out"))
WEATHER: Options = ((Weather.ANY, "Any weather"), (Weather.DRY, "Dry weather only"))
STRENGTHS = (
    (Strength.HARD, "It stops this", "Nothing begins before it is done"),
    (Strength.WISH, "I would rather", "A wish: it stops nothing"),
)
UNITS: Options = (
    (LengthUnit.FEET_INCHES, "Feet and inches"),
    (LengthUnit.INCHES, "Inches"),
    (LengthUnit.MILLIMETRES, "Millimetres"),
    (LengthUnit.METRES, "Metres"),
)
WAIT_LENGTHENS = "Cold or damp makes it longer; the maker’s paper says by how much."


def estimate_words(task: TaskFacts) -> str:
    """`4 to 9 h, likely 6 h`."""
    return Estimate(task.low_min, task.likely_min, task.high_min).show()


def who_words(task: TaskFacts) -> str:
    if task.who == Who.HIRED:
        return "hired out" if task.hands < 2 else f"hired out, {task.hands} pairs of hands"
    if task.who == Who.HELPER:
        return "with a helper" if task.hands <= 2 else f"with helpers, {task.hands} pairs of hands"
    return "alone"


def task_words(task: TaskFacts) -> str:
    """`wiring, 4 to 9 h, likely 6 h, alone, dry weather only`."""
    parts = [task.kind, estimate_words(task), who_words(task)]
    if task.weather == Weather.DRY:
        parts.append("dry weather only")
    return ", ".join(parts)


def state_words(task: TaskFacts, today: date) -> str:
    """`done Fri 15 May`, `under way since Thu 14 May`."""
    if task.state == TaskState.DONE:
        return f"done {show_day(task.done_on, today)}" if task.done_on else "done"
    if task.state == TaskState.UNDER_WAY and task.started_on:
        return f"under way since {show_day(task.started_on, today)}"
    return task.state


def wait_words(task: TaskFacts, today: date, lag_days: int = 0) -> str:
    """`cure: earliest Thu 21 May` while its wait runs, `cure: begun on an unknown day`, otherwise nothing."""
    days = wait_of(task.wait_days, lag_days)
    if begun_unknown(task.state == TaskState.DONE, task.done_on, days):
        return f"{short_reason(task)}: begun on an unknown day"
    end = running_until(task.done_on, days, today)
    return f"{short_reason(task)}: earliest {show_day(end, today)}" if end else ""


def planned_wait_words(task: TaskFacts, lag_days: int = 0) -> str:
    """`7 days by themselves: cure`, or nothing where there is no wait."""
    days = wait_of(task.wait_days, lag_days)
    if not days:
        return ""
    return f"{plural(days, 'day')} by {'itself' if days == 1 else 'themselves'}: {short_reason(task)}"


def short_reason(task: TaskFacts) -> str:
    """The first words of the reason, up to a colon or comma: `cure`."""
    reason = task.wait_reason.partition(":")[0].partition(",")[0].strip()
    return reason or "wait"


def count_words(counts: Mapping[str, int]) -> str:
    """`1 under way, 4 open`; `all 9 done`; `no task yet`."""
    done = counts.get(TaskState.DONE, 0)
    under_way = counts.get(TaskState.UNDER_WAY, 0)
    to_do = sum(counts.values()) - done - under_way
    if not sum(counts.values()):
        return "no task yet"
    if done and not (under_way or to_do):
        return f"all {done} done" if done > 1 else "done"
    parts = [f"{count} {word}" for count, word in ((under_way, "under way"), (to_do, "open")) if count]
    return ", ".join(parts)
