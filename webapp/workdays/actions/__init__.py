"""What the builder does with a day: log it, amend it. Nothing here commits."""

from webapp.workdays.actions.alone import come_back, tell
from webapp.workdays.actions.amending import amend_day
from webapp.workdays.actions.logging import Logged, log_day
from webapp.workdays.actions.people import say_yes
from webapp.workdays.actions.receiving import Received, keep_pictures

__all__ = ["Logged", "Received", "amend_day", "come_back", "keep_pictures", "log_day", "say_yes", "tell"]
