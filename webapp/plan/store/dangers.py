"""Which tasks are no work for one alone."""

from collections.abc import Mapping

from sqlalchemy import select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.plan.models import Task, TaskDanger
from webapp.plan.rules.dangers import Danger, in_order


@kept_list
def dangers_of(session: Session, build_id: int) -> Mapping[int, tuple[Danger, ...]]:
    """By task, what was ticked, in the order it is offered; tasks without any are left out."""
    wanted = (
        select(col(TaskDanger.task_id), col(TaskDanger.danger))
        .join(Task, col(Task.id) == col(TaskDanger.task_id))
        .where(col(Task.build_id) == build_id)
    )
    found: dict[int, list[str]] = {}
    for task_id, danger in rows(session, wanted):
        found.setdefault(task_id, []).append(danger)
    return {task_id: in_order(dangers) for task_id, dangers in found.items()}
