"""What the templates of readiness receive."""

from webapp.readiness.pages.before_cover import before_cover_page
from webapp.readiness.pages.closing import close_page, done_page, finish_page
from webapp.readiness.pages.covers import covers_page
from webapp.readiness.pages.house import house_page
from webapp.readiness.pages.letting import letting_page
from webapp.readiness.pages.mistaken import covering_page, mistake_page
from webapp.readiness.pages.moving import moving_page
from webapp.readiness.pages.order import order_breaks_page
from webapp.readiness.pages.panel import stops_panel
from webapp.readiness.pages.surfaces import standing_page, surfaces_page
from webapp.readiness.pages.waits import task_waits_page, visit_waits_page
from webapp.readiness.pages.what_stops import Asking, what_stops_page

__all__ = [
    "Asking",
    "before_cover_page",
    "close_page",
    "covering_page",
    "covers_page",
    "done_page",
    "finish_page",
    "house_page",
    "letting_page",
    "mistake_page",
    "moving_page",
    "order_breaks_page",
    "standing_page",
    "stops_panel",
    "surfaces_page",
    "task_waits_page",
    "visit_waits_page",
    "what_stops_page",
]
