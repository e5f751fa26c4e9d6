"""What the builder does to the plan. Nothing here commits."""

from webapp.plan.actions.lots import put_on_lot
from webapp.plan.actions.needs import Circle, TypedNeed, add_need, drop_need
from webapp.plan.actions.own_words import say_own_words
from webapp.plan.actions.states import correct_days, finish, note_surfaces, reopen_task, start_task
from webapp.plan.actions.writing import (
    NewBuild,
    PlannedTask,
    add_build,
    add_phase,
    add_task,
    edit_phase,
    edit_task,
    order_phases,
    order_tasks,
)

__all__ = [
    "Circle",
    "NewBuild",
    "PlannedTask",
    "TypedNeed",
    "add_build",
    "add_need",
    "add_phase",
    "add_task",
    "correct_days",
    "drop_need",
    "edit_phase",
    "edit_task",
    "finish",
    "note_surfaces",
    "order_phases",
    "order_tasks",
    "put_on_lot",
    "reopen_task",
    "say_own_words",
    "start_task",
]
