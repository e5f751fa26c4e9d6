"""The gate: a surface is closed, a task that closes one finished, an owed thing let go; and what came past it."""

from webapp.readiness.actions.clash import refuse_clash
from webapp.readiness.actions.gate import (
    Letting,
    add_wait,
    close_surface,
    correct_done_day,
    finish_task,
    let_go,
    may_close,
)
from webapp.readiness.actions.mistaken import Mistake, add_cost, cover_by_mistake, may_be_mistaken

__all__ = [
    "Letting",
    "Mistake",
    "add_cost",
    "add_wait",
    "close_surface",
    "correct_done_day",
    "cover_by_mistake",
    "finish_task",
    "let_go",
    "may_be_mistaken",
    "may_close",
    "refuse_clash",
]
