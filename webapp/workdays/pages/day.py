"""One day: what was said, what came with it, and what it said before it was amended."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.clock import in_utc
from webapp.core.sheets import Sheet
from webapp.footage.store import list_shots
from webapp.money.store import get_spend
from webapp.photos.pages import Picture, picture
from webapp.photos.store import list_photos
from webapp.plan.guard import Here
from webapp.values.dates import show_date, show_long_day, show_moment
from webapp.values.duration import show_minutes
from webapp.values.money import show_money
from webapp.values.words import join_words
from webapp.workdays import store
from webapp.workdays.pages.alone import told_line
from webapp.workdays.rules.hours import Hours
from webapp.workdays.store import EntryFacts
from webapp.workdays.store.alone import told_on
from webapp.workdays.store.people import day_people

WHOSE = {"self": "me", "unpaid helper": "unpaid help", "paid helper": "paid help", "hired": "hired hands"}


@dataclass(frozen=True, slots=True)
class Row:
    """One line of a list; `right` is its figure."""

    title: str
    detail: str
    href: str
    right: str = ""


@dataclass(frozen=True, slots=True)
class Shown:
    """A picture of the day, with its page."""

    picture: Picture
    href: str


@dataclass(frozen=True, slots=True)
class Change:
    at: str
    field: str
    was: str
    became: str


@dataclass(frozen=True, slots=True)
class DayPage:
    sheet: Sheet
    number: int
    """its id, as addresses name it"""
    heading: str
    hours: tuple[tuple[str, str], ...]
    """kind of hands and its hours; never one sum"""
    paid_help: bool
    lost: bool
    words: tuple[tuple[str, str], ...]
    work: tuple[Row, ...]
    pictures: tuple[Shown, ...]
    spend: tuple[Row, ...]
    shots: tuple[Row, ...]
    changes: tuple[Change, ...]
    written: str
    amend: str
    all_days: str


def day_page(session: Session, here: Here, workday_id: int) -> DayPage:
    day = store.get_day(session, here.build.id, workday_id)
    words, heading = day.words, show_long_day(day.words.day)
    filmed = frozenset(store.shot_ids(session, workday_id))
    said = (
        ("Weather", words.weather.capitalize()),
        ("What got done", words.done),
        ("What stopped me", words.stopped_by),
        ("Next first step", words.next_step),
        ("Footage", words.filmed),
        ("Who helped", join_words(day_people(session, workday_id))),
        ("Working alone", _told(session, here, words.day)),
    )
    logged = in_utc(day.logged_at).astimezone()
    late = logged.date() != words.day
    return DayPage(
        sheet=here.sheet("G4", "Workdays", heading),
        number=workday_id,
        heading=heading,
        hours=_hours(words.hours),
        paid_help=words.hours.paid > 0,
        lost=words.lost,
        words=tuple((label, text) for label, text in said if text),
        work=tuple(_work(here, entry) for entry in store.list_entries(session, workday_id)),
        pictures=_pictures(session, here, workday_id),
        spend=_spend(session, here, workday_id),
        shots=tuple(
            Row(shot.what, shot.where_it_lies, f"{here.base}/footage/{shot.id}")
            for shot in (list_shots(session, here.build.id) if filmed else ())
            if shot.id in filmed
        ),
        changes=tuple(
            Change(show_moment(in_utc(one.at).astimezone()), one.field, one.was, one.became)
            for one in store.list_changes(session, workday_id)
        ),
        written=f"{show_date(logged.date())} {logged:%H:%M}" if late else f"{logged:%H:%M}",
        amend=f"{here.base}/workdays/{workday_id}/amend",
        all_days=f"{here.base}/workdays",
    )


def _told(session: Session, here: Here, day: date) -> str:
    lines = [told_line(told) for told in told_on(session, here.build.id, day)]
    return ". ".join(f"{line.words}, {line.detail}" for line in lines)


def _hours(hours: Hours) -> tuple[tuple[str, str], ...]:
    return tuple((name.capitalize(), show_minutes(minutes)) for name, minutes in hours.kinds())


def _work(here: Here, entry: EntryFacts) -> Row:
    how = "Finished that day" if entry.finished else "Worked on"
    whose = "" if entry.who == "self" else f", {WHOSE[entry.who]}"
    time = show_minutes(entry.minutes) if entry.minutes is not None else ""
    return Row(entry.title, f"{how}{whose}", f"{here.base}/tasks/{entry.task_id}", time)


def _pictures(session: Session, here: Here, workday_id: int) -> tuple[Shown, ...]:
    photos = list_photos(session, store.day_photo_ids(session, workday_id))
    return tuple(Shown(picture(photo), f"{here.base}/pictures/{photo.id}") for photo in photos)


def _spend(session: Session, here: Here, workday_id: int) -> tuple[Row, ...]:
    lines = [get_spend(session, here.build.id, spend_id) for spend_id in store.spend_ids(session, workday_id)]
    return tuple(
        Row(
            line.what,
            ", ".join(part for part in (line.supplier, line.kind, "receipt kept" if line.receipt else "") if part),
            f"{here.base}/spend/{line.id}",
            show_money(line.total_cents, here.build.currency),
        )
        for line in lines
    )
