"""What the draft desk sends: one form, so that no button loses what was typed beside it."""

from collections.abc import Collection, Iterable
from dataclasses import dataclass
from datetime import date

from webapp.core.forms import Reader, Submitted
from webapp.episodes.rules.desk import Desk, PictureWords
from webapp.episodes.rules.redaction import EXACT, HIDDEN, ROUNDED
from webapp.values.dates import parse_day
from webapp.workdays.rules.people import named_in

SPEND_SHOWN = (HIDDEN, ROUNDED, EXACT)
LONGEST_TEXT = 60_000


@dataclass(frozen=True, slots=True)
class DeskForm:
    """Everything on the desk."""

    desk: Desk
    pictures: tuple[PictureWords, ...]


def read_desk(sent: Submitted, today: date, chosen: Iterable[int]) -> DeskForm:
    """Raises BadForm. `chosen` are the ids of the pictures on the desk."""
    reader = Reader(sent)

    def day(text: str) -> date:
        return parse_day(text, today)

    from_day = reader.parsed("from_day", day, required="Write the first day it tells of.")
    to_day = reader.parsed("to_day", day)
    if from_day and to_day and to_day < from_day:
        reader.wrong("to_day", "The last day is before the first one.")
    desk = Desk(
        title=reader.text("title", most=120),
        from_day=from_day or today,
        to_day=to_day,
        text=reader.text("text", most=LONGEST_TEXT).replace("\r\n", "\n"),
        questions=reader.text("questions", most=2000).replace("\r\n", "\n"),
        show_hours=reader.flag("show_hours"),
        show_spend=reader.one_of("show_spend", SPEND_SHOWN, default=HIDDEN),
    )
    pictures = tuple(_picture(reader, photo_id) for photo_id in chosen)
    reader.done()
    return DeskForm(desk, pictures)


def _picture(reader: Reader, photo_id: int) -> PictureWords:
    return PictureWords(
        photo_id=photo_id,
        caption=reader.text(f"caption-{photo_id}", most=200),
        alt=reader.text(f"alt-{photo_id}", most=400),
        looked_over=reader.flag(f"looked-{photo_id}"),
    )


def read_begin(sent: Submitted, today: date) -> date:
    """The first day of a new episode. Raises BadForm."""
    reader = Reader(sent)
    found = reader.parsed("from_day", lambda text: parse_day(text, today), required="Write the first day it tells of.")
    if found and found > today:
        reader.wrong("from_day", "This day lies ahead. An episode begins with something that happened.")
    reader.done()
    return found or today


def read_about(sent: Submitted) -> str:
    """One line on the build for viewers; empty takes it away. Raises BadForm."""
    reader = Reader(sent)
    words = reader.text("about", most=200)
    reader.done()
    return words


def read_correction(sent: Submitted, private: Collection[str] = ()) -> str:
    """The words of a dated correction; `private` names may not stand in it. Raises BadForm."""
    reader = Reader(sent)
    words = reader.text("words", required="Write what was wrong, and what is so.", most=1000)
    for name in named_in(private, words):
        reader.wrong("words", f"{name} is named and has not said yes. Take the name out.")
    reader.done()
    return words
