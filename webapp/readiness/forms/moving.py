"""What becomes of each thing that hangs on a visit, as chosen."""

from collections.abc import Iterable
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.plan.store.booked import BookedFacts
from webapp.readiness.actions.moving import Decision, Fate, same_shift
from webapp.values.dates import parse_day, show_day

MOVING = (Fate.MOVE, Fate.FLAG, Fate.STAY)
CALLING_OFF = (Fate.FLAG, Fate.OFF, Fate.STAY)


def read_decisions(
    sent: Submitted, hanging: Iterable[BookedFacts], before: date | None, after: date | None, today: date
) -> tuple[Decision, ...]:
    """For each thing its fate: what is not said is flagged. An empty day moves as far as the visit did.

    Raises BadForm for what would come before the visit.
    """
    read = Reader(sent)
    made = []
    for one in hanging:
        fate = Fate(read.one_of(f"with_{one.id}", [each.value for each in Fate], Fate.FLAG.value))
        name = f"day_{one.id}"
        day = None
        if fate == Fate.MOVE:
            typed = read.parsed(name, lambda text: parse_day(text, today))
            day = typed or same_shift(one.day, before, after)
            if day is None and name not in read.errors:
                read.wrong(name, "To which day? Or have it flagged.")
        comes = day if fate == Fate.MOVE else one.day if fate == Fate.STAY else None
        if comes is not None and after is not None and comes < after:
            where = name if fate == Fate.MOVE else f"with_{one.id}"
            read.wrong(where, f"{show_day(comes, today)} is before the visit on {show_day(after, today)}.")
        made.append(Decision(one, fate, day))
    read.done()
    return tuple(made)
