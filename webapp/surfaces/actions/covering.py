"""Closing a surface for good, opening it again, and letting an owed thing go. The gate itself stands in `readiness`.

A covering by mistake (`mistaken.py`) is a row of the same table that closes nothing.
"""

import json
from collections.abc import Collection
from datetime import date

from sqlmodel import Session, select
from sqlmodel.sql.expression import SelectOfScalar

from webapp.core import clock
from webapp.surfaces.actions.making import note_change
from webapp.surfaces.models import Cover, Lifted, Surface
from webapp.surfaces.rules.kinds import LiftedBy
from webapp.surfaces.store.lists import NOTHING_OWED
from webapp.values.dates import show_date
from webapp.values.errors import BadInput, NotFound


def _surface(session: Session, surface_id: int) -> Surface:
    surface = session.get(Surface, surface_id)
    if surface is None:
        raise NotFound("There is no such surface here.")
    return surface


def _current(session: Session, surface_id: int) -> Cover | None:
    """The closing that still holds, if the surface is closed."""
    closing = _not_opened(surface_id).where(Cover.not_cleared == NOTHING_OWED)
    return session.exec(closing).first()


def _not_opened(surface_id: int) -> SelectOfScalar[Cover]:
    """Closings and coverings by mistake that nobody opened up since."""
    return select(Cover).where(Cover.surface_id == surface_id, Cover.opened_on == None)  # noqa: E711 (SQL's IS NULL)


def _mistakes(session: Session, surface_id: int) -> list[Cover]:
    """Coverings by mistake that nobody opened up since, also those settled meanwhile."""
    return list(session.exec(_not_opened(surface_id).where(Cover.not_cleared != NOTHING_OWED)).all())


def _counting(surface_id: int) -> SelectOfScalar[Lifted]:
    """What was let go on a surface and still counts."""
    return select(Lifted).where(Lifted.surface_id == surface_id, Lifted.ended_on == None)  # noqa: E711


def let_go(
    session: Session,
    surface_id: int,
    node_key: str,
    what: str,
    by: str,
    who: str,
    why: str,
    on_day: date,
    photo_id: int | None = None,
) -> None:
    """Let an owed thing go, with the reason that stays for ever. Raises BadInput without a reason, or a second time."""
    _surface(session, surface_id)
    if not why.strip():
        raise BadInput("Write why you let it go; the reason stays on record for ever.")
    by = LiftedBy(by).value
    if by == LiftedBy.AUTHORITY and not who.strip():
        raise BadInput("Write who at the authority said so.")
    before = _counting(surface_id).where(Lifted.node_key == node_key)
    if there := session.exec(before).first():
        raise BadInput(f"This was let go on {show_date(there.on_day)} already: {there.why}")
    session.add(
        Lifted(
            surface_id=surface_id,
            node_key=node_key,
            what=what,
            by=by,
            who=who.strip() or "me",
            why=why.strip(),
            on_day=on_day,
            photo_id=photo_id,
            at=clock.now(),
        )
    )


def mark_covered(
    session: Session, surface_id: int, on: date, who: str, layers: str, evidence: list[tuple[str, str, str]]
) -> Cover:
    """Write that a surface was closed, with the evidence it rested on, frozen: (what, who said so, when).

    Only the gate in `readiness` calls this, after it has asked. Raises BadInput when the surface is closed already.
    What was covered by mistake before is settled with it: closed after all.
    """
    surface = _surface(session, surface_id)
    if there := _current(session, surface_id):
        raise BadInput(f"{surface.name} was closed on {show_date(there.covered_on)} already.")
    made = Cover(
        surface_id=surface_id,
        covered_on=on,
        who=who.strip() or "me",
        layers=layers.strip(),
        evidence=json.dumps([list(line) for line in evidence], ensure_ascii=False),
        at=clock.now(),
    )
    session.add(made)
    for mistake in _mistakes(session, surface_id):
        mistake.cleared_on = mistake.cleared_on or on
        session.add(mistake)
    session.flush()
    return made


def correct_cover_day(session: Session, surface_id: int, on: date, why: str) -> None:
    """Put the day of the closing that holds right; the old day stays readable. Only `readiness` calls this."""
    surface, cover = _surface(session, surface_id), _current(session, surface_id)
    if cover is None:
        raise BadInput(f"{surface.name} is not closed.")
    if cover.covered_on != on:
        was, became = show_date(cover.covered_on), show_date(on)
        note_change(session, surface.build_id, "cover", cover.row_id, "closed on", was, became, why)
        cover.covered_on = on
        session.add(cover)
        session.flush()


def open_again(session: Session, surface_id: int, on: date, why: str, task_id: int | None = None) -> None:
    """Write that a closed surface was opened up; its closing and the evidence of then stay. Raises BadInput.

    What was let go for that closing is owed again for the next one; the old lines stay readable. `task_id`: the work
    of opening and closing again, whose hours and spend are its cost.
    """
    surface = _surface(session, surface_id)
    cover = _current(session, surface_id)
    if cover is None:
        raise BadInput(f"{surface.name} is not closed.")
    if not why.strip():
        raise BadInput("Write why it is opened up.")
    if on < cover.covered_on:
        raise BadInput(f"It was closed on {show_date(cover.covered_on)}; it cannot have been opened before.")
    cover.task_id = task_id
    for row in (cover, *_mistakes(session, surface_id)):
        row.opened_on, row.opened_why = on, why.strip()
        session.add(row)
    end_let_go(session, surface_id, on)


def end_let_go(session: Session, surface_id: int, on: date, keys: Collection[str] | None = None) -> None:
    """What was let go on a surface is owed again, only `keys` of it where given. The old lines stay readable."""
    for line in session.exec(_counting(surface_id)).all():
        if keys is None or line.node_key in keys:
            line.ended_on = on
            session.add(line)
