"""What the pages of workdays show."""

from webapp.workdays.pages.alone import AlonePage, alone_page
from webapp.workdays.pages.day import DayPage, day_page
from webapp.workdays.pages.form import FormPage, Start, amend_start, form_page, log_start
from webapp.workdays.pages.listing import DaysPage, days_page
from webapp.workdays.pages.people import PeoplePage, people_page
from webapp.workdays.pages.saved import SavedPage, saved_page
from webapp.workdays.pages.took import took_page

__all__ = [
    "AlonePage",
    "DayPage",
    "DaysPage",
    "FormPage",
    "PeoplePage",
    "SavedPage",
    "Start",
    "alone_page",
    "amend_start",
    "day_page",
    "days_page",
    "form_page",
    "log_start",
    "people_page",
    "saved_page",
    "took_page",
]
