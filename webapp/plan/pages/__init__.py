"""What the templates of the plan receive."""

from webapp.plan.pages.builds import builds_page
from webapp.plan.pages.circle import circle_page
from webapp.plan.pages.lots import lot_choices, lot_page
from webapp.plan.pages.needs import needs_page
from webapp.plan.pages.own_words import own_words_page
from webapp.plan.pages.phases import phase_edit_page, phase_page, phases_page
from webapp.plan.pages.tasks import task_edit_page, task_page

__all__ = [
    "builds_page",
    "circle_page",
    "lot_choices",
    "lot_page",
    "needs_page",
    "own_words_page",
    "phase_edit_page",
    "phase_page",
    "phases_page",
    "task_edit_page",
    "task_page",
]
