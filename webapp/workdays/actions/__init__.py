"""What the builder does with a day: log it, amend it. Nothing here commits."""

from webapp.workdays.actions.amending import amend_day
from webapp.workdays.actions.logging import Logged, log_day
from webapp.workdays.actions.receiving import Received, keep_pictures

__all__ = ["Logged", "Received", "amend_day", "keep_pictures", "log_day"]
