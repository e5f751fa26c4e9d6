"""Reading what was spent. Sums are made by the database from whole cents."""

from dataclasses import dataclass
from datetime import date, datetime
from typing import Any

from sqlalchemy import ColumnElement, Select, func, select
from sqlmodel import Session, col

from webapp.core.database import remembered, rows
from webapp.money.models import Spend, SpendChange
from webapp.photos.models import Photo
from webapp.plan.models import Phase
from webapp.values.errors import NotFound

Where = ColumnElement[bool]


@dataclass(frozen=True, slots=True)
class SpendFacts:
    """One line. `receipt` is the picture's SHA-256, `phase` the phase's title; both empty while there is none."""

    id: int
    day: date
    what: str
    supplier: str
    kind: str
    total_cents: int
    tax_cents: int
    value_cents: int | None
    phase_id: int | None
    task_id: int | None
    note: str
    phase: str
    receipt: str


@dataclass(frozen=True, slots=True)
class Sum:
    """The lines under one heading. `key` is a phase id or a kind; None for lines without a phase."""

    key: int | str | None
    label: str
    cents: int
    lines: int


@dataclass(frozen=True, slots=True)
class SpendChangeFacts:
    field: str
    was: str
    became: str
    why: str
    at: datetime


_OWN = ("id", "day", "what", "supplier", "kind", "total_cents", "tax_cents", "value_cents", "phase_id", "task_id")


def _lines(session: Session, *where: Where, first: int = 0, most: int = -1) -> tuple[SpendFacts, ...]:
    chosen: Select[Any] = (
        select(
            *(getattr(Spend, name) for name in (*_OWN, "note")),
            func.coalesce(col(Phase.title), ""),
            func.coalesce(col(Photo.sha256), ""),
        )
        .outerjoin(Phase, col(Phase.id) == col(Spend.phase_id))
        .outerjoin(Photo, col(Photo.id) == col(Spend.receipt_photo_id))
        .where(*where)
        .order_by(col(Spend.day).desc(), col(Spend.id).desc())
        .limit(most)
        .offset(first)
    )
    return tuple(SpendFacts(*row) for row in rows(session, chosen))


def _chosen(build_id: int, kind: str, phase_id: int | None, loose: bool) -> list[Where]:
    where = [col(Spend.build_id) == build_id]
    if kind:
        where.append(col(Spend.kind) == kind)
    if phase_id is not None:
        where.append(col(Spend.phase_id) == phase_id)
    if loose:
        where.append(col(Spend.phase_id).is_(None))
    return where


def list_spend(
    session: Session, build_id: int, kind: str = "", phase_id: int | None = None, loose: bool = False
) -> tuple[SpendFacts, ...]:
    """Newest first; of one kind or one phase where given. `loose`: only what belongs to no phase."""
    return _lines(session, *_chosen(build_id, kind, phase_id, loose))


def list_spend_of_task(session: Session, build_id: int, task_id: int) -> tuple[SpendFacts, ...]:
    """What was spent on one task, newest first."""
    return _lines(session, col(Spend.build_id) == build_id, col(Spend.task_id) == task_id)


@dataclass(frozen=True, slots=True)
class Account:
    """Some of the chosen lines, and the sums of all of them and of the whole build."""

    lines: tuple[SpendFacts, ...]
    count: int
    cents: int
    given_cents: int
    by_phase: tuple[Sum, ...]
    by_kind: tuple[Sum, ...]


def _account(session: Session, build_id: int, where: list[Where], first: int, most: int) -> Account:
    chosen = select(
        func.count(),
        func.coalesce(func.sum(col(Spend.total_cents)), 0),
        func.coalesce(func.sum(col(Spend.value_cents)), 0),
    ).where(*where)
    count, cents, given = rows(session, chosen)[0]
    lines = _lines(session, *where, first=first, most=most)
    return Account(lines, count, cents, given, sums_by_phase(session, build_id), sums_by_kind(session, build_id))


def account(
    session: Session, build_id: int, kind: str, phase_id: int | None, loose: bool, first: int, most: int
) -> Account:
    """`most` of the chosen lines from the `first`, newest before all others. Added up once after each write."""
    return remembered(
        session,
        ("account", build_id, kind, phase_id, loose, first, most),
        lambda: _account(session, build_id, _chosen(build_id, kind, phase_id, loose), first, most),
    )


def get_spend(session: Session, build_id: int, spend_id: int) -> SpendFacts:
    found = _lines(session, col(Spend.build_id) == build_id, col(Spend.id) == spend_id)
    if not found:
        raise NotFound("There is no such line of spend here.")
    return found[0]


def sums_by_phase(session: Session, build_id: int) -> tuple[Sum, ...]:
    """In the builder's order of phases; what belongs to none comes last, with key None."""
    chosen = (
        select(
            col(Spend.phase_id),
            func.coalesce(col(Phase.title), "No phase"),
            func.sum(col(Spend.total_cents)),
            func.count(),
        )
        .outerjoin(Phase, col(Phase.id) == col(Spend.phase_id))
        .where(col(Spend.build_id) == build_id)
        .group_by(col(Spend.phase_id))
        .order_by(col(Phase.position).is_(None), col(Phase.position), col(Phase.id))
    )
    return tuple(Sum(*row) for row in rows(session, chosen))


def sums_by_kind(session: Session, build_id: int) -> tuple[Sum, ...]:
    """The largest first."""
    cents = func.sum(col(Spend.total_cents))
    chosen = (
        select(col(Spend.kind), col(Spend.kind), cents, func.count())
        .where(col(Spend.build_id) == build_id)
        .group_by(col(Spend.kind))
        .order_by(cents.desc(), col(Spend.kind))
    )
    return tuple(Sum(*row) for row in rows(session, chosen))


def list_spend_changes(session: Session, spend_id: int) -> tuple[SpendChangeFacts, ...]:
    """Oldest first."""
    names = ("field", "was", "became", "why", "at")
    chosen = select(*(getattr(SpendChange, name) for name in names)).where(col(SpendChange.spend_id) == spend_id)
    return tuple(SpendChangeFacts(*row) for row in rows(session, chosen.order_by(col(SpendChange.id))))
