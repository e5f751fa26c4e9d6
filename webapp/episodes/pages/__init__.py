"""What the sheets of episodes receive."""

from webapp.episodes.pages.desk import DeskPage, desk_page, draft_of
from webapp.episodes.pages.going_out import as_viewers_page, published_page, texts_page
from webapp.episodes.pages.series import EpisodesPage, episodes_page

__all__ = [
    "DeskPage",
    "EpisodesPage",
    "as_viewers_page",
    "desk_page",
    "draft_of",
    "episodes_page",
    "published_page",
    "texts_page",
]
