"""What one span of the build holds, as plain frozen facts. `href` leads to where the fact stands."""

from dataclasses import dataclass
from datetime import date


@dataclass(frozen=True, slots=True)
class DoneTask:
    """A task finished in the span."""

    title: str
    phase: str
    done_on: date
    href: str


@dataclass(frozen=True, slots=True)
class SeenResult:
    """A current result of a visit in the span. `place` is empty for the whole building.

    `stands` is False when a later visit of the same inspection said otherwise; `paper` is what it rests on.
    """

    inspection: str
    place: str
    kind: str
    day: date
    part: str
    paper: str
    stands: bool
    href: str


@dataclass(frozen=True, slots=True)
class PutRight:
    """A correction that was put right in the span (`done_on`), or written in it and still open (None).

    `seen_by` says who cleared it by the end of the span; empty while nobody has.
    """

    number: int
    words: str
    place: str
    said_only: bool
    written_on: date
    done_on: date | None
    seen_by: str
    seen_on: date | None
    href: str


@dataclass(frozen=True, slots=True)
class Line:
    """Something in plain words from elsewhere: what stops the next phase, what comes next."""

    words: str
    detail: str
    href: str


@dataclass(frozen=True, slots=True)
class Hours:
    """Minutes by whose hands they were, and the number of days with a note."""

    days: int = 0
    own: int = 0
    unpaid: int = 0
    paid: int = 0
    hired: int = 0
    href: str = ""


@dataclass(frozen=True, slots=True)
class Spent:
    """Whole cents paid in the span, over so many lines."""

    cents: int = 0
    lines: int = 0
    currency: str = ""
    href: str = ""


@dataclass(frozen=True, slots=True)
class SpanPicture:
    """A picture of the span, by the day it was taken or, where that is unknown, came. `taken` says which it is."""

    photo_id: int
    sha256: str
    caption: str
    day: date
    taken: bool
    width: int
    height: int
    made: str


@dataclass(frozen=True, slots=True)
class SpanShot:
    """A shot filmed in the span."""

    what: str
    filmed_on: date
    href: str


@dataclass(frozen=True, slots=True)
class SpanFacts:
    """Everything of one span that an episode could tell. The last four lines are the builder's own choices."""

    from_day: date
    to_day: date
    done: tuple[DoneTask, ...] = ()
    results: tuple[SeenResult, ...] = ()
    corrections: tuple[PutRight, ...] = ()
    stops: tuple[Line, ...] = ()
    next_phase: str = ""
    coming: tuple[Line, ...] = ()
    hours: Hours = Hours()
    spent: Spent = Spent()
    shots: tuple[SpanShot, ...] = ()
    pictures: tuple[SpanPicture, ...] = ()
    questions: tuple[str, ...] = ()
    show_hours: bool = True
    show_spend: str = "hidden"
