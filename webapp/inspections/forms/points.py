"""What was seen of each point, and a point put on the list."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from webapp.core.forms import Reader, Submitted
from webapp.inspections.actions.points import NewPoint, Tick
from webapp.inspections.rules.checks import HANDOUT, OWN
from webapp.inspections.rules.kinds import CheckState
from webapp.inspections.rules.preparing import Listed

SOURCES = (OWN, HANDOUT, "asked by inspector")


@dataclass(frozen=True, slots=True)
class TypedPoint:
    words: str
    source: str


def read_ticks(
    sent: Submitted, lines: Iterable[Listed], states: dict[str, str], make: Callable[[Listed], NewPoint]
) -> tuple[Tick, ...]:
    """Only what is said anew. `states`: what is on record by key; `make`: the row an offered point becomes."""
    read = Reader(sent)
    ticks = []
    for line in lines:
        state = read.one_of(f"state_{line.key}", [each.value for each in CheckState])
        note = read.text(f"note_{line.key}", most=300)
        if state and (state != states.get(line.key) or note):
            new = make(line) if line.row_id is None else None
            ticks.append(Tick(line.row_id, new, CheckState(state), note))
    read.done()
    return tuple(ticks)


def read_point(sent: Submitted) -> TypedPoint:
    read = Reader(sent)
    words = read.text("words", "What is to be looked at?", most=300)
    source = read.text("source", most=200) or OWN
    read.done()
    return TypedPoint(words, source)


def read_ending(sent: Submitted) -> str:
    read = Reader(sent)
    why = read.text("why", "Say why it comes off the list; the line stays with its reason.", most=300)
    read.done()
    return why
