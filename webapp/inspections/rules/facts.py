"""What is on record of permits, visits and results, as plain frozen facts that rules and pages read."""

from dataclasses import dataclass
from datetime import date, datetime

from webapp.inspections.rules.clocks import ExtensionFacts, RuleFacts
from webapp.inspections.rules.kinds import ChangeAnswer, Evidence

SETTLING = {ChangeAnswer.AGREED, ChangeAnswer.AGREED_WITH_CONDITIONS, ChangeAnswer.NOT_NEEDED}


@dataclass(frozen=True, slots=True)
class PermitFacts:
    """One permit. `number` is private; `hired_id`: whose it is, when not the builder's own."""

    id: int
    code: str
    name: str
    covers: str
    number: str
    asked_on: date | None
    issued_on: date | None
    started_on: date | None
    started_how: str
    code_family: str
    code_edition: str
    hired_id: int | None
    closed_on: date | None
    rules: tuple[RuleFacts, ...] = ()
    extensions: tuple[ExtensionFacts, ...] = ()


@dataclass(frozen=True, slots=True)
class InspectionFacts:
    """One kind of inspection; without surfaces it looks at the whole building. Notice and hour only where they are
    not its office's (`rules.booking.terms_of` says which hold).
    """

    id: int
    permit_id: int
    position: int
    code: str
    name: str
    must_be_ready: str
    notice_days: int | None
    ask_by: str
    office_id: int | None
    who: str
    before_what: str
    source: str
    holds_cover: bool
    renews_permit: bool
    trade: str = ""
    """which self-check list it uses"""
    who_there: str = ""
    """who must be on site"""
    surface_ids: tuple[int, ...] = ()

    @property
    def places(self) -> tuple[int | None, ...]:
        """What a result can be about: each surface, or None for the whole building."""
        return self.surface_ids or (None,)


@dataclass(frozen=True, slots=True)
class VisitFacts:
    id: int
    inspection_id: int
    asked_on: date | None
    day: date | None
    window: str
    outcome: str
    reason: str
    note: str
    remote: bool = False
    """by video"""
    who_there: str = ""
    asked_how: str = ""


@dataclass(frozen=True, slots=True)
class ResultFacts:
    """What was said of one place at one visit. `photo` is the SHA-256 of the picture of its paper, `letter` of what
    took it back; both empty while there is none. `signed_by` is the role of who said so, empty for the inspector.
    """

    id: int
    visit_id: int
    inspection_id: int
    surface_id: int | None
    kind: str
    day: date
    part: str
    evidence: str
    state: str
    changed_on: date | None
    changed_why: str
    changed_by: str
    replaced_by_id: int | None
    recorded_at: datetime
    changed_who: str
    photo: str
    letter: str
    signed_by: str = ""
    hired_id: int | None = None
    paper_id: int | None = None
    reopened: tuple[tuple[int | None, int], ...] = ()
    """(place, change): it was said before that change, and counts no more of that place"""

    @property
    def on_word(self) -> bool:
        """Whether somebody only passed it on: what frees something waits for the card or the report."""
        return self.evidence == Evidence.THEIR_WORD and self.paper_id is None

    @property
    def has_paper(self) -> bool:
        return bool(self.photo) or self.paper_id is not None

    def counts_of(self, place: int | None) -> bool:
        return all(place != reopened for reopened, _ in self.reopened)


@dataclass(frozen=True, slots=True)
class CorrectionFacts:
    """One thing to put right, with the inspection and the visit it came from. `before`, `after`: SHA-256 or empty."""

    id: int
    result_id: int
    inspection_id: int
    visit_id: int
    surface_id: int | None
    item_id: int | None
    number: int
    words: str
    place: str
    form: str
    rule_cited: str
    clears_by: str
    state: str
    done_on: date | None
    cleared_on: date | None
    cleared_by: str
    note: str
    before: str
    after: str
    x_nm: int | None = None
    y_nm: int | None = None
    likely_min: int | None = None
    before_id: int | None = None
    after_id: int | None = None


@dataclass(frozen=True, slots=True)
class FeeFacts:
    id: int
    permit_id: int
    visit_id: int | None
    amount_cents: int
    why: str
    due_on: date | None
    stops_visits: bool
    paid_on: date | None
    spend_id: int | None


@dataclass(frozen=True, slots=True)
class AskedFacts:
    """Something to have ready at the next visit of its inspection."""

    id: int
    inspection_id: int
    surface_id: int | None
    visit_id: int | None
    words: str
    source: str
    asked_on: date
    stops: bool
    done_on: date | None
    dropped_on: date | None

    @property
    def open(self) -> bool:
        return self.done_on is None and self.dropped_on is None


@dataclass(frozen=True, slots=True)
class ChangeFacts:
    """What something was before it was put right."""

    field: str
    was: str
    became: str
    why: str
    at: datetime


@dataclass(frozen=True, slots=True)
class AdviceFacts:
    """Something said by somebody whose word counts, by role. It is no result and frees nothing."""

    id: int
    day: date
    who: str
    words: str
    form: str
    inspection_id: int | None
    surface_id: int | None
    item_id: int | None
    used_for: str
    paper_id: int | None
    ended_on: date | None
    ended_why: str
    recorded_at: datetime


@dataclass(frozen=True, slots=True)
class PlanChangeFacts:
    """A change from what was approved. `item_ids` are the things in their old state; `undone`: all of what it put in
    their place was moved on or taken away since; `photo` the SHA-256 of the paper that answers, or empty.
    """

    id: int
    on_day: date
    what: str
    why: str
    who_agrees: str
    asked_on: date | None
    answer: str
    answered_on: date | None
    answer_words: str
    at: datetime
    photo: str
    surface_ids: tuple[int, ...]
    item_ids: tuple[int, ...]
    undone: bool

    @property
    def settled(self) -> bool:
        """Whether it stops nothing: agreed to, or not there any more."""
        return self.undone or self.answer in SETTLING


@dataclass(frozen=True, slots=True)
class ReopenedFacts:
    """An inspection owed anew of one place since a change."""

    change_id: int
    inspection_id: int
    surface_id: int | None
    on_day: date
    at: datetime

    def overtakes(self, inspection_id: int, place: int | None, day: date, recorded_at: datetime) -> bool:
        """Whether what was said of that place on `day` was said before the change; on the day itself the hour counts.

        What was said of the whole building was said of each of its surfaces too.
        """
        about = inspection_id == self.inspection_id and place in {self.surface_id, None}
        return about and (day, recorded_at) < (self.on_day, self.at)
