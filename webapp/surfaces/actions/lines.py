"""Circuits and lines of the build: put on record, put right, put in order, taken out of use. Nothing is taken out."""

from collections.abc import Sequence
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session, col, select

from webapp.plan.rules.moves import shifted
from webapp.surfaces import store
from webapp.surfaces.actions.making import note_change, put_right, values_of
from webapp.surfaces.models import Item, Run, ServiceLine
from webapp.surfaces.rules.panel import spaces_of, taken
from webapp.values.dates import show_date
from webapp.values.errors import BadInput, RuleBroken
from webapp.values.verdict import Reason, Verdict, Way


@dataclass(frozen=True, slots=True)
class LineDraft:
    """What the builder says of a circuit or line."""

    code: str
    kind: str
    name: str
    service: str
    number: str
    breaker_a: int | None
    poles: int
    cable: str
    room: str
    note: str


def add_line(session: Session, build_id: int, draft: LineDraft) -> ServiceLine:
    """Put a circuit or line last in the list. Raises BadInput when its short name is taken."""
    listed = store.list_lines(session, build_id)
    if any(line.code.casefold() == draft.code.casefold() for line in listed):
        raise BadInput(f"“{draft.code}” is the short name of another line here.")
    position = max((line.position for line in listed), default=0) + 1
    made = ServiceLine(build_id=build_id, position=position, **values_of(draft))
    session.add(made)
    session.flush()
    return made


def edit_line(session: Session, build_id: int, line_id: int, draft: LineDraft) -> None:
    """Put right what is said of it; what was said stays readable. Its boxes and runs follow into another service."""
    row = session.get_one(ServiceLine, line_id)
    if row.service != draft.service:
        _follow(session, build_id, line_id, draft.service)
    put_right(session, row, draft, build_id, "line", line_id)


def _follow(session: Session, build_id: int, line_id: int, service: str) -> None:
    items = session.exec(select(Item).where(col(Item.line_id) == line_id)).all()
    runs = session.exec(select(Run).where(col(Run.line_id) == line_id)).all()
    _serve(session, build_id, "item", items, service)
    _serve(session, build_id, "run", runs, service)


def _serve(session: Session, build_id: int, kind: str, found: Sequence[Item] | Sequence[Run], service: str) -> None:
    for one in found:
        if one.service != service:
            note_change(session, build_id, kind, one.row_id, "service", one.service, service)
            one.service = service
            session.add(one)


def end_line(session: Session, build_id: int, line_id: int, on: date) -> None:
    """It was taken out of use: it stays listed with the day. Raises BadInput where that was said already."""
    row = session.get_one(ServiceLine, line_id)
    if row.ended_on is not None:
        raise BadInput(f"It is out of use since {show_date(row.ended_on)} already.")
    _set_end(session, row, build_id, on)


def use_line(session: Session, build_id: int, line_id: int, base: str) -> None:
    """It is in use again. Raises RuleBroken where its space has been given away since; `base`: path of the build."""
    lines = store.list_lines(session, build_id)
    own = next(line for line in lines if line.id == line_id)
    others = [line for line in lines if line.id != line_id and line.ended_on is None]
    if wrong := taken(spaces_of(own) or (), others):
        reason = Reason(wrong, f"{own.code} had it until it went out of use. Give it another space first, or none.")
        way = Way(f"Change {own.code}", f"{base}/services/{own.code}/edit")
        raise RuleBroken(Verdict((reason,)), "Not back in use", (way, Way("Panel list", f"{base}/services/panel")))
    _set_end(session, session.get_one(ServiceLine, line_id), build_id, None)


def _set_end(session: Session, row: ServiceLine, build_id: int, on: date | None) -> None:
    if row.ended_on != on:
        note_change(session, build_id, "line", row.row_id, "ended_on", row.ended_on, on)
        row.ended_on = on
        session.add(row)


def move_line(session: Session, build_id: int, line_id: int, by: int) -> None:
    """One place earlier (-1) or later (1) among those of its kind in use."""
    lines = store.list_lines(session, build_id)
    own = next(line for line in lines if line.id == line_id)
    kin = tuple(line.id for line in lines if line.kind == own.kind and line.ended_on is None)
    if line_id not in kin:
        raise BadInput(f"{own.code} is out of use, so it has no place in the order.")
    moved = iter(shifted(kin, line_id, by))
    order = [next(moved) if line.id in kin else line.id for line in lines]
    for position, number in enumerate(order, 1):
        row = session.get_one(ServiceLine, number)
        row.position = position
        session.add(row)
