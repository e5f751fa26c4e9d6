"""What a booking is read against, and until when a visit can be called off."""

from datetime import date

from webapp.inspections.pages.book import Book
from webapp.inspections.rules.asking import Asking
from webapp.inspections.rules.booking import Terms
from webapp.inspections.rules.facts import InspectionFacts
from webapp.values.dates import show_day


def asking_of(book: Book, inspection: InspectionFacts) -> Asking:
    """The permit's day, the office's days and hours, and the notice it wants."""
    permit, terms = book.permits[inspection.permit_id], book.terms(inspection)
    office = next((one for one in book.offices.offices if one.id == inspection.office_id), None)
    return Asking(
        permit=permit.code,
        issued_on=permit.issued_on,
        comes_on=terms.visits_on,
        ask_by=terms.ask_by,
        ask_hour=terms.ask_hour,
        from_time=office.from_time if office else "",
        until_time=office.until_time if office else "",
        office=terms.office,
    )


def call_off_words(terms: Terms, day: date | None, today: date) -> str:
    """ "Call off by Tue 19 May 07:00"; empty where no hour is known."""
    if day is None or not (terms.cancel_hour or terms.cancel_days):
        return ""
    last = terms.cancel_by(day)
    past = ", which is past" if last < today else ""
    return f"Call off by {show_day(last, today)} {terms.cancel_hour}".strip() + past
