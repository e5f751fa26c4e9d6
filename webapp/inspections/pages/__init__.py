"""What the sheets of permits, inspections, visits, results and corrections show."""

from webapp.inspections.pages.advice import advice_form_page, advice_list_page, blank_about, names_of
from webapp.inspections.pages.again import again_page, put_right_page
from webapp.inspections.pages.calendar import calendar_of, calendar_page
from webapp.inspections.pages.changes import change_page, changes_page
from webapp.inspections.pages.changing import any_page, moved_page, read_ground, where_page
from webapp.inspections.pages.corrections import correction_page
from webapp.inspections.pages.extensions import extension_page, rules_end
from webapp.inspections.pages.fees import fee_page, fees_page
from webapp.inspections.pages.history import inspection_history, surface_history
from webapp.inspections.pages.inspections import inspection_form_page, inspection_page, inspections_page
from webapp.inspections.pages.marked import spot_words
from webapp.inspections.pages.offices import office_page, offices_page
from webapp.inspections.pages.permit_facts import permit_facts_page
from webapp.inspections.pages.permits import permit_page, permits_page
from webapp.inspections.pages.results import result_page, waits_shown
from webapp.inspections.pages.said import said_page
from webapp.inspections.pages.visits import visit_context, visit_page

__all__ = [
    "advice_form_page",
    "advice_list_page",
    "again_page",
    "any_page",
    "blank_about",
    "calendar_of",
    "calendar_page",
    "change_page",
    "changes_page",
    "correction_page",
    "extension_page",
    "fee_page",
    "fees_page",
    "inspection_form_page",
    "inspection_history",
    "inspection_page",
    "inspections_page",
    "moved_page",
    "names_of",
    "office_page",
    "offices_page",
    "permit_facts_page",
    "permit_page",
    "permits_page",
    "put_right_page",
    "read_ground",
    "result_page",
    "rules_end",
    "said_page",
    "spot_words",
    "surface_history",
    "visit_context",
    "visit_page",
    "waits_shown",
    "where_page",
]
