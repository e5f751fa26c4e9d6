"""Hired trades and tests on lines."""

from webapp.demo.actions.book import EVENING, Book, moment
from webapp.demo.rules.told_rows import Test
from webapp.demo.rules.trades import TRADES, Trade
from webapp.hired.models import Hired, HiredPart, HiredSpend, HiredWait
from webapp.hired.rules.kinds import PartKind
from webapp.linetests.models import LineTest
from webapp.linetests.rules.kinds import TestKind, TestOutcome
from webapp.linetests.rules.published import VALUES

_HOW = (
    ("moisture", TestKind.MOISTURE),
    ("network", TestKind.NETWORK),
    ("insulation", TestKind.INSULATION),
    ("supply", TestKind.WATER_PRESSURE),
    ("yard line", TestKind.WATER_PRESSURE),
    ("", TestKind.WATER),
)
_SEEN = {"not dry": TestOutcome.MOVED}
GAUGES = {"TS3": "P106"}
"""tests of which the builder has a picture of the gauge"""


def write_hired(book: Book) -> None:
    """After the spend; the trades are also known by the names of their papers."""
    book.keep("hired", {one.id: _hired(book, number, one) for number, one in enumerate(TRADES, 1)})
    own = book.ids["hired"]
    for one in TRADES:
        hired_id = own[one.id]
        parts = [(PartKind.TASK, book.id("task", name)) for name in one.tasks]
        parts += [(PartKind.SURFACE, book.id("surface", name)) for name in one.places]
        parts += [(PartKind.LINE, book.id("line", name)) for name in one.lines]
        book.add(*(HiredPart(hired_id=hired_id, part_kind=kind, part_id=part_id) for kind, part_id in parts))
        book.add(*(_wait(hired_id, kind, words, book) for kind, words in one.waits))
        bills = (row for row in book.content.spend if row.supplier == one.id and row.project == "bindery")
        book.add(*(HiredSpend(hired_id=hired_id, spend_id=book.id("spend", row.id)) for row in bills))
    own |= {paper: own[one.id] for one in TRADES for paper in one.papers}


def _hired(book: Book, number: int, one: Trade) -> Hired:
    seen = book.done_day(one.seen_by)
    return Hired(
        build_id=book.build.id,
        code=f"H{number:02d}",
        trade=one.trade,
        does=one.does,
        licence=one.licence,
        licence_seen_on=seen if one.licence else None,
        licence_seen_how=one.licence_seen_how,
        insured=one.insured,
        ended_on=book.done_day(one.done_by),
        recorded_at=moment(seen or book.content.saturday, EVENING),
    )


def _wait(hired_id: int, kind: str, words: str, book: Book) -> HiredWait:
    return HiredWait(hired_id=hired_id, kind=kind, words=words, recorded_at=moment(book.content.saturday, EVENING))


def write_tests(book: Book) -> None:
    """Every test of the scenario, with its readings and hours."""
    book.keep("test", {row.id: _test(book, row) for row in book.content.tests})


def _test(book: Book, row: Test) -> LineTest:
    kind = next(kind for word, kind in _HOW if word in row.kind)
    offered = next((one for one in VALUES if row.wanted and one.wanted.startswith(row.wanted)), None)
    return LineTest(
        build_id=book.build.id,
        line_id=book.ids["line"].get(row.service),
        surface_id=book.maybe("surface", row.surface),
        kind=kind,
        what=row.kind,
        wanted=row.wanted,
        wanted_source=offered.source if offered else "",
        day=row.day,
        end_day=row.day,
        start_reading=row.start_reading,
        end_reading=row.end_reading,
        start_time=f"{row.start_time:%H:%M}" if row.start_time else "",
        end_time=f"{row.end_time:%H:%M}" if row.end_time else "",
        outcome=_SEEN.get(row.outcome, TestOutcome.HELD),
        start_photo_id=book.ids["photo"].get(GAUGES.get(row.id, "")),
        note=row.note,
        recorded_at=moment(row.day, EVENING),
    )
