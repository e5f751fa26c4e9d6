"""What the template of today receives."""

from webapp.today.pages.today import today_page

__all__ = ["today_page"]
