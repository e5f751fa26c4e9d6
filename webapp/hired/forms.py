"""What the forms of hired trades send."""

from collections.abc import Callable, Collection, Mapping
from dataclasses import dataclass
from datetime import date
from pathlib import Path

from webapp.core.forms import FormState, Reader, Submitted, Upload
from webapp.hired.actions import HiredDraft, WaitDraft
from webapp.hired.rules.kinds import PartKind, WaitKind
from webapp.hired.store import HiredFacts, Part
from webapp.papers.actions import Taken, taken
from webapp.papers.rules.things import Thing
from webapp.values.dates import parse_day
from webapp.values.errors import BadInput

PARTS = tuple(each.value for each in PartKind)


@dataclass(frozen=True, slots=True)
class HiredRead:
    """A trade, what it does, the permit it works under and why something changed."""

    draft: HiredDraft
    parts: tuple[Part, ...]
    permit: str
    why: str


@dataclass(frozen=True, slots=True)
class Came:
    """What came: on which day, and as which paper: a new file, one that is kept already, or none. `shows`: ids of what
    rests on it, as the package above named them.
    """

    on: date
    taken: Taken
    paper_id: int | None
    shows: tuple[int, ...]


def past(text: str, today: date) -> date:
    """A day that was. Raises BadInput for one still to come."""
    day = parse_day(text, today)
    if day > today:
        raise BadInput("That day is still to come.", (today.isoformat(),))
    return day


def read_hired(sent: Submitted, today: date, things: Mapping[str, Thing], permits: tuple[str, ...]) -> HiredRead:
    """A hired trade. Raises BadForm."""
    read = Reader(sent)
    offered = [key for key, thing in things.items() if thing.kind in PARTS]
    draft = HiredDraft(
        trade=read.text("trade", "Which trade? Such as electrician.", most=80),
        name=read.text("name", most=120),
        licence=read.text("licence", most=80),
        licence_seen_on=read.parsed("licence_seen_on", lambda text: past(text, today)),
        licence_seen_how=read.text("licence_seen_how", most=160),
        insured=read.text("insured", most=160),
        reach=read.text("reach", most=160),
        does=read.text("does"),
        note=read.text("note"),
    )
    keys = [*read.many_of("parts", offered), read.one_of("parts_more", offered)]
    permit = read.one_of("permit", permits)
    why = read.text("why", most=400)
    read.done()
    return HiredRead(draft, tuple(things[key].about for key in keys if key), permit, why)


def blank() -> FormState:
    return FormState.of(trade="")


def filled(hired: HiredFacts, permit: str) -> FormState:
    """The form as the trade stands on record."""
    names = ("trade", "name", "licence", "licence_seen_how", "insured", "reach", "does", "note")
    values: dict[str, tuple[str, ...]] = {name: (getattr(hired, name),) for name in names}
    values["licence_seen_on"] = (hired.licence_seen_on.isoformat() if hired.licence_seen_on else "",)
    values["parts"] = tuple(f"{kind}:{part_id}" for kind, part_id in hired.parts)
    return FormState(values | {"permit": (permit,)})


def read_wait(sent: Submitted, today: date) -> WaitDraft:
    """Something that is waited for. Raises BadForm."""
    read = Reader(sent)
    kind = read.one_of("wait_kind", [each.value for each in WaitKind], required="Choose what is waited for.")
    words = read.text("words", most=200) or f"{kind[:1].upper()}{kind[1:]}"
    asked = read.parsed("asked_on", lambda text: past(text, today))
    stops = read.flag("stops")
    read.done()
    return WaitDraft(WaitKind(kind), words, stops, asked)


def read_came(
    sent: Submitted,
    today: date,
    kept: Mapping[str, int],
    shows: Collection[str],
    keep: Callable[[Upload], str],
    papers: Path,
) -> Came:
    """What came. `kept` are papers that may be named, `shows` what may rest on it. Raises BadForm; a sent file is kept
    anyway.
    """
    read = Reader(sent)
    on = read.parsed("on", lambda text: past(text, today), "On which day did it come?")
    came = taken(read.kept("paper", keep), papers)
    known, rests = read.one_of("known", kept.keys()), read.many_of("shows", shows)
    read.done()
    return Came(on or today, came, kept.get(known), tuple(int(one) for one in rests))


def read_dropped(sent: Submitted, today: date) -> tuple[date, str]:
    """The day and the reason something is waited for no more."""
    read = Reader(sent)
    on = read.parsed("on", lambda text: past(text, today), "Since which day?")
    why = read.text("why", "Why is it waited for no more?", most=400)
    read.done()
    return on or today, why


def read_again(sent: Submitted) -> str:
    read = Reader(sent)
    why = read.text("why", "Why is it waited for again?", most=400)
    read.done()
    return why


def read_ended(sent: Submitted, today: date) -> date:
    read = Reader(sent)
    on = read.parsed("on", lambda text: past(text, today), "Since which day?")
    read.done()
    return on or today


def read_bill(sent: Submitted, bills: Mapping[str, int]) -> int:
    """The line of spend that is their bill."""
    read = Reader(sent)
    bill = read.one_of("bill", bills.keys(), required="Choose a line of the spend.")
    read.done()
    return bills[bill]
