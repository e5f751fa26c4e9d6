"""The forms that put a result right: my mistake, or theirs."""

from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.inspections.forms.visits import Keep, place_name
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.kinds import Evidence, ResultKind
from webapp.inspections.rules.record import NewResult
from webapp.values.dates import parse_day


@dataclass(frozen=True, slots=True)
class Withdrawal:
    on: date
    who: str
    why: str
    letter_id: int | None


@dataclass(frozen=True, slots=True)
class ChangedResult:
    new: NewResult
    why: str
    evidence: Evidence
    photo_id: int | None


def read_withdrawal(sent: Submitted, today: date, keep: Keep) -> Withdrawal:
    read = Reader(sent)
    on = read.parsed("on", lambda text: parse_day(text, today), "On which day was it taken back?")
    if on is not None and on > today:
        read.wrong("on", "This day has not come yet. Write the day of the letter or the call.")
    who = read.text("who", "Who took it back? The inspector, the office.", most=80)
    why = read.text("withdrawn_why", "Why was it taken back? In their words.", most=400)
    letter = read.file("letter", keep)
    read.done()
    return Withdrawal(on or today, who, why, letter)


def read_changed_result(sent: Submitted, inspection: InspectionFacts, keep: Keep) -> ChangedResult:
    read = Reader(sent)
    places = {place_name(place): place for place in inspection.places}
    place = read.one_of("place", places.keys(), required="On which surface was it?")
    kind = read.one_of("kind", list(ResultKind), required="What was said of it?")
    part = read.text("part", most=200)
    if kind == ResultKind.PART_PASSED and not part:
        read.wrong("part", "Which part passed? From where to where.")
    evidence = read.one_of("evidence", list(Evidence), Evidence.MY_NOTE.value)
    photo_id = read.file("paper", keep)
    why = read.text("why", "How did the mistake come about? It is shown beside the old result.", most=400)
    read.done()
    return ChangedResult(NewResult(places[place], ResultKind(kind), part), why, Evidence(evidence), photo_id)
