"""Two versions of one thing: ticked on a phone without signal, un-ticked meanwhile. The builder chooses."""

from collections.abc import Iterable
from datetime import datetime

from sqlmodel import Session

from webapp.core import clock
from webapp.core.once import Seen
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import TaskFacts, task_history
from webapp.readiness.store import Site
from webapp.values.dates import show_moment
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict, Way

HEADING = "Ticked here, un-ticked meanwhile"


def _other_side(session: Session, task: TaskFacts, known_at: datetime) -> Reason | None:
    """Why the task was reopened after what the phone knew; None when it was not, or was finished again since."""
    for change in task_history(session, task.id):
        if clock.in_utc(change.at) <= known_at or change.became == TaskState.DONE:
            return None
        if change.became == TaskState.REOPENED:
            when = show_moment(clock.in_utc(change.at).astimezone())
            return Reason(f"“{task.title}” was un-ticked {when}", change.why)
    return None


def refuse_clash(session: Session, site: Site, finished: Iterable[int], seen: Seen | None) -> None:
    """Raises RuleBroken with both sides when one of the tasks ticked here was un-ticked after what the phone knew."""
    if seen is None:
        return
    tasks = [site.record.task[number] for number in finished]
    found = [(task, reason) for task in tasks if (reason := _other_side(session, task, seen.at)) is not None]
    if not found:
        return
    numbers = " ".join(str(task.id) for task, _ in found)
    here = f"Here it was ticked {show_moment(seen.recorded)}, without knowing that."
    raise RuleBroken(
        Verdict(tuple(Reason(f"{reason.sentence}: {reason.detail}.", here) for _, reason in found)),
        HEADING,
        tuple(Way(f"Look at “{task.title}”", f"{site.build.base}/tasks/{task.id}") for task, _ in found),
        answers=(
            ("said_here", numbers, "Finished, as ticked here"),
            ("not_finished", numbers, "Not finished; only worked on"),
        ),
    )
