"""The forms that put a result right: my mistake, or theirs."""

from collections.abc import Collection, Mapping
from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.inspections.forms.fields import Keep, place_name, read_paper
from webapp.inspections.rules.facts import InspectionFacts
from webapp.inspections.rules.kinds import Evidence, ResultKind
from webapp.inspections.rules.record import AttachedPaper, NewResult, RestsOn
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
    rests: RestsOn


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


def read_changed_result(
    sent: Submitted, inspection: InspectionFacts, keep: Keep, hired: Mapping[str, str]
) -> ChangedResult:
    read = Reader(sent)
    places = {place_name(place): place for place in inspection.places}
    place = read.one_of("place", places.keys(), required="On which surface was it?")
    kind = read.one_of("kind", list(ResultKind), required="What was said of it?")
    part = read.text("part", most=200)
    if kind == ResultKind.PART_PASSED and not part:
        read.wrong("part", "Which part passed? From where to where.")
    rests = read_paper(read, keep, hired)
    why = read.text("why", "How did the mistake come about? It is shown beside the old result.", most=400)
    read.done()
    return ChangedResult(NewResult(places[place], ResultKind(kind), part), why, rests)


def read_attached(sent: Submitted, keep: Keep, waits: Collection[str]) -> tuple[AttachedPaper, int | None]:
    """A paper that came later, with its picture, and what was waited for that it is. `waits`: what can be named."""
    read = Reader(sent)
    papers = [each.value for each in Evidence if each not in {Evidence.MY_NOTE, Evidence.THEIR_WORD}]
    what = "What paper is it? The card, a notice, a slip, a letter or report."
    evidence = read.one_of("evidence", papers, required=what)
    photo_id = read.file("paper", keep)
    if photo_id is None:
        read.wrong("paper", "Take a picture of the paper. Without one the result stays as it is.")
    who, wait = read.text("signed_by", most=80), read.one_of("wait", ("", *waits))
    read.done()
    return AttachedPaper(Evidence(evidence), photo_id, who), int(wait) if wait else None
