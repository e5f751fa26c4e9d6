"""Reading tests on lines."""

from dataclasses import dataclass
from datetime import date, datetime

from sqlalchemy import func, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.linetests.models import LineTest, LineTestChange
from webapp.linetests.rules.kinds import TestOutcome
from webapp.photos.models import Photo
from webapp.surfaces import store as surfaces
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class TestFacts:
    """One test. Readings as typed; hours "HH:MM"; `start_photo`, `end_photo`: SHA-256 or empty."""

    __test__ = False
    id: int
    line_id: int | None
    surface_id: int | None
    kind: str
    what: str
    wanted: str
    wanted_source: str
    day: date
    end_day: date | None
    start_reading: str
    end_reading: str
    start_time: str
    end_time: str
    outcome: str
    start_photo_id: int | None
    end_photo_id: int | None
    note: str
    replaced_by_id: int | None
    ended_on: date | None
    ended_why: str
    recorded_at: datetime
    start_photo: str = ""
    end_photo: str = ""

    @property
    def running(self) -> bool:
        return self.outcome == TestOutcome.RUNNING and self.stands

    @property
    def stands(self) -> bool:
        """Whether it was neither taken back nor done again."""
        return self.ended_on is None and self.replaced_by_id is None


@dataclass(frozen=True, slots=True)
class TestChangeFacts:
    __test__ = False
    field: str
    was: str
    became: str
    why: str
    at: datetime


_OWN = tuple(name for name in TestFacts.__dataclass_fields__ if name not in {"start_photo", "end_photo"})


@kept_list
def list_tests(session: Session, build_id: int) -> tuple[TestFacts, ...]:
    """Every test of the build, the latest first. One query."""
    first, last = aliased(Photo), aliased(Photo)
    chosen = (
        select(
            *(getattr(LineTest, name) for name in _OWN),
            func.coalesce(first.sha256, ""),
            func.coalesce(last.sha256, ""),
        )
        .outerjoin(first, col(first.id) == col(LineTest.start_photo_id))
        .outerjoin(last, col(last.id) == col(LineTest.end_photo_id))
        .where(col(LineTest.build_id) == build_id)
        .order_by(col(LineTest.day).desc(), col(LineTest.start_time).desc(), col(LineTest.id).desc())
    )
    return tuple(TestFacts(*row) for row in rows(session, chosen))


def get_test(session: Session, build_id: int, test_id: int) -> TestFacts:
    for one in list_tests(session, build_id):
        if one.id == test_id:
            return one
    raise NotFound("There is no such test here.")


def list_test_changes(session: Session, test_id: int) -> tuple[TestChangeFacts, ...]:
    """Oldest first."""
    names = TestChangeFacts.__dataclass_fields__
    chosen = select(*(getattr(LineTestChange, name) for name in names)).where(col(LineTestChange.test_id) == test_id)
    return tuple(TestChangeFacts(*row) for row in rows(session, chosen.order_by(col(LineTestChange.id))))


def surfaces_of_line(session: Session, build_id: int, line_id: int) -> tuple[int, ...]:
    """Where a line runs or has something."""
    runs = (one.surface_id for one in surfaces.list_runs(session, build_id) if one.line_id == line_id)
    items = (one.surface_id for one in surfaces.list_items(session, build_id) if one.line_id == line_id)
    return tuple(dict.fromkeys((*runs, *items)))


def changed_since(session: Session, build_id: int, test: TestFacts) -> date | None:
    """The first day after the test on which something of its line was changed, moved or taken out; None for none."""
    if test.line_id is None:
        return None
    last = test.end_day or test.day
    items = [one for one in surfaces.list_items(session, build_id) if one.line_id == test.line_id]
    runs = [one for one in surfaces.list_runs(session, build_id) if one.line_id == test.line_id]
    own = {("line", test.line_id), *(("item", one.id) for one in items), *(("run", one.id) for one in runs)}
    gone = [*(one.replaced_on for one in items), *(one.replaced_on for one in runs)]
    days = [day for day in gone if day]
    changes = surfaces.list_changes(session, build_id)
    days += [
        one.at.astimezone().date()
        for one in changes
        if (one.what_kind, one.what_id) in own and one.at > test.recorded_at
    ]
    return min((day for day in days if day >= last), default=None)
