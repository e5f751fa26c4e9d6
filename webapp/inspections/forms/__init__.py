"""What the forms of permits, inspections, visits, results and corrections send."""

from webapp.inspections.forms.booking import read_booking
from webapp.inspections.forms.changing import (
    Ground,
    Where,
    read_answer,
    read_any,
    read_moved,
    read_right,
    read_where,
)
from webapp.inspections.forms.lists import inspection_state, permit_state, read_inspection, read_permit
from webapp.inspections.forms.results import read_changed_result, read_withdrawal
from webapp.inspections.forms.steps import (
    CorrectionWords,
    Step,
    correction_state,
    read_asked,
    read_correction_words,
    read_payment,
    read_step,
)
from webapp.inspections.forms.visits import BLOCKS, read_not_ready, read_right_day, read_visit

__all__ = [
    "BLOCKS",
    "CorrectionWords",
    "Ground",
    "Step",
    "Where",
    "correction_state",
    "inspection_state",
    "permit_state",
    "read_answer",
    "read_any",
    "read_asked",
    "read_booking",
    "read_changed_result",
    "read_correction_words",
    "read_inspection",
    "read_moved",
    "read_not_ready",
    "read_payment",
    "read_permit",
    "read_right",
    "read_right_day",
    "read_step",
    "read_visit",
    "read_where",
    "read_withdrawal",
]
