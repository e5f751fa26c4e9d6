"""What is typed about a surface that was covered before it was cleared."""

from collections.abc import Callable, Collection
from dataclasses import dataclass
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted, Upload
from webapp.plan.guard import Here
from webapp.readiness.actions import Mistake
from webapp.readiness.forms.gate import day_of
from webapp.surfaces.actions import Covering, Step
from webapp.surfaces.rules.kinds import CoverStepKind
from webapp.surfaces.store import CoverFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.duration import parse_hours
from webapp.values.errors import BadInput
from webapp.values.money import parse_money

ALL_OF_IT = "all of it"
WHOLE = {"", "all", "all of it", "the whole", "whole", "everything"}
MOST_MINUTES = 400 * 60


def read_mistake(sent: Submitted, here: Here, phase_ids: Collection[int]) -> Mistake:
    """What was covered, and the work that follows. Raises BadForm."""
    reader = Reader(sent)
    extent = reader.text("extent", most=120)
    covering = Covering(
        on=day_of(reader, here.today),
        who=reader.text("who", most=80) or "me",
        extent="" if extent.casefold() in WHOLE else extent,
        layers=reader.text("layers", most=200),
        how=reader.text("how", "Write how it came to be covered; it explains the wall to you in a year.", 1000),
    )
    phase = reader.one_of("phase", [str(one) for one in phase_ids])
    hours = partial(parse_hours, most_minutes=MOST_MINUTES)
    minutes = reader.parsed("hours", hours, "Guess the hours: a guess is enough to plan the evening.")
    if minutes == 0:
        reader.wrong("hours", "Guess a little more than nothing.", ("0.5",))
    reader.done()
    return Mistake(covering, int(phase) if phase else None, minutes or 0)


def read_step(sent: Submitted, here: Here, cover: CoverFacts, keep: Callable[[Upload], int]) -> Step:
    """A step on the way out. `keep` puts a picture on record and gives its id. Raises BadForm."""
    reader = Reader(sent)
    kind = reader.one_of("kind", tuple(CoverStepKind), required="Choose what was done.")
    on = day_of(reader, here.today)
    if on < cover.covered_on:
        day = show_date(cover.covered_on)
        reader.wrong("on", f"It was covered on {day}; this cannot have been before.", (day,))
    spoken = kind in {CoverStepKind.ASKED, CoverStepKind.ANSWERED}
    step = Step(
        kind=kind,
        on=on,
        who=reader.text("who", "Write who: “the inspector, by telephone”." if spoken else "", 80) or "me",
        words=reader.text("words", "Write what they said." if kind == CoverStepKind.ANSWERED else "", 1000),
        photo_id=reader.file("paper", keep),
        whole=kind == CoverStepKind.OPENED and reader.flag("whole"),
    )
    reader.done()
    return step


@dataclass(frozen=True, slots=True)
class CostForm:
    day: date
    what: str
    cents: int


def _paid_day(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput(f"{show_date(day)} is still to come. Write the day it was paid.", (show_date(today),))
    return day


def read_cost(sent: Submitted, here: Here) -> CostForm:
    reader = Reader(sent)
    day = reader.parsed("day", lambda text: _paid_day(text, here.today), "On which day was it paid?")
    what = reader.text("what", "What was it for? A sheet of board, a fee.", most=200)
    cents = reader.parsed("total", lambda text: parse_money(text, here.build.currency), "How much was paid?")
    if cents == 0:
        reader.wrong("total", "Nothing paid needs no line here.")
    reader.done()
    return CostForm(day or here.today, what, cents or 0)
