"""What the forms of permits, inspections, visits, results and corrections send."""

from webapp.inspections.forms.advice import advice_state, read_advice, read_ended
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
from webapp.inspections.forms.extensions import extension_state, read_extension, read_extension_answer
from webapp.inspections.forms.held import read_visit
from webapp.inspections.forms.lists import inspection_state, read_inspection
from webapp.inspections.forms.offices import office_state, read_closed_day, read_office
from webapp.inspections.forms.permits import permit_state, read_permit
from webapp.inspections.forms.results import read_attached, read_changed_result, read_withdrawal
from webapp.inspections.forms.said import one_row_more
from webapp.inspections.forms.steps import (
    CorrectionWords,
    Step,
    correction_state,
    fee_state,
    read_asked,
    read_correction_words,
    read_fee_again,
    read_payment,
    read_step,
)
from webapp.inspections.forms.visits import read_not_ready, read_right_day

__all__ = [
    "CorrectionWords",
    "Ground",
    "Step",
    "Where",
    "advice_state",
    "correction_state",
    "extension_state",
    "fee_state",
    "inspection_state",
    "office_state",
    "one_row_more",
    "permit_state",
    "read_advice",
    "read_answer",
    "read_any",
    "read_asked",
    "read_attached",
    "read_booking",
    "read_changed_result",
    "read_closed_day",
    "read_correction_words",
    "read_ended",
    "read_extension",
    "read_extension_answer",
    "read_fee_again",
    "read_inspection",
    "read_moved",
    "read_not_ready",
    "read_office",
    "read_payment",
    "read_permit",
    "read_right",
    "read_right_day",
    "read_step",
    "read_visit",
    "read_where",
    "read_withdrawal",
]
