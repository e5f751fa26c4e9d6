"""Until when something booked for a day can be called off without a fee, in the words of whoever comes."""

from datetime import date

from webapp.values.dates import add_working_days, show_day


def cancel_day(day: date, cancel_days: int) -> date:
    """The day on which the hour falls: so many working days before (Monday to Friday), or the day itself."""
    return add_working_days(day, -cancel_days, frozenset()) if cancel_days else day


def cancel_words(day: date | None, cancel_by: str, cancel_days: int, today: date) -> str:
    """ "Call off by Tue 19 May 07:00"; empty where no hour is known."""
    if day is None or not (cancel_by or cancel_days):
        return ""
    last = cancel_day(day, cancel_days)
    past = ", which is past" if last < today else ""
    return f"Call off by {show_day(last, today)}{' ' + cancel_by if cancel_by else ''}{past}"
