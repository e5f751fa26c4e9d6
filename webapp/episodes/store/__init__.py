"""Reading episodes, what a span of the build holds, and what lies ahead."""

from webapp.episodes.store.ahead import Ahead, ahead
from webapp.episodes.store.episodes import (
    MAKING,
    PUBLISHED,
    ChosenPicture,
    EpisodeFacts,
    EpisodeLine,
    Holdings,
    KeptText,
    find_picture_row,
    find_row,
    get_episode,
    holds_by_now,
    in_the_making,
    is_offered,
    last_day_told,
    last_number,
    list_episodes,
    list_pictures,
    list_texts,
)
from webapp.episodes.store.span import list_work, span_facts

__all__ = [
    "MAKING",
    "PUBLISHED",
    "Ahead",
    "ChosenPicture",
    "EpisodeFacts",
    "EpisodeLine",
    "Holdings",
    "KeptText",
    "ahead",
    "find_picture_row",
    "find_row",
    "get_episode",
    "holds_by_now",
    "in_the_making",
    "is_offered",
    "last_day_told",
    "last_number",
    "list_episodes",
    "list_pictures",
    "list_texts",
    "list_work",
    "span_facts",
]
