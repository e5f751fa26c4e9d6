"""Tests on lines: put on, taken off, put right, done again, taken back. Nothing that was read is overwritten unseen."""

from dataclasses import dataclass, fields
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.linetests import store
from webapp.linetests.models import LineTest, LineTestChange
from webapp.surfaces import store as surfaces
from webapp.surfaces.actions.picturing import place_picture
from webapp.values.dates import show_date
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict

NOT_SAID = "not said"
LABELS = {
    "line_id": "Line",
    "surface_id": "Surface",
    "kind": "How",
    "what": "What was tried",
    "wanted": "Wanted",
    "wanted_source": "Where that is from",
    "day": "Day it began",
    "start_time": "Hour it began",
    "start_reading": "Reading at the start",
    "start_photo_id": "Picture at the start",
    "end_day": "Day it ended",
    "end_time": "Hour it ended",
    "end_reading": "Reading at the end",
    "end_photo_id": "Picture at the end",
    "outcome": "What I saw",
    "note": "Note",
}


@dataclass(frozen=True, slots=True)
class Start:
    """A test as it is put on."""

    kind: str
    what: str
    day: date
    start_time: str
    start_reading: str
    wanted: str = ""
    wanted_source: str = ""
    line_id: int | None = None
    surface_id: int | None = None
    start_photo_id: int | None = None
    note: str = ""


@dataclass(frozen=True, slots=True)
class End:
    """A test as it is taken off."""

    end_day: date
    end_time: str
    end_reading: str
    outcome: str
    end_photo_id: int | None = None
    note: str = ""


def start_test(session: Session, build_id: int, start: Start, again: int | None = None) -> LineTest:
    """Put a test on record as it begins. `again`: the test that is done anew; it stays readable and counts no more."""
    test = LineTest(
        build_id=build_id, recorded_at=clock.now(), **{each.name: getattr(start, each.name) for each in fields(start)}
    )
    session.add(test)
    session.flush()
    _show_gauge(session, build_id, test, test.start_photo_id)
    if again is not None:
        store.get_test(session, build_id, again)
        old = session.get_one(LineTest, again)
        old.replaced_by_id = test.row_id
        session.add(old)
    return test


def end_test(session: Session, build_id: int, test_id: int, end: End) -> None:
    """Write down how it ended. Raises RuleBroken when it has ended already: then it is put right instead."""
    if not store.get_test(session, build_id, test_id).running:
        raise RuleBroken(Verdict((Reason("This test has ended already. Put it right instead."),)))
    test = session.get_one(LineTest, test_id)
    for each in fields(end):
        if each.name != "note" or end.note:
            setattr(test, each.name, getattr(end, each.name))
    session.add(test)
    session.flush()
    _show_gauge(session, build_id, test, test.end_photo_id)


def amend_test(session: Session, build_id: int, test_id: int, start: Start, end: End | None, why: str) -> int:
    """Put right what was written down; each part keeps what it was. Gives how many parts changed."""
    store.get_test(session, build_id, test_id)
    test, at, changed = session.get_one(LineTest, test_id), clock.now(), 0
    wanted = {each.name: getattr(start, each.name) for each in fields(start)}
    wanted |= {each.name: getattr(end, each.name) for each in fields(end) if each.name != "note"} if end else {}
    for name, became in wanted.items():
        was = getattr(test, name)
        if was == became or (name.endswith("photo_id") and became is None):
            continue
        before, after = (_words(session, build_id, name, one) for one in (was, became))
        session.add(LineTestChange(test_id=test_id, field=LABELS[name], was=before, became=after, why=why, at=at))
        setattr(test, name, became)
        changed += 1
    session.add(test)
    session.flush()
    return changed


def _words(session: Session, build_id: int, name: str, value: object) -> str:
    if value in {None, ""}:
        return NOT_SAID
    if name == "line_id":
        return next((one.code for one in surfaces.list_lines(session, build_id) if one.id == value), NOT_SAID)
    if name == "surface_id":
        return next((one.name for one in surfaces.list_surfaces(session, build_id) if one.id == value), NOT_SAID)
    if name.endswith("photo_id"):
        return f"picture {value}"
    return show_date(value) if isinstance(value, date) else str(value)


def take_back(session: Session, build_id: int, test_id: int, on: date, why: str) -> None:
    """It counts no more from this day on, with the reason; it stays readable."""
    store.get_test(session, build_id, test_id)
    test = session.get_one(LineTest, test_id)
    test.ended_on, test.ended_why = on, why
    session.add(test)
    session.flush()


def _show_gauge(session: Session, build_id: int, test: LineTest, photo_id: int | None) -> None:
    """A picture of the gauge belongs to the surface, and is the one that is owed of the test there."""
    if photo_id is None:
        return
    line = next((one for one in surfaces.list_lines(session, build_id) if one.id == test.line_id), None)
    on = store.surfaces_of_line(session, build_id, test.line_id) if test.line_id else ()
    places = (test.surface_id,) if test.surface_id else on
    owed = f"test:{'drain' if line.service == 'vent' else line.service}" if line else ""
    slots = surfaces.list_slots(session, build_id)
    for surface_id in places or (None,):
        here = [one for one in slots if one.surface_id == surface_id and one.photo_id is None]
        slot = next((one for one in here if owed and one.made_from == owed), None)
        place_picture(session, build_id, photo_id, surface_id, slot_id=slot.id if slot else None)
