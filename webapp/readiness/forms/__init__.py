"""Reading the forms at the gate, and of what came past it."""

from webapp.readiness.forms.gate import (
    ClosingForm,
    read_closing,
    read_done_day,
    read_finishing,
    read_letting,
    read_task_wait,
    read_visit_wait,
)
from webapp.readiness.forms.mistaken import CostForm, read_cost, read_mistake, read_step
from webapp.readiness.forms.order import read_move

__all__ = [
    "ClosingForm",
    "CostForm",
    "read_closing",
    "read_cost",
    "read_done_day",
    "read_finishing",
    "read_letting",
    "read_mistake",
    "read_move",
    "read_step",
    "read_task_wait",
    "read_visit_wait",
]
