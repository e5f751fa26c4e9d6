"""What a booking is read against, and what is said of it: until when to ask, until when to call off."""

from datetime import date

from webapp.inspections.pages.book import Book
from webapp.inspections.rules.asking import Asking
from webapp.inspections.rules.booking import ask_by
from webapp.inspections.rules.facts import InspectionFacts
from webapp.values.dates import MONDAY_TO_FRIDAY


def asking_of(book: Book, inspection: InspectionFacts) -> Asking:
    """The permit's day, the office's days and hours, and the notice it wants."""
    permit = book.permits[inspection.permit_id]

    def comes_on(day: date) -> bool:
        return day.weekday() in MONDAY_TO_FRIDAY

    def last_to_ask(day: date) -> date:
        return ask_by(day, inspection.notice_days)

    return Asking(permit.code, permit.issued_on, comes_on, last_to_ask, inspection.ask_by)
