"""What is typed about shots."""

from collections.abc import Collection
from dataclasses import dataclass
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.footage.actions import ShotDraft
from webapp.values.dates import parse_day, show_date
from webapp.values.errors import BadInput

STRENGTHS = ("must", "wish")


@dataclass(frozen=True, slots=True)
class FilmedForm:
    on: date
    where: str
    files: str


@dataclass(frozen=True, slots=True)
class WhyForm:
    on: date
    why: str


def read_shot(sent: Submitted, task_ids: Collection[int]) -> ShotDraft:
    """Raises BadForm."""
    reader = Reader(sent)
    task = reader.one_of("task", tuple(str(task_id) for task_id in task_ids))
    draft = ShotDraft(
        what=reader.text("what", "Say what is to be seen.", most=200),
        task_id=int(task) if task else None,
        once=reader.flag("once"),
        strength=reader.one_of("strength", STRENGTHS, "wish"),
        note=reader.text("note", most=500),
    )
    reader.done()
    return draft


def _past_day(text: str, today: date) -> date:
    day = parse_day(text, today)
    if day > today:
        raise BadInput(f"{show_date(day)} is still to come.", (today.isoformat(),))
    return day


def read_filmed(sent: Submitted, today: date) -> FilmedForm:
    """The day it was filmed, and where it lies. Raises BadForm."""
    reader = Reader(sent)
    form = FilmedForm(
        on=reader.parsed("on", partial(_past_day, today=today)) or today,
        where=reader.text("where", most=200),
        files=reader.text("files", most=300),
    )
    reader.done()
    return form


def read_why(sent: Submitted, today: date, sentence: str) -> WhyForm:
    """A reason that must be given, or `sentence` stands beside the field. Raises BadForm."""
    reader = Reader(sent)
    form = WhyForm(reader.parsed("on", partial(_past_day, today=today)) or today, reader.text("why", sentence))
    reader.done()
    return form
