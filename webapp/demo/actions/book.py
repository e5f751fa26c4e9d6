"""The invented build while it is written down: its scenario, and the id of each row by the scenario's own name."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import UTC, date, datetime, time

from sqlmodel import Session

from webapp.core.tables import Table
from webapp.demo.files.painting import Painted
from webapp.demo.rules.content import Content
from webapp.plan.store import BuildFacts

MORNING = time(9)
EVENING = time(19)
NIGHT = time(21, 30)
WHOLE = "whole"
"""how the scenario says that no single surface or permit is meant"""


@dataclass
class Book:
    session: Session
    content: Content
    build: BuildFacts
    ids: dict[str, dict[str, int]] = field(default_factory=dict)
    """table -> name in the scenario -> id"""
    painted: dict[str, Painted] = field(default_factory=dict)
    """files that are also shown in public"""

    def keep(self, kind: str, named: Mapping[str, Table]) -> None:
        """Put rows in the record and remember their ids."""
        self.session.add_all(named.values())
        self.session.flush()
        self.ids.setdefault(kind, {}).update({name: row.row_id for name, row in named.items()})

    def add(self, *rows: Table) -> None:
        """Put rows in the record that nothing points at."""
        self.session.add_all(rows)

    def id(self, kind: str, name: str) -> int:
        """Raises KeyError for a name the scenario does not have."""
        return self.ids[kind][name]

    def maybe(self, kind: str, name: str) -> int | None:
        """None where the scenario names nothing, or the whole build."""
        return None if name in {"", WHOLE} else self.id(kind, name)

    def done_day(self, name: str) -> date | None:
        """The day of a workday, or the last day of a task; None where nothing is named."""
        days = {row.id: row.day for row in self.content.workdays} | {row.id: row.last_day for row in self.content.tasks}
        return days[name] if name else None


def moment(day: date, at: time = EVENING) -> datetime:
    """A moment of the site's own clock, in UTC."""
    return datetime.combine(day, at).astimezone(UTC)
