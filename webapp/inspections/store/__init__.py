"""Reading permits, inspections and what came of them."""

from webapp.inspections.store.changes import (
    list_correction_changes,
    list_inspection_changes,
    list_permit_changes,
    list_visit_changes,
)
from webapp.inspections.store.lists import (
    get_asked,
    get_correction,
    get_fee,
    get_inspection,
    get_inspection_by_id,
    get_result,
    get_visit,
    last_correction_number,
    list_asked,
    list_corrections,
    list_corrections_of,
    list_fees,
    list_inspections,
    list_results,
    list_results_of,
    list_visits,
)
from webapp.inspections.store.offered import Offer, Offered, asks, offered_for_any, offered_for_move
from webapp.inspections.store.offices import get_office, list_closed_days, list_offices, read_offices
from webapp.inspections.store.permits import get_permit, list_permits
from webapp.inspections.store.plan_changes import (
    get_plan_change,
    list_plan_change_history,
    list_plan_changes,
    list_reopened,
)

__all__ = [
    "Offer",
    "Offered",
    "asks",
    "get_asked",
    "get_correction",
    "get_fee",
    "get_inspection",
    "get_inspection_by_id",
    "get_office",
    "get_permit",
    "get_plan_change",
    "get_result",
    "get_visit",
    "last_correction_number",
    "list_asked",
    "list_closed_days",
    "list_correction_changes",
    "list_corrections",
    "list_corrections_of",
    "list_fees",
    "list_inspection_changes",
    "list_inspections",
    "list_offices",
    "list_permit_changes",
    "list_permits",
    "list_plan_change_history",
    "list_plan_changes",
    "list_reopened",
    "list_results",
    "list_results_of",
    "list_visit_changes",
    "list_visits",
    "offered_for_any",
    "offered_for_move",
    "read_offices",
]
