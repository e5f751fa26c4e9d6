"""Openings of a surface and the runs on it: put on record, put right, marked as gone. Nothing is taken out."""

import json
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change, put_right, values_of
from webapp.surfaces.actions.moving import owe_run_anew
from webapp.surfaces.models import Opening, Run
from webapp.values.dates import show_date
from webapp.values.errors import BadInput


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
    made = Opening(surface_id=surface_id, **values_of(draft))
    session.add(made)
    session.flush()
    return made


def edit_opening(session: Session, build_id: int, opening_id: int, draft: OpeningDraft) -> None:
    """Put right what was mistyped; what was said stays readable."""
    row = session.get_one(Opening, store.get_opening(session, build_id, opening_id).id)
    put_right(session, row, draft, build_id, "opening", opening_id)


def remove_opening(session: Session, build_id: int, opening_id: int, on: date) -> None:
    """It was closed up, or is not there any more: it stays listed with the day."""
    row = session.get_one(Opening, store.get_opening(session, build_id, opening_id).id)
    row.removed_on = row.removed_on or on
    session.add(row)


def add_run(session: Session, surface_id: int, draft: RunDraft) -> Run:
    made = Run(surface_id=surface_id, **values_of(draft))
    session.add(made)
    session.flush()
    return made


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
    if old.replaced_on is not None:
        raise BadInput(f"It was replaced on {show_date(old.replaced_on)} already.")
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
