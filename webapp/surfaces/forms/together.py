"""What is typed about several pictures at once: which ones are meant, and by how much their clock was wrong."""

from collections.abc import Sequence
from datetime import date
from functools import partial

from webapp.core.forms import Reader, Submitted
from webapp.photos.rules.shifting import is_day_only, minutes_between, shifted
from webapp.photos.store import PhotoFacts
from webapp.plan.guard import Here
from webapp.surfaces.forms.pictures import read_time
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import parse_day, show_date
from webapp.values.words import plural

MOST_DAYS = 3660
HOW_MUCH = "By how much? Write days, hours or minutes, or choose a picture below and say when it was really taken."
NOTHING = "That shifts nothing: it is what the clock says already."
FAR = "That leads out of the calendar."


def read_ticked(sent: Submitted, offered: Sequence[int]) -> tuple[int, ...]:
    """The pictures that are ticked, of those that can be. Raises BadForm when there is none."""
    reader = Reader(sent)
    chosen = reader.many_of("photo", {str(one) for one in offered})
    if not chosen:
        reader.wrong("photo", "Tick the pictures that are meant.")
    reader.done()
    return tuple(int(one) for one in dict.fromkeys(chosen))


def read_shift(sent: Submitted, here: Here, photos: Sequence[PhotoFacts], first_day: date | None) -> int:
    """Minutes by which the pictures were taken later (earlier when negative) than their camera said.

    `first_day`: nothing of the build is on record before it; a time before it is asked about. Raises BadForm.
    """
    reader = Reader(sent)
    where = "real_day" if sent.text("anchor") else "days"
    minutes = _by_picture(reader, here, photos) if sent.text("anchor") else _by_hand(reader)
    if not reader.errors and not minutes:
        reader.wrong(where, NOTHING if sent.text("anchor") else HOW_MUCH)
    if not reader.errors:
        _ask_about(reader, where, photos, minutes, first_day)
    reader.done()
    return minutes


def _by_hand(reader: Reader) -> int:
    days = reader.whole("days", most=MOST_DAYS) or 0
    hours, minutes = reader.whole("hours", most=9999) or 0, reader.whole("minutes", most=9999) or 0
    way = reader.one_of("way", ("later", "earlier"), required="Was it really later or earlier?")
    sum_ = (days * 24 + hours) * 60 + minutes
    return -sum_ if way == "earlier" else sum_


def _by_picture(reader: Reader, here: Here, photos: Sequence[PhotoFacts]) -> int:
    """What one picture tells: its own time, and when it was really taken. One with only a day is asked for a day."""
    if any(reader.sent.text(name) for name in ("days", "hours", "minutes")):
        reader.wrong("days", "Say one of both: by how much, or when one picture was really taken.")
    known = {str(photo.id): photo for photo in photos if photo.taken_at}
    anchor = known.get(reader.one_of("anchor", tuple(known), required="Choose a picture that has a time of its own."))
    day = reader.parsed("real_day", partial(parse_day, today=here.today), "On which day was it really taken?")
    only_day = anchor is not None and is_day_only(anchor.taken_at or "", anchor.taken_from)
    time = reader.parsed("real_time", read_time, "" if only_day else "And at what time? Such as 17:48.")
    if anchor is None or day is None or reader.errors:
        return 0
    return minutes_between(anchor.taken_at or "", f"{day}T{'00:00:00' if only_day else time}")


def _ask_about(reader: Reader, where: str, photos: Sequence[PhotoFacts], minutes: int, first_day: date | None) -> None:
    """A time after the picture came cannot be; one before the build began may be right."""
    try:
        becomes = [(photo, shifted(photo.taken_at, photo.taken_from, minutes)) for photo in photos]
    except OverflowError:
        reader.wrong(where, FAR)
        return
    late = [photo for photo, at in becomes if at and at[:10] > photo.received_at.astimezone().date().isoformat()]
    early = sorted(at[:10] for _, at in becomes if at and first_day and at[:10] < first_day.isoformat())
    if late:
        came = show_date(late[0].received_at.astimezone().date())
        which = "It" if len(photos) == 1 else f"{plural(len(late), 'picture')} of them"
        reader.wrong(where, f"{which} would then be taken after coming here (on {came}). Is it the other way round?")
    elif early and first_day and not reader.flag("sure"):
        reader.wrong(
            where,
            f"{plural(len(early), 'picture')} would then be of {show_date(date.fromisoformat(early[0]))}, before "
            f"anything of this build ({show_date(first_day)}). If that is right, tick “The dates are right” below.",
        )


def read_place_of_all(sent: Submitted, surfaces: Sequence[SurfaceFacts]) -> SurfaceFacts:
    """The surface that all of them show. Raises BadForm."""
    reader = Reader(sent)
    codes = {surface.code: surface for surface in surfaces}
    code = reader.one_of("surface", tuple(codes), required="Choose the surface that they show.")
    reader.done()
    return codes[code]
