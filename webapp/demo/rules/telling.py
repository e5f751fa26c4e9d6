"""What each episode of the scenario shows, and from where to where the one in the making reaches."""

from datetime import date, timedelta

from webapp.demo.rules.told_rows import Episode

SHOWN = {
    1: ("P001", "P008"),
    2: ("P013", "P022"),
    3: ("P007", "P037"),
    4: ("P039",),
    5: ("P054", "P064"),
    6: ("P066", "P068"),
    7: ("P101", "P106"),
    8: ("P029", "P117"),
    9: ("P083", "P086"),
}
"""episode -> its pictures; each shows nothing private"""

WITH_RESULTS = range(2, 8)
"""episodes that end with what the inspector said, as the desk drafts it; later ones tell of it in their own words"""


def all_shown() -> frozenset[str]:
    return frozenset(name for names in SHOWN.values() for name in names)


def begins(episode: Episode, episodes: tuple[Episode, ...]) -> date:
    """The first day of an episode. The one in the making begins the day after the last one was cut."""
    if episode.published_day is not None:
        return episode.from_day
    cut = max(other.to_day for other in episodes if other.published_day is not None)
    return max(episode.from_day, cut + timedelta(days=1))
