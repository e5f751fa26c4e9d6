"""What the sheets of voice notes show. What notes are about is named by the packages above and handed in as `spots`."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.values.dates import show_day, show_moment
from webapp.values.errors import NotFound
from webapp.voice import store
from webapp.voice.actions import LOOSE
from webapp.voice.rules.places import PlaceKind, Spot
from webapp.voice.store import NoteFacts

Choices = tuple[tuple[str, str], ...]
Spots = Sequence[Spot]
AT_ONCE = 60
TITLE = 90
"""characters of a note's words in a list"""
GROUPS = {PlaceKind.SURFACE: "Surfaces", PlaceKind.WORKDAY: "Workdays", PlaceKind.VISIT: "Visits"}


@dataclass(frozen=True, slots=True)
class Group:
    """Options of a select under one heading; `options` are (value, words)."""

    label: str
    options: Choices


@dataclass(frozen=True, slots=True)
class NoteLine:
    """One note in a list. `length`: "0:42", or empty where nobody knows; `place`: (words, address)."""

    id: int
    words: str
    title: str
    when: str
    length: str
    sound: str
    place: tuple[str, str]
    href: str


@dataclass(frozen=True, slots=True)
class SaidPage:
    """G3. `unwritten` come first; `days` are all of them by the day they were said."""

    sheet: Sheet
    unwritten: tuple[NoteLine, ...]
    left: int
    days: tuple[tuple[str, tuple[NoteLine, ...]], ...]
    new: str
    older: str
    newer: str


@dataclass(frozen=True, slots=True)
class RecordPage:
    """Where a note is recorded, or its file chosen. `spot`: what it will be about, if that is known."""

    sheet: Sheet
    spot: Spot | None
    action: str
    back: str
    groups: tuple[Group, ...]
    limit_mb: int
    kept: str
    phone: str
    form: FormState


@dataclass(frozen=True, slots=True)
class NotePage:
    sheet: Sheet
    note: NoteLine
    facts: tuple[tuple[str, str], ...]
    changes: tuple[tuple[str, str], ...]
    groups: tuple[Group, ...]
    here: str
    all: str
    words_form: FormState
    place_form: FormState
    errors: FormState


@dataclass(frozen=True, slots=True)
class OfPage:
    """What was said at one thing, put into the page of that thing; by itself it is a sheet."""

    sheet: Sheet
    label: str
    lines: tuple[NoteLine, ...]
    new: str


def by_key(spots: Spots) -> dict[str, Spot]:
    return {spot.key: spot for spot in spots}


def groups_of(spots: Spots) -> tuple[Group, ...]:
    found = (
        (label, tuple((one.key, one.label) for one in spots if one.kind == kind)) for kind, label in GROUPS.items()
    )
    return tuple(Group(label, options) for label, options in found if options)


def show_length(seconds: int | None) -> str:
    """`0:42`, `12:05`; empty where nobody knows."""
    return "" if seconds is None else f"{seconds // 60}:{seconds % 60:02}"


def _line(note: NoteFacts, here: Here, spots: Spots) -> NoteLine:
    spot = next((one for one in spots if (one.kind, one.id) == (note.about_kind, note.about_id)), None)
    title = note.words if len(note.words) <= TITLE else f"{note.words[:TITLE].rstrip()} …"
    return NoteLine(
        id=note.id,
        words=note.words,
        title=title or "Not written down yet",
        when=show_when(note, here.today),
        length=show_length(note.seconds),
        sound=f"{here.base}/said/{note.id}/sound",
        place=(spot.label, spot.href) if spot else ("", ""),
        href=f"{here.base}/said/{note.id}",
    )


def show_when(note: NoteFacts, today: date) -> str:
    """`Sat 16 May, 17:48`, or that only its coming is known."""
    if note.said_at is None:
        return f"came {show_moment(note.received_at.astimezone())}, time unknown"
    return f"{show_day(date.fromisoformat(note.day), today)}, {note.said_at[11:16]}"


def said_page(session: Session, here: Here, spots: Spots, turn: int) -> SaidPage:
    every = sorted(store.list_notes(session, here.build.id), key=lambda one: (one.day, one.said_at or ""), reverse=True)
    first = (turn - 1) * AT_ONCE
    shown = [(note.day, _line(note, here, spots)) for note in every[first : first + AT_ONCE]]
    unwritten = [note for note in every if not note.words]
    days = dict.fromkeys(day for day, _ in shown)
    base = f"{here.base}/said"
    return SaidPage(
        sheet=here.sheet("G3", "Said"),
        unwritten=tuple(_line(note, here, spots) for note in unwritten[:AT_ONCE]) if turn == 1 else (),
        left=len(unwritten),
        days=tuple(
            (show_day(date.fromisoformat(day), here.today), tuple(line for on, line in shown if on == day))
            for day in days
        ),
        new=f"{base}/new",
        older=f"{base}?turn={turn + 1}" if len(every) > first + AT_ONCE else "",
        newer=f"{base}?turn={turn - 1}" if turn > 1 else "",
    )


def record_page(here: Here, spots: Spots, limit_mb: int, about: str = "", form: FormState | None = None) -> RecordPage:
    state = form or FormState.of(about=about)
    spot = by_key(spots).get(state.value("about"))
    return RecordPage(
        sheet=here.sheet("G3", "Said", "Say it"),
        spot=spot,
        action=f"{here.base}/said",
        back=spot.href if spot else f"{here.base}/said",
        groups=groups_of(spots),
        limit_mb=limit_mb,
        kept=state.value("sound_kept"),
        phone="/phone",
        form=state,
    )


def note_page(
    session: Session, here: Here, spots: Spots, note_id: int, which: str = "", form: FormState | None = None
) -> NotePage:
    """`which` form (words, place) is drawn again as `form`."""
    note = store.get_note(session, here.build.id, note_id)
    about = next((one.key for one in spots if (one.kind, one.id) == (note.about_kind, note.about_id)), "")
    forms = {"words": FormState.of(words=note.words), "place": FormState.of(about=about)}
    if form is not None:
        forms[which] = form
    return NotePage(
        sheet=here.sheet("G3", "Said", "Said aloud"),
        note=_line(note, here, spots),
        facts=(
            ("Said", show_when(note, here.today)),
            ("Came", show_moment(note.received_at.astimezone())),
            ("Length", show_length(note.seconds) or "not said by the file"),
            ("File", f"{note.original_name}, {-(-note.size // 1000)} kB"),
        ),
        changes=tuple(
            (f"{change.field.capitalize()} before: {change.was or 'nothing'}", show_moment(change.at.astimezone()))
            for change in store.list_note_changes(session, note_id)
        ),
        groups=groups_of(spots),
        here=f"{here.base}/said/{note_id}",
        all=f"{here.base}/said",
        words_form=forms["words"],
        place_form=forms["place"],
        errors=form or FormState(),
    )


def of_page(session: Session, here: Here, spots: Spots, key: str) -> OfPage:
    spot = by_key(spots).get(key)
    if spot is None:
        raise NotFound("There is nothing of that name in this build.")
    every, about = store.list_notes(session, here.build.id), (spot.kind, spot.id)
    notes = (one for one in every if (one.about_kind, one.about_id) == about)
    return OfPage(
        sheet=here.sheet("G3", "Said", f"Said: {spot.label}"),
        label=spot.label,
        lines=tuple(_line(note, here, spots) for note in notes),
        new=f"{here.base}/said/new?about={spot.key}",
    )


def place_words(spots: Spots, note: NoteFacts) -> str:
    """Where a note is, in words for its history."""
    return next((one.label for one in spots if (one.kind, one.id) == (note.about_kind, note.about_id)), LOOSE)
