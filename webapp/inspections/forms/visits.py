"""The forms of a visit: booking it, and writing down what came of it standing beside the inspector."""

from collections.abc import Callable, Mapping
from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted, Upload
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.kinds import ClearsBy, CorrectionForm, Evidence, ResultKind
from webapp.inspections.rules.record import (
    NewAsked,
    NewCorrection,
    NewFee,
    NewResult,
    NotLookedAt,
    VisitRecord,
    clashes,
)
from webapp.plan.guard import Here
from webapp.values.dates import parse_day, question_year
from webapp.values.money import parse_money

Keep = Callable[[Upload], int]
BLOCKS = (1, 2, 3)
"""empty corrections on the form: what is said at one visit comes in several, and without a script none can be added"""
WHOLE = "whole"
DAY_RIGHT = "The day is right"


def place_name(surface_id: int | None) -> str:
    """What a surface is called in the names of fields."""
    return WHOLE if surface_id is None else str(surface_id)


def day_held(read: Reader, today: date, issued_on: date | None, required: str = "On which day was it?") -> date | None:
    """The day of a visit held. One before its permit or after today is questioned until `day_right` is ticked."""
    day = read.parsed("day", lambda text: parse_day(text, today), required)
    question = question_year(day, issued_on, today) if day else None
    if question and not read.flag("day_right"):
        sentence, likely = question
        read.wrong("day", f"{sentence} If it is right, tick “{DAY_RIGHT}”.", likely)
    return day


def _results(read: Reader, inspection: InspectionFacts, open_places: tuple[int | None, ...]) -> tuple[NewResult, ...]:
    found = []
    for place in inspection.places:
        name = place_name(place)
        kind = read.one_of(f"kind_{name}", [each.value for each in ResultKind])
        if not kind or place not in open_places:
            continue
        part = read.text(f"part_{name}", most=200)
        if kind == ResultKind.PART_PASSED and not part:
            read.wrong(f"part_{name}", "Which part passed? From where to where.")
        found.append(NewResult(place, ResultKind(kind), part))
    return tuple(found)


def _corrections(read: Reader, inspection: InspectionFacts) -> tuple[tuple[int, NewCorrection], ...]:
    """Each correction that has words, with the number of its block."""
    places: Mapping[str, int | None] = {place_name(place): place for place in inspection.places}
    found = []
    for block in BLOCKS:
        words = read.text(f"words_{block}")
        place, rule = read.text(f"place_{block}", most=200), read.text(f"rule_{block}", most=200)
        on = read.one_of(f"on_{block}", places.keys())
        form = read.one_of(f"form_{block}", list(CorrectionForm), CorrectionForm.WRITTEN.value)
        clears = read.one_of(f"clears_{block}", list(ClearsBy), ClearsBy.REVISIT.value)
        if not words:
            if place or rule:
                read.wrong(f"words_{block}", "Write what was said, in the inspector's words.")
            continue
        if len(places) == 1:
            on = next(iter(places))
        if not on:
            read.wrong(f"on_{block}", "On which surface is it?")
            continue
        correction = NewCorrection(words, places[on], place, CorrectionForm(form), rule, ClearsBy(clears))
        found.append((block, correction))
    return tuple(found)


def _asked(read: Reader) -> tuple[NewAsked, ...]:
    words = read.text("asked", most=300)
    return (NewAsked(words, read.flag("asked_stops")),) if words else ()


def _fee(read: Reader, here: Here) -> NewFee | None:
    amount = read.parsed("fee", lambda text: parse_money(text, here.build.currency))
    due = read.parsed("fee_due", lambda text: parse_day(text, here.today))
    why, stops = read.text("fee_why", most=160), read.flag("fee_stops")
    if amount is None:
        return None
    if amount <= 0:
        read.wrong("fee", "A fee is more than nothing. Leave it empty when none was asked.")
    return NewFee(amount, why, due, stops)


def _paper(read: Reader, keep: Keep) -> tuple[Evidence, int | None]:
    evidence = Evidence(read.one_of("evidence", list(Evidence), Evidence.MY_NOTE.value))
    photo_id = read.file("paper", keep)
    if photo_id is not None and evidence == Evidence.MY_NOTE:
        read.wrong("evidence", "Say what paper the picture shows: the card, a notice, a slip or a letter.")
    return evidence, photo_id


@dataclass(frozen=True, slots=True)
class VisitContext:
    """What the form of a visit is read against. `on_record`: kinds this visit has already, by place."""

    inspection: InspectionFacts
    issued_on: date | None
    on_record: Mapping[int | None, str]
    names: Mapping[int | None, str]

    @property
    def open_places(self) -> tuple[int | None, ...]:
        return tuple(place for place in self.inspection.places if place not in self.on_record)


def read_visit(sent: Submitted, here: Here, about: VisitContext, keep: Keep) -> VisitRecord:
    """What came of a visit. Raises BadForm with a sentence at every field that cannot be meant."""
    read = Reader(sent)
    day = day_held(read, here.today, about.issued_on)
    results = _results(read, about.inspection, about.open_places)
    said = _corrections(read, about.inspection)
    asked, fee = _asked(read), _fee(read, here)
    evidence, photo_id = _paper(read, keep)
    note = read.text("note")
    corrections = tuple(each for _, each in said)
    record = VisitRecord(day or here.today, results, corrections, asked, fee, evidence, photo_id, note)
    for clash in clashes(record, about.on_record, about.names):
        read.wrong(f"words_{said[clash.index][0]}", clash.sentence)
    if not (results or said or asked or fee or about.on_record or read.errors):
        first = place_name(about.inspection.places[0])
        read.wrong(f"kind_{first}", "Say how at least one surface came out, or write down that nothing was looked at.")
    read.done()
    return record


def read_not_ready(sent: Submitted, here: Here, issued_on: date | None, keep: Keep) -> NotLookedAt:
    """A visit that looked at nothing, with what was missing, a fee and a slip where there are any."""
    read = Reader(sent)
    day = day_held(read, here.today, issued_on)
    no_entry = read.one_of("outcome", ("not ready", "no entry"), "not ready") == "no entry"
    reason = read.text("reason", "Why was nothing looked at? A few words: no ladder, nobody home.", most=200)
    missing = tuple(part.strip() for part in read.text("missing", most=600).replace("\n", ",").split(","))
    asked = tuple(NewAsked(words[:300]) for words in missing if words)
    fee = _fee(read, here)
    evidence, photo_id = _paper(read, keep)
    read.done()
    return NotLookedAt(day or here.today, no_entry, reason, asked, fee, evidence, photo_id)


def read_right_day(sent: Submitted, today: date, issued_on: date | None) -> tuple[date, str]:
    """The day a visit really was, and why it stood wrong."""
    read = Reader(sent)
    day = day_held(read, today, issued_on)
    why = read.text("why", most=400)
    read.done()
    return day or today, why
