"""What a day says, as plain facts: what the phone sends, read."""

from collections.abc import Sequence
from dataclasses import dataclass, field
from datetime import date

from webapp.money.rules.lines import GIFT, KINDS
from webapp.values.duration import show_minutes
from webapp.values.words import join_words, plural
from webapp.workdays.rules.hours import Hours

BLOCKS = ("spend1", "spend2")
"""the blocks of the form for spend; each may carry the picture of a receipt"""
PICTURES = "pictures"
MOST_SAID = 4
SPEND_KINDS = tuple(kind for kind in KINDS if kind != GIFT)
WEATHERS = ("dry", "rain", "hot", "frost", "wind")
OTHER = "Other"
STOPS = ("Rain", "Light", "Goods", "Inspector", "Waiting", "Ill", "Tired", "Family", OTHER)
"""what usually stops a day; anything else is said in words"""


@dataclass(frozen=True, slots=True)
class DayWords:
    """One day in figures and words."""

    day: date
    hours: Hours
    weather: str = ""
    done: str = ""
    stopped_by: str = ""
    next_step: str = ""
    filmed: str = ""
    lost: bool = False


@dataclass(frozen=True, slots=True)
class Work:
    """My own work on one task that day; `minutes` is None while the day's time is not split."""

    task_id: int
    minutes: int | None = None
    finished: bool = False

    def words(self) -> str:
        how = "finished" if self.finished else "worked on"
        return how if self.minutes is None else f"{how}, {show_minutes(self.minutes)}"


@dataclass(frozen=True, slots=True)
class Place:
    """Where the day's pictures belong. The first of them fills the owed picture, if one is named."""

    surface_id: int | None = None
    item_id: int | None = None
    slot_id: int | None = None


@dataclass(frozen=True, slots=True)
class Bought:
    """One line of spend that came with the day."""

    what: str
    total_cents: int
    supplier: str = ""
    kind: str = "into the building"
    receipt_photo_id: int | None = None


@dataclass(frozen=True, slots=True)
class DayForm:
    """All of it. `as_worked`: a task that may not be finished yet is kept as worked on instead of refusing the day."""

    words: DayWords
    work: tuple[Work, ...] = ()
    photo_ids: tuple[int, ...] = ()
    place: Place = field(default_factory=Place)
    bought: tuple[Bought, ...] = ()
    shot_ids: tuple[int, ...] = ()
    files_lie: str = ""
    as_worked: bool = False
    people: tuple[str, ...] = ()
    """names of those who helped"""
    back: bool = False
    """I am back, as I told somebody I would be"""
    said_here: tuple[int, ...] = ()
    """tasks that are finished although they were un-ticked elsewhere meanwhile"""

    @property
    def ticked(self) -> tuple[int, ...]:
        """Tasks finished that day, but for those of which both sides were seen."""
        return tuple(work.task_id for work in self.work if work.finished and work.task_id not in self.said_here)

    @property
    def empty(self) -> bool:
        """Whether nothing was said but the day itself."""
        words = self.words
        said = (words.weather, words.done, words.stopped_by, words.next_step, words.filmed, words.lost)
        return not (
            any(said)
            or words.hours.kinds()
            or self.work
            or self.photo_ids
            or self.bought
            or self.shot_ids
            or self.people
        )


def held_back_words(titles: Sequence[str]) -> str:
    """What is said once of tasks that stay worked on; empty for none."""
    if not titles:
        return ""
    named = join_words([f"“{title}”" for title in titles])
    return f"{named} {'is' if len(titles) == 1 else 'are'} kept as worked on, not finished."


def not_taken_words(sentences: Sequence[str]) -> str:
    """What is said once of files that were not taken, each with its own reason; empty for none."""
    if not sentences:
        return ""
    rest = len(sentences) - MOST_SAID
    more = f" And {plural(rest, 'more file')} of the same kind." if rest > 0 else ""
    told = " ".join(sentences[:MOST_SAID])
    return f"{plural(len(sentences), 'file was', 'files were')} not taken; all else is saved. {told}{more}"


def stopped_words(chosen: str, typed: str) -> str:
    """The choice and the words after it: `Goods: the straps are short`. Words of their own need no choice."""
    if chosen == OTHER and typed:
        return typed
    return ": ".join(part for part in (chosen, typed) if part)


def stopped_parts(stopped_by: str, known: Sequence[str] = STOPS) -> tuple[str, str]:
    """The choice and the words that `stopped_words` made one of; `known` are the choices there are."""
    chosen, _, typed = stopped_by.partition(": ")
    if chosen in known:
        return chosen, typed
    return (OTHER, stopped_by) if stopped_by else ("", "")
