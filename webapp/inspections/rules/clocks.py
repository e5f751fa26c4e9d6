"""What is on record of a permit's clocks: its rules for lapsing as typed, and the extensions asked for."""

from dataclasses import dataclass
from datetime import date

from webapp.inspections.rules.kinds import Span
from webapp.values.dates import add_months, lapse_day
from webapp.values.words import plural


@dataclass(frozen=True, slots=True)
class RuleFacts:
    """One way in which a permit runs out. `count` is None while the builder does not know it."""

    id: int
    permit_id: int
    kind: str
    count: int | None
    span: str
    words: str
    source: str

    @property
    def length(self) -> str:
        """ "180 days", "12 months"; nothing while the number is not known."""
        return plural(self.count, self.span.removesuffix("s")) if self.count else ""

    def last_day(self, from_day: date) -> date | None:
        """The last day that still counts; months are those of the calendar (`values.dates.add_months`)."""
        if not self.count:
            return None
        return add_months(from_day, self.count) if self.span == Span.MONTHS else lapse_day(from_day, self.count)


@dataclass(frozen=True, slots=True)
class ExtensionFacts:
    """More time asked for. `photo`: SHA-256 of the picture of the letter, `paper_id` the paper itself."""

    id: int
    permit_id: int
    asked_on: date | None
    why: str
    answered_on: date | None
    granted: bool | None
    until_day: date | None
    words: str
    paper_id: int | None
    photo: str
    fee_id: int | None
    withdrawn_on: date | None

    @property
    def in_writing(self) -> bool:
        return self.paper_id is not None or bool(self.photo)

    @property
    def counts(self) -> bool:
        """Whether it moves the clock: granted until a day, on paper, and not given back."""
        given = self.granted is True and self.until_day is not None and self.withdrawn_on is None
        return given and self.in_writing

    @property
    def open(self) -> bool:
        return self.granted is None and self.withdrawn_on is None
