"""Reading permits, inspections, visits, results, corrections, fees and what to have ready. `list_` is one query."""

from collections.abc import Iterable, Sequence
from dataclasses import replace
from itertools import groupby
from typing import Any, TypeVar

from sqlalchemy import ColumnElement, Select, func, select
from sqlalchemy.orm import aliased
from sqlmodel import Session, col

from webapp.core.database import kept_list, rows
from webapp.inspections.models import (
    AskedItem,
    Correction,
    Fee,
    Inspection,
    InspectionSurface,
    Result,
    Visit,
)
from webapp.inspections.rules.facts import (
    AskedFacts,
    CorrectionFacts,
    FeeFacts,
    InspectionFacts,
    ReopenedFacts,
    ResultFacts,
    VisitFacts,
)
from webapp.inspections.store.plan_changes import list_reopened
from webapp.papers.models import Paper
from webapp.photos.models import Photo
from webapp.surfaces.models import Surface
from webapp.values.errors import NotFound
from webapp.values.own_words import own

Where = ColumnElement[bool]
Found = TypeVar("Found")


def columns(table: Any, *names: str) -> list[Any]:
    return [getattr(table, name) for name in names]


_INSPECTION = (
    "id",
    "permit_id",
    "position",
    "code",
    "name",
    "must_be_ready",
    "notice_days",
    "ask_by",
    "office_id",
    "who",
    "before_what",
    "source",
    "holds_cover",
    "renews_permit",
    "trade",
    "who_there",
)


def _inspections(session: Session, *where: Where) -> tuple[InspectionFacts, ...]:
    chosen = (
        select(*columns(Inspection, *_INSPECTION), col(Surface.id))
        .outerjoin(InspectionSurface, col(InspectionSurface.inspection_id) == col(Inspection.id))
        .outerjoin(Surface, col(Surface.id) == col(InspectionSurface.surface_id))
        .where(*where)
        .order_by(col(Inspection.position), col(Inspection.id), col(Surface.position), col(Surface.id))
    )
    made = []
    for _, each in groupby(rows(session, chosen), key=lambda row: row[0]):
        lines = list(each)
        surfaces = tuple(line[-1] for line in lines if line[-1] is not None)
        fields: list[Any] = [*lines[0][:-1], surfaces]
        made.append(InspectionFacts(*fields))
    return tuple(made)


@kept_list
def list_inspections(session: Session, build_id: int) -> tuple[InspectionFacts, ...]:
    """In the builder's order, each with its surfaces clockwise."""
    return _inspections(session, col(Inspection.build_id) == build_id)


def get_inspection(session: Session, build_id: int, code: str) -> InspectionFacts:
    found = _inspections(session, col(Inspection.build_id) == build_id, col(Inspection.code) == code)
    return only(found, f"There is no {own('inspection')} called {code} here.")


def get_inspection_by_id(session: Session, build_id: int, inspection_id: int) -> InspectionFacts:
    found = _inspections(session, col(Inspection.build_id) == build_id, col(Inspection.id) == inspection_id)
    return only(found, f"There is no such {own('inspection')} here.")


def _visits(session: Session, *where: Where) -> tuple[VisitFacts, ...]:
    names = (
        "id",
        "inspection_id",
        "asked_on",
        "day",
        "window",
        "outcome",
        "reason",
        "note",
        "remote",
        "who_there",
        "asked_how",
    )
    order = (col(Visit.day).is_(None), col(Visit.day), col(Visit.id))
    return tuple(
        VisitFacts(*row) for row in rows(session, select(*columns(Visit, *names)).where(*where).order_by(*order))
    )


@kept_list
def list_visits(session: Session, build_id: int) -> tuple[VisitFacts, ...]:
    """By day; those without a day last."""
    return _visits(session, col(Visit.build_id) == build_id)


def get_visit(session: Session, build_id: int, visit_id: int) -> VisitFacts:
    found = _visits(session, col(Visit.build_id) == build_id, col(Visit.id) == visit_id)
    return only(found, "There is no such visit here.")


_RESULT = (
    "id",
    "visit_id",
    "inspection_id",
    "surface_id",
    "kind",
    "day",
    "part",
    "evidence",
    "state",
    "changed_on",
    "changed_why",
    "changed_by",
    "replaced_by_id",
    "recorded_at",
    "changed_who",
)


def _results(session: Session, *where: Where) -> tuple[ResultFacts, ...]:
    letter, kept = aliased(Photo), aliased(Photo)
    pictures = [
        func.coalesce(*columns(kept, "sha256"), *columns(Photo, "sha256"), ""),
        func.coalesce(*columns(letter, "sha256"), ""),
    ]
    chosen: Select[Any] = (
        select(*columns(Result, *_RESULT), *pictures, *columns(Result, "signed_by", "hired_id", "paper_id"))
        .join(Visit, col(Visit.id) == col(Result.visit_id))
        .outerjoin(Photo, col(Photo.id) == col(Result.photo_id))
        .outerjoin(letter, col(letter.id) == col(Result.changed_photo_id))
        .outerjoin(Paper, col(Paper.id) == col(Result.paper_id))
        .outerjoin(kept, col(kept.id) == col(Paper.photo_id))
        .where(*where)
        .order_by(col(Result.day), col(Result.id))
    )
    reopened = list_reopened(session)
    return tuple(_with_reopened(ResultFacts(*row), reopened) for row in rows(session, chosen))


def _with_reopened(result: ResultFacts, reopened: Iterable[ReopenedFacts]) -> ResultFacts:
    about = (result.inspection_id, result.surface_id, result.day, result.recorded_at)
    past = tuple((one.surface_id, one.change_id) for one in reopened if one.overtakes(*about))
    return replace(result, reopened=past) if past else result


@kept_list
def list_results(session: Session, build_id: int) -> tuple[ResultFacts, ...]:
    """All, also replaced and withdrawn ones, by day. Which one counts is said by `rules.results`."""
    return _results(session, col(Visit.build_id) == build_id)


def list_results_of(session: Session, inspection_id: int) -> tuple[ResultFacts, ...]:
    return _results(session, col(Result.inspection_id) == inspection_id)


def get_result(session: Session, build_id: int, result_id: int) -> ResultFacts:
    found = _results(session, col(Visit.build_id) == build_id, col(Result.id) == result_id)
    return only(found, "There is no such result here.")


_CORRECTION = (
    "number",
    "words",
    "place",
    "form",
    "rule_cited",
    "clears_by",
    "state",
    "done_on",
    "cleared_on",
    "cleared_by",
    "note",
)


def _corrections(session: Session, *where: Where) -> tuple[CorrectionFacts, ...]:
    before, after = aliased(Photo), aliased(Photo)
    chosen: Select[Any] = (
        select(
            col(Correction.id),
            *columns(Result, "id", "inspection_id", "visit_id"),
            *columns(Correction, "surface_id", "item_id", *_CORRECTION),
            func.coalesce(*columns(before, "sha256"), ""),
            func.coalesce(*columns(after, "sha256"), ""),
            *columns(Correction, "x_nm", "y_nm", "likely_min", "before_photo_id", "after_photo_id"),
        )
        .join(Result, col(Result.id) == col(Correction.result_id))
        .outerjoin(before, col(before.id) == col(Correction.before_photo_id))
        .outerjoin(after, col(after.id) == col(Correction.after_photo_id))
        .where(*where)
        .order_by(col(Correction.number), col(Correction.id))
    )
    return tuple(CorrectionFacts(*row) for row in rows(session, chosen))


@kept_list
def list_corrections(session: Session, build_id: int) -> tuple[CorrectionFacts, ...]:
    """By number. Whether one is still owed is said by `rules.corrections`, not by its state alone."""
    return _corrections(session, col(Correction.build_id) == build_id)


def list_corrections_of(session: Session, inspection_id: int) -> tuple[CorrectionFacts, ...]:
    return _corrections(session, col(Result.inspection_id) == inspection_id)


def last_correction_number(session: Session, build_id: int) -> int:
    """Corrections are numbered through the whole build, so that a number names one thing for ever."""
    chosen = select(func.coalesce(func.max(col(Correction.number)), 0)).where(col(Correction.build_id) == build_id)
    return int(rows(session, chosen)[0][0])


def get_correction(session: Session, build_id: int, correction_id: int) -> CorrectionFacts:
    found = _corrections(session, col(Correction.build_id) == build_id, col(Correction.id) == correction_id)
    return only(found, "There is no such correction here.")


def _fees(session: Session, *where: Where) -> tuple[FeeFacts, ...]:
    names = ("id", "permit_id", "visit_id", "amount_cents", "why", "due_on", "stops_visits", "paid_on", "spend_id")
    chosen = select(*columns(Fee, *names)).where(*where).order_by(col(Fee.id))
    return tuple(FeeFacts(*row) for row in rows(session, chosen))


@kept_list
def list_fees(session: Session, build_id: int) -> tuple[FeeFacts, ...]:
    return _fees(session, col(Fee.build_id) == build_id)


def get_fee(session: Session, build_id: int, fee_id: int) -> FeeFacts:
    return only(_fees(session, col(Fee.build_id) == build_id, col(Fee.id) == fee_id), "There is no such fee here.")


_ASKED = ("id", "inspection_id", "surface_id", "visit_id", "words", "source", "asked_on", "stops")


def _asked(session: Session, *where: Where) -> tuple[AskedFacts, ...]:
    chosen = select(*columns(AskedItem, *_ASKED, "done_on", "dropped_on")).where(*where)
    return tuple(AskedFacts(*row) for row in rows(session, chosen.order_by(col(AskedItem.id))))


@kept_list
def list_asked(session: Session, build_id: int) -> tuple[AskedFacts, ...]:
    """What to have ready, oldest first; also what is done or dropped."""
    return _asked(session, col(AskedItem.build_id) == build_id)


def get_asked(session: Session, build_id: int, asked_id: int) -> AskedFacts:
    found = _asked(session, col(AskedItem.build_id) == build_id, col(AskedItem.id) == asked_id)
    return only(found, "There is no such line on a list here.")


def only(found: Sequence[Found], sentence: str) -> Found:
    if not found:
        raise NotFound(sentence)
    return found[0]
