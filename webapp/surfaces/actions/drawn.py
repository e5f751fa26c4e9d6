"""Openings of a surface and the runs on it: put on record, put right, marked as gone. Nothing is taken out."""

import json
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.making import keep_on, note_change, put_away, put_right, refuse_twice, take_back
from webapp.surfaces.actions.moving import owe_run_anew
from webapp.surfaces.models import Opening, Run


@dataclass(frozen=True, slots=True)
class OpeningDraft:
    """A door, window, hatch or sleeve: lower left corner and rough size in nanometres."""

    kind: str
    name: str
    x_nm: int
    y_nm: int
    width_nm: int
    height_nm: int


@dataclass(frozen=True, slots=True)
class RunDraft:
    """A stretch of cable, pipe or duct; `points` as it is kept, made by `points_text`; the things at its ends, and the
    stretch on another surface that it goes on from, by id."""

    label: str
    line_id: int | None
    service: str
    points: str
    note: str
    from_item_id: int | None
    to_item_id: int | None
    continues_id: int | None


def points_text(points: tuple[tuple[int, int], ...]) -> str:
    """Bends as they are kept: a JSON list of [x, y] in nanometres."""
    return json.dumps(points)


def add_opening(session: Session, surface_id: int, draft: OpeningDraft) -> Opening:
    return keep_on(session, Opening, surface_id, draft)


def edit_opening(session: Session, build_id: int, opening_id: int, draft: OpeningDraft) -> None:
    """Put right what was mistyped; what was said stays readable."""
    row = session.get_one(Opening, store.get_opening(session, build_id, opening_id).id)
    put_right(session, row, draft, build_id, "opening", opening_id)


def remove_opening(session: Session, build_id: int, opening_id: int, on: date) -> None:
    """It was closed up, or is not there any more: it stays listed with the day."""
    put_away(session, session.get_one(Opening, store.get_opening(session, build_id, opening_id).id), on)


def return_opening(session: Session, build_id: int, opening_id: int, draft: OpeningDraft) -> None:
    """It is still there after all: it is drawn again as it is said now; the day it was gone since stays readable."""
    row = session.get_one(Opening, store.get_opening(session, build_id, opening_id).id)
    take_back(session, row, build_id, "opening")
    put_right(session, row, draft, build_id, "opening", opening_id)


def add_run(session: Session, surface_id: int, draft: RunDraft) -> Run:
    return keep_on(session, Run, surface_id, draft)


def edit_run(session: Session, build_id: int, run_id: int, draft: RunDraft) -> None:
    """Put right what was mistyped or mismeasured; what was said stays readable."""
    row = session.get_one(Run, store.get_run(session, build_id, run_id).id)
    put_right(session, row, draft, build_id, "run", run_id)


def replace_run(session: Session, build_id: int, run_id: int, draft: RunDraft, on: date) -> Run:
    """It was pulled anew along another way: the old one stays on record, marked with the day.

    What went on from the old one goes on from the new one.
    Raises BadInput where that was said already.
    """
    old = session.get_one(Run, store.get_run(session, build_id, run_id).id)
    refuse_twice(old.replaced_on)
    made = add_run(session, old.surface_id, draft)
    old.replaced_on, old.replaced_by_id = on, made.row_id
    session.add(old)
    for one in store.list_runs(session, build_id):
        if one.continues_id == run_id and one.replaced_on is None:
            row = session.get_one(Run, one.id)
            note_change(session, build_id, "run", one.id, "continues_id", run_id, made.row_id)
            row.continues_id = made.row_id
            session.add(row)
    owe_run_anew(session, old, made, on)
    return made
