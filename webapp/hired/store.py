"""Reading hired trades: who, what they do, what is still waited for, what was paid."""

from collections import defaultdict
from collections.abc import Iterable
from dataclasses import dataclass, field, replace
from datetime import date, datetime
from typing import Any

from sqlalchemy import Select, select
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.hired.models import Hired, HiredChange, HiredPart, HiredSpend, HiredWait
from webapp.values.errors import NotFound

Part = tuple[str, int]
"""(kind, id of its table)"""


@dataclass(frozen=True, slots=True)
class WaitFacts:
    """One thing waited for. `paper_id`: the paper it came as."""

    id: int
    hired_id: int
    kind: str
    words: str
    stops: bool
    asked_on: date | None
    came_on: date | None
    dropped_on: date | None
    dropped_why: str
    paper_id: int | None

    @property
    def open(self) -> bool:
        return self.came_on is None and self.dropped_on is None


@dataclass(frozen=True, slots=True)
class HiredFacts:
    """A hired trade, whole. Name, licence and how to reach them are private."""

    id: int
    code: str
    trade: str
    name: str
    licence: str
    licence_seen_on: date | None
    licence_seen_how: str
    insured: str
    reach: str
    does: str
    note: str
    ended_on: date | None
    parts: tuple[Part, ...] = ()
    waits: tuple[WaitFacts, ...] = ()
    spend_ids: tuple[int, ...] = ()

    def of(self, kind: str) -> tuple[int, ...]:
        """Ids of the parts of one kind."""
        return tuple(part_id for part_kind, part_id in self.parts if part_kind == kind)


@dataclass(frozen=True, slots=True)
class HiredChangeFacts:
    field: str
    was: str
    became: str
    why: str
    at: datetime


@dataclass(slots=True)
class _Of:
    parts: list[Part] = field(default_factory=list)
    waits: list[WaitFacts] = field(default_factory=list)
    spend_ids: list[int] = field(default_factory=list)


_OWN = tuple(name for name in HiredFacts.__dataclass_fields__ if name not in {"parts", "waits", "spend_ids"})


def _of_build(table: Any, names: Iterable[str], build_id: int) -> Select[Any]:
    chosen = select(*(getattr(table, name) for name in names)).join(Hired, col(Hired.id) == table.hired_id)
    return chosen.where(col(Hired.build_id) == build_id).order_by(table.id)


@kept_list
def list_hired(session: Session, build_id: int) -> tuple[HiredFacts, ...]:
    """Every hired trade in the order they were put in, whole. Four queries."""
    of: dict[int, _Of] = defaultdict(_Of)
    for hired_id, kind, part_id in rows(session, _of_build(HiredPart, ("hired_id", "part_kind", "part_id"), build_id)):
        of[hired_id].parts.append((kind, part_id))
    for row in rows(session, _of_build(HiredWait, WaitFacts.__dataclass_fields__, build_id)):
        wait = WaitFacts(*row)
        of[wait.hired_id].waits.append(wait)
    for hired_id, spend_id in rows(session, _of_build(HiredSpend, ("hired_id", "spend_id"), build_id)):
        of[hired_id].spend_ids.append(spend_id)
    chosen = select(*(getattr(Hired, name) for name in _OWN)).where(col(Hired.build_id) == build_id)
    return tuple(
        replace(
            one, parts=tuple(of[one.id].parts), waits=tuple(of[one.id].waits), spend_ids=tuple(of[one.id].spend_ids)
        )
        for one in (HiredFacts(*row) for row in rows(session, chosen.order_by(col(Hired.id))))
    )


def hired_choices(session: Session, build_id: int) -> tuple[tuple[str, str], ...]:
    """Id and trade of everybody hired, to choose from; two of one trade are told apart by their short names."""
    every = list_hired(session, build_id)
    trades = [one.trade for one in every]
    return tuple(
        (str(one.id), one.trade if trades.count(one.trade) == 1 else f"{one.trade} {one.code}") for one in every
    )


def get_hired(session: Session, build_id: int, code: str) -> HiredFacts:
    for one in list_hired(session, build_id):
        if one.code == code:
            return one
    raise NotFound("There is no such hired trade here.")


def get_wait(session: Session, build_id: int, wait_id: int) -> tuple[HiredFacts, WaitFacts]:
    """What is waited for, and from whom."""
    for one in list_hired(session, build_id):
        for wait in one.waits:
            if wait.id == wait_id:
                return one, wait
    raise NotFound("Nothing of that kind is waited for here.")


def list_hired_changes(session: Session, hired_id: int) -> tuple[HiredChangeFacts, ...]:
    """Oldest first."""
    names = HiredChangeFacts.__dataclass_fields__
    chosen = select(*(getattr(HiredChange, name) for name in names)).where(col(HiredChange.hired_id) == hired_id)
    return tuple(HiredChangeFacts(*row) for row in rows(session, chosen.order_by(col(HiredChange.id))))
