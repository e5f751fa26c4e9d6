"""A surface that was covered before it was cleared: what was owed, the steps on the way out, opening it up again."""

import json
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core import clock
from webapp.surfaces import store
from webapp.surfaces.actions.covering import end_let_go
from webapp.surfaces.models import Cover, CoverStep
from webapp.surfaces.rules.kinds import CoverStepKind
from webapp.values.dates import show_date
from webapp.values.errors import BadInput


@dataclass(frozen=True, slots=True)
class Covering:
    """What the builder says of a covering by mistake. `extent`: which part, in words; empty for all of it."""

    on: date
    who: str
    extent: str
    layers: str
    how: str


@dataclass(frozen=True, slots=True)
class Step:
    """One step on the way out. `whole`: with it all that was covered is open again."""

    kind: str
    on: date
    who: str
    words: str
    photo_id: int | None = None
    whole: bool = False


def cover_by_mistake(
    session: Session,
    surface_id: int,
    covering: Covering,
    owed: list[tuple[str, str, str]],
    evidence: list[tuple[str, str, str]],
    task_id: int,
) -> Cover:
    """Write down that it was covered and not cleared. It closes nothing: everything owed goes on stopping.

    `owed`: (what, where it stood, key in the graph); `evidence`: (what, who said so, when). Both are frozen.
    """
    how = [(f"How it came: {covering.how}", covering.who, show_date(covering.on))]
    made = Cover(
        surface_id=surface_id,
        covered_on=covering.on,
        who=covering.who,
        layers=covering.layers,
        extent=covering.extent,
        not_cleared=json.dumps([list(line) for line in owed], ensure_ascii=False),
        evidence=json.dumps([list(line) for line in (*how, *evidence)], ensure_ascii=False),
        task_id=task_id,
        at=clock.now(),
    )
    session.add(made)
    session.flush()
    return made


def take_step(session: Session, build_id: int, cover_id: int, step: Step) -> None:
    """Write a step down. Opened up whole, it is open again: what was let go on that surface is owed anew.

    Raises BadInput for a day before it was covered, and for one that was opened up or settled already.
    """
    cover = store.get_mistake(session, build_id, cover_id)
    if not cover.stands:
        raise BadInput("This covering is over: it was opened up or settled. Its steps stay as they are.")
    if step.on < cover.covered_on:
        raise BadInput(f"It was covered on {show_date(cover.covered_on)}; this cannot have been before.")
    session.add(
        CoverStep(
            cover_id=cover_id,
            kind=CoverStepKind(step.kind).value,
            on_day=step.on,
            who=step.who,
            words=step.words,
            photo_id=step.photo_id,
            at=clock.now(),
        )
    )
    if step.kind == CoverStepKind.OPENED and step.whole:
        row = session.get_one(Cover, cover_id)
        row.opened_on, row.opened_why = step.on, step.words or "opened up to be seen"
        session.add(row)
        end_let_go(session, cover.surface_id, step.on)
    session.flush()
