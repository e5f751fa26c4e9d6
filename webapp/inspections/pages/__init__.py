"""What the sheets of permits, inspections, visits, results and corrections show."""

from webapp.inspections.pages.calendar import calendar_of, calendar_page
from webapp.inspections.pages.changes import change_page, changes_page
from webapp.inspections.pages.changing import any_page, moved_page, read_ground, where_page
from webapp.inspections.pages.corrections import correction_page
from webapp.inspections.pages.extensions import extension_page, rules_end
from webapp.inspections.pages.fees import fee_page, fees_page
from webapp.inspections.pages.inspections import inspection_form_page, inspection_page, inspections_page
from webapp.inspections.pages.offices import office_page, offices_page
from webapp.inspections.pages.permit_facts import permit_facts_page
from webapp.inspections.pages.permits import permit_page, permits_page
from webapp.inspections.pages.results import result_page
from webapp.inspections.pages.visits import visit_context, visit_page

__all__ = [
    "any_page",
    "calendar_of",
    "calendar_page",
    "change_page",
    "changes_page",
    "correction_page",
    "extension_page",
    "fee_page",
    "fees_page",
    "inspection_form_page",
    "inspection_page",
    "inspections_page",
    "moved_page",
    "office_page",
    "offices_page",
    "permit_facts_page",
    "permit_page",
    "permits_page",
    "read_ground",
    "result_page",
    "rules_end",
    "visit_context",
    "visit_page",
    "where_page",
]
