"""What the forms of papers send."""

from collections.abc import Callable, Mapping
from datetime import date
from pathlib import Path

from webapp.core.forms import FormState, Reader, Submitted, Upload
from webapp.papers.actions import PaperDraft, Taken, taken
from webapp.papers.rules.kinds import PaperKind
from webapp.papers.rules.things import Thing
from webapp.papers.store import PaperFacts
from webapp.values.dates import parse_day
from webapp.values.errors import BadInput

Keep = Callable[[Upload], str]
NOTHING = "Take a picture of it, choose its file, or say where it lies."


def _day_of(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput("That day is still to come. Write the day that stands on the paper.")
    return day


def read_paper(
    sent: Submitted,
    today: date,
    things: Mapping[str, Thing],
    keep: Keep,
    papers: Path,
    was: PaperFacts | None = None,
) -> PaperDraft:
    """A paper. `was` is the one that is put right, with its file. Raises BadForm; a sent file is kept anyway."""
    read = Reader(sent)
    kind = read.one_of("kind", [each.value for each in PaperKind], required="Choose what kind of paper it is.")
    name = read.text("name", "What is it? A few words will do.", most=160)
    day = read.parsed("day", lambda text: _day_of(text, today))
    came = taken(read.kept("paper", keep), papers)
    where, note = read.text("where", most=160), read.text("note")
    about = [*read.many_of("about", things.keys()), read.one_of("about_more", things.keys())]
    has_file = came != Taken() or (was is not None and bool(was.photo_id or was.file_sha256))
    if not (has_file or where or read.errors.get("paper")):
        read.wrong("paper", NOTHING)
    read.done()
    flags = {flag: read.flag(flag) for flag in ("private", "at_hand", "in_house_file")}
    return PaperDraft(
        kind, name, day, where, note, taken=came, about=tuple(things[key].about for key in about if key), **flags
    )


def blank(kind: str = "", about: str = "", name: str = "") -> FormState:
    """A new paper about the thing it was asked for from."""
    return FormState.of(kind=kind, about=about, name=name, private="yes", at_hand="yes", in_house_file="yes")


def filled(paper: PaperFacts) -> FormState:
    flags = [name for name in ("private", "at_hand", "in_house_file") if getattr(paper, name)]
    return FormState(
        {
            **dict.fromkeys(flags, ("yes",)),
            "kind": (paper.kind,),
            "name": (paper.name,),
            "day": (paper.day.isoformat() if paper.day else "",),
            "where": (paper.where,),
            "note": (paper.note,),
            "about": tuple(f"{kind}:{about_id}" for kind, about_id in paper.about),
        }
    )


def read_ended(sent: Submitted, today: date) -> date:
    """The day since which a paper holds no more."""
    read = Reader(sent)
    day = read.parsed("on", lambda text: _day_of(text, today), "Since which day?")
    read.done()
    return day or today
