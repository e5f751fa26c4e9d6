"""Reading what the phone sends of a day."""

from webapp.workdays.forms.alone import read_telling
from webapp.workdays.forms.day import read_day
from webapp.workdays.forms.receiving import digest_of_day, receive

__all__ = ["digest_of_day", "read_day", "read_telling", "receive"]
