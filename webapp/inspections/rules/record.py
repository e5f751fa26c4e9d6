"""What the builder writes down beside the inspector: the parts of one record, and whether it holds together."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass, field
from datetime import date

from webapp.inspections.rules.kinds import ClearsBy, ClockKind, CorrectionForm, Evidence, ResultKind, Span


@dataclass(frozen=True, slots=True)
class NewResult:
    """What was said of one surface, or of the whole building when None."""

    surface_id: int | None
    kind: ResultKind
    part: str = ""


@dataclass(frozen=True, slots=True)
class NewCorrection:
    words: str
    surface_id: int | None
    place: str = ""
    form: CorrectionForm = CorrectionForm.WRITTEN
    rule_cited: str = ""
    clears_by: ClearsBy = ClearsBy.REVISIT
    likely_min: int | None = None
    photo_id: int | None = None
    """picture of it as found"""


@dataclass(frozen=True, slots=True)
class NewAsked:
    """An extra thing to have ready. `stops`: the next visit of this kind waits for it."""

    words: str
    stops: bool = False
    surface_id: int | None = None
    source: str = "asked by inspector"


@dataclass(frozen=True, slots=True)
class NewFee:
    amount_cents: int
    why: str = ""
    due_on: date | None = None
    stops_visits: bool = False


def fee_label(fee_id: int) -> str:
    """What a fee is called among the changes of its permit."""
    return f"Fee {fee_id}"


@dataclass(frozen=True, slots=True)
class RestsOn:
    """What a result rests on, as typed. `hired_id`: the hired trade that passed it on."""

    evidence: Evidence
    photo_id: int | None
    signed_by: str
    hired_id: int | None


@dataclass(frozen=True, slots=True)
class VisitRecord:
    """All that came out of one visit; saved wholly or not at all. `replaced`: this visit had another result of that
    surface, which was mistyped; `second`: it was said at another visit of the same day; `seen`: corrections of before
    that the inspector found in order.
    """

    day: date
    results: tuple[NewResult, ...] = ()
    corrections: tuple[NewCorrection, ...] = ()
    asked: tuple[NewAsked, ...] = ()
    fee: NewFee | None = None
    evidence: Evidence = Evidence.MY_NOTE
    photo_id: int | None = None
    note: str = ""
    signed_by: str = ""
    hired_id: int | None = None
    replaced: tuple[NewResult, ...] = ()
    second: tuple[NewResult, ...] = ()
    seen: tuple[int, ...] = ()


@dataclass(frozen=True, slots=True)
class AttachedPaper:
    """A picture of a card, notice, slip or letter, or one that is kept among the papers, and who signed it by role."""

    evidence: Evidence
    photo_id: int | None = None
    signed_by: str = ""
    paper_id: int | None = None


@dataclass(frozen=True, slots=True)
class NotLookedAt:
    """A visit that looked at nothing. `no_entry`: nobody could get in; else it was not ready."""

    day: date
    no_entry: bool
    reason: str
    asked: tuple[NewAsked, ...] = ()
    fee: NewFee | None = None
    evidence: Evidence = Evidence.MY_NOTE
    photo_id: int | None = None
    signed_by: str = ""
    hired_id: int | None = None


@dataclass(frozen=True, slots=True)
class Clash:
    """Something in a record that cannot be meant. `index` is the correction's place in the record."""

    index: int
    sentence: str


def clashes(record: VisitRecord, on_record: Mapping[int | None, str], names: Mapping[int | None, str]) -> list[Clash]:
    """Corrections that fit no result. `on_record`: kinds this visit has already; `names`: what to call each place."""
    said = dict(on_record) | {each.surface_id: each.kind.value for each in record.results}
    found = []
    for index, each in enumerate(record.corrections):
        kind = said.get(each.surface_id)
        name = names.get(each.surface_id, "this surface")
        first = f"{name[:1].upper()}{name[1:]}"
        if kind is None:
            found.append(Clash(index, f"Say first how {name} came out; a correction belongs to a result."))
        elif kind == ResultKind.PASSED and each.clears_by == ClearsBy.REVISIT:
            found.append(Clash(index, f"{first} is set to passed, yet this is to be seen again. Which is it?"))
    return found


def twice(results: Collection[NewResult], on_record: Mapping[int | None, str]) -> list[int | None]:
    """The places that have a result of this visit already: it is put right there, not said again."""
    return [each.surface_id for each in results if each.surface_id in on_record]


@dataclass(frozen=True, slots=True)
class RuleForm:
    """One way in which the permit runs out, as typed."""

    kind: ClockKind
    count: int | None = None
    span: Span = Span.DAYS
    words: str = ""
    source: str = "my guess"


@dataclass(frozen=True, slots=True)
class PermitForm:
    """A permit as typed."""

    code: str
    name: str
    covers: str = ""
    number: str = ""
    asked_on: date | None = None
    issued_on: date | None = None
    started_on: date | None = None
    started_how: str = ""
    code_family: str = ""
    code_edition: str = ""
    hired_id: int | None = None
    """whose it is, when not the builder's own"""
    closed_on: date | None = None
    rules: tuple[RuleForm, ...] = ()


@dataclass(frozen=True, slots=True)
class OfficeForm:
    """An office as typed; weekdays with Monday as 0."""

    name: str
    weekdays: frozenset[int]
    from_time: str
    until_time: str
    notice_days: int
    ask_by: str
    cancel_by: str
    cancel_days: int
    calendar: str
    reach: str
    source: str


@dataclass(frozen=True, slots=True)
class ClosedForm:
    """A day off, or a row of days. `open`: the office works in spite of its calendar; `everywhere`: every office."""

    day: date
    until_day: date | None
    open: bool
    why: str
    everywhere: bool


@dataclass(frozen=True, slots=True)
class ExtensionForm:
    """More time as it is asked for."""

    asked_on: date | None
    why: str
    fee_cents: int | None
    fee_due: date | None


@dataclass(frozen=True, slots=True)
class AnswerForm:
    """What was said to a request for more time. `asked_on` stands in where the day of asking was never typed."""

    granted: bool
    answered_on: date
    until_day: date | None
    words: str
    paper_id: int | None
    photo_id: int | None
    asked_on: date | None


@dataclass(frozen=True, slots=True)
class InspectionForm:
    """One kind of inspection as typed."""

    permit_id: int
    code: str
    name: str
    surface_ids: tuple[int, ...] = field(default=())
    must_be_ready: str = ""
    office_id: int | None = None
    notice_days: int | None = None
    ask_by: str = ""
    who: str = "inspector"
    before_what: str = ""
    source: str = "my guess"
    holds_cover: bool = True
    renews_permit: bool = True
    trade: str = ""
    """which self-check list it uses"""
    who_there: str = ""
    """who must be on site"""


@dataclass(frozen=True, slots=True)
class NewAdvice:
    """Something said, as typed: by which role, about which place, and what it was used for. No names."""

    day: date
    who: str
    words: str
    form: str
    inspection_id: int | None = None
    surface_id: int | None = None
    used_for: str = ""
