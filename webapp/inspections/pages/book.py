"""The whole record of permits and visits of one build, read once per page in a fixed number of queries."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.inspections import store
from webapp.inspections.rules.booking import Offices, Terms
from webapp.inspections.rules.corrections import clearing, what_is_owed
from webapp.inspections.rules.facts import (
    AskedFacts,
    CorrectionFacts,
    FeeFacts,
    InspectionFacts,
    PermitFacts,
    ResultFacts,
    VisitFacts,
)
from webapp.inspections.rules.kinds import Outcome, ResultKind
from webapp.inspections.rules.results import Standing, standings, summary
from webapp.plan.guard import Here
from webapp.surfaces import store as surfaces
from webapp.surfaces.rules.section import SurfaceState, is_turned, layers
from webapp.surfaces.store import SurfaceFacts
from webapp.values.dates import show_day

WHOLE = "Whole building"


@dataclass(frozen=True, slots=True)
class PlaceLine:
    """One surface under one inspection: its mark, where it stands, and what is still owed on it."""

    surface_id: int | None
    code: str
    name: str
    mark: str
    turned: bool
    words: str
    by: str
    day: date | None
    part: str
    passed: bool
    owed: int
    href: str


@dataclass(frozen=True, slots=True)
class CorrectionLine:
    id: int
    number: int
    words: str
    place: str
    detail: str
    cleared: str
    href: str


@dataclass(frozen=True, slots=True)
class VisitLine:
    """One visit in words: its day, how it went, what was said."""

    id: int
    day: date | None
    words: str
    detail: str
    ahead: bool
    href: str


@dataclass(frozen=True, slots=True)
class Book:
    """Everything, with the words pages need. `surfaces` in the builder's order."""

    base: str
    build_id: int
    today: date
    permits: Mapping[int, PermitFacts]
    inspections: tuple[InspectionFacts, ...]
    visits: tuple[VisitFacts, ...]
    results: tuple[ResultFacts, ...]
    corrections: tuple[CorrectionFacts, ...]
    fees: tuple[FeeFacts, ...]
    asked: tuple[AskedFacts, ...]
    surfaces: Mapping[int, SurfaceFacts]
    offices: Offices

    def terms(self, inspection: InspectionFacts) -> Terms:
        """What holds for asking for it: its office's days and hours, its own notice where it has one."""
        return self.offices.terms(inspection.office_id, inspection.notice_days, inspection.ask_by)

    def inspection(self, inspection_id: int) -> InspectionFacts:
        return next(each for each in self.inspections if each.id == inspection_id)

    def name(self, surface_id: int | None) -> str:
        return WHOLE if surface_id is None else self.surfaces[surface_id].name

    def code(self, surface_id: int | None) -> str:
        return "all" if surface_id is None else self.surfaces[surface_id].code

    def names(self) -> dict[int | None, str]:
        return {each.id: each.name for each in self.surfaces.values()} | {None: WHOLE}

    def standings(self, inspection: InspectionFacts) -> dict[int | None, Standing]:
        return standings(inspection, self.results, self.corrections)

    def summary(self, inspection: InspectionFacts) -> str:
        return summary({self.code(place): found for place, found in self.standings(inspection).items()})

    def mark(self, surface_id: int | None, passed: bool) -> tuple[str, bool]:
        kind = "wall" if surface_id is None else self.surfaces[surface_id].kind
        return layers(SurfaceState(kind, services=True, seen=passed)), is_turned(kind)

    def place_lines(self, inspection: InspectionFacts) -> tuple[PlaceLine, ...]:
        return tuple(self._place_line(place, found) for place, found in self.standings(inspection).items())

    def _place_line(self, place: int | None, found: Standing) -> PlaceLine:
        mark, turned = self.mark(place, found.passed)
        return PlaceLine(
            surface_id=place,
            code=WHOLE if place is None else self.code(place),
            name=self.name(place),
            mark=mark,
            turned=turned,
            words=f"{found.words[:1].upper()}{found.words[1:]}",
            by=found.by,
            day=found.day,
            part=found.part,
            passed=found.passed,
            owed=len(found.owed),
            href=f"{self.base}/results/{found.result_id}" if found.result_id else "",
        )

    def correction_lines(self, which: tuple[CorrectionFacts, ...]) -> tuple[CorrectionLine, ...]:
        return tuple(self._correction_line(each) for each in which)

    def _correction_line(self, each: CorrectionFacts) -> CorrectionLine:
        cleared = clearing(each, self.results)
        where = ", ".join(part for part in (self.code(each.surface_id), each.place) if part)
        said = "Said, not written. " if each.form != "written" else ""
        return CorrectionLine(
            id=each.id,
            number=each.number,
            words=each.words,
            place=f"Rule cited: {each.rule_cited or 'none'}. Place: {where}.",
            detail=f"{said}Clears by: {each.clears_by}. {'' if cleared else what_is_owed(each)}".strip(),
            cleared=f"Cleared by {cleared.by}" if cleared else "",
            href=f"{self.base}/corrections/{each.id}",
        )

    def visit_line(self, visit: VisitFacts) -> VisitLine:
        ahead = visit.outcome in {Outcome.PLANNED, Outcome.ASKED}
        said = [each for each in self.results if each.visit_id == visit.id and each.state == "current"]
        heard = ", ".join(f"{self.code(each.surface_id)} {_short(each.kind)}" for each in said)
        words = "" if visit.outcome == Outcome.CAME else f"{visit.outcome[:1].upper()}{visit.outcome[1:]}"
        detail = ". ".join(part.rstrip(".") for part in (heard, visit.window, visit.reason, visit.note) if part)
        return VisitLine(visit.id, visit.day, words or "Came", detail, ahead, f"{self.base}/visits/{visit.id}")

    def next_visit(self, inspection: InspectionFacts) -> VisitFacts | None:
        """The next one ahead, with a day before one without."""
        for visit in self.visits:
            if visit.inspection_id == inspection.id and visit.outcome in {Outcome.PLANNED, Outcome.ASKED}:
                return visit
        return None

    def when(self, visit: VisitFacts) -> str:
        day = show_day(visit.day, self.today) if visit.day else "day not set"
        return ", ".join(part for part in (day, visit.window, visit.outcome) if part)


def _short(kind: str) -> str:
    return kind.partition(",")[0] if kind == ResultKind.SMALL_ITEMS else kind


def read_book(session: Session, here: Here) -> Book:
    """A dozen queries, whatever the record holds."""
    build_id = here.build.id
    return Book(
        base=here.base,
        build_id=build_id,
        today=here.today,
        permits={each.id: each for each in store.list_permits(session, build_id)},
        inspections=store.list_inspections(session, build_id),
        visits=store.list_visits(session, build_id),
        results=store.list_results(session, build_id),
        corrections=store.list_corrections(session, build_id),
        fees=store.list_fees(session, build_id),
        asked=store.list_asked(session, build_id),
        surfaces={each.id: each for each in surfaces.list_surfaces(session, build_id)},
        offices=store.read_offices(session, build_id),
    )
