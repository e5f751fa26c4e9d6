"""What the template of today receives."""

from webapp.today.pages.today import TodayPage, today_page

__all__ = ["TodayPage", "today_page"]
