"""Everything on record that can stop something, read in a fixed number of queries."""

from collections.abc import Mapping
from dataclasses import dataclass, field
from datetime import datetime

from sqlmodel import Session

from webapp.footage.store import ShotFacts, list_shots
from webapp.hired.store import HiredFacts, list_hired
from webapp.inspections import store as inspections
from webapp.inspections.rules.booking import Offices
from webapp.inspections.rules.facts import (
    AskedFacts,
    CorrectionFacts,
    FeeFacts,
    InspectionFacts,
    PermitFacts,
    PlanChangeFacts,
    ResultFacts,
    VisitFacts,
)
from webapp.inspections.rules.results import Standing, standings
from webapp.plan import store as plan
from webapp.plan.rules.graph import Link
from webapp.plan.store import NeedFacts, PhaseFacts, TaskFacts
from webapp.readiness.rules import keys
from webapp.readiness.rules.letting import word_holds
from webapp.readiness.store.planned import grouped, planned
from webapp.surfaces import store as surfaces
from webapp.surfaces.store import (
    CoverFacts,
    CoverStepFacts,
    ItemFacts,
    LiftedFacts,
    QuestionFacts,
    SlotFacts,
    SurfaceFacts,
)
from webapp.surfaces.store.added import list_added


@dataclass(frozen=True, slots=True)
class Record:
    """One build's record as plain facts. The mappings below the lists are made from them once."""

    phases: tuple[PhaseFacts, ...]
    tasks: tuple[TaskFacts, ...]
    needs: tuple[NeedFacts, ...]
    task_links: tuple[Link, ...]
    """the needs between tasks, without those met long ago"""
    surfaces: tuple[SurfaceFacts, ...]
    slots: tuple[SlotFacts, ...]
    questions: tuple[QuestionFacts, ...]
    shots: tuple[ShotFacts, ...]
    permits: tuple[PermitFacts, ...]
    inspections: tuple[InspectionFacts, ...]
    visits: tuple[VisitFacts, ...]
    results: tuple[ResultFacts, ...]
    corrections: tuple[CorrectionFacts, ...]
    fees: tuple[FeeFacts, ...]
    asked: tuple[AskedFacts, ...]
    offices: Offices = field(default_factory=Offices)
    changes: tuple[PlanChangeFacts, ...] = ()
    """changes from what was approved"""
    coverings: tuple[CoverFacts, ...] = ()
    """coverings by mistake that stand: neither opened up nor settled since"""
    cover_steps: tuple[CoverStepFacts, ...] = ()
    hired: tuple[HiredFacts, ...] = ()
    hidden: tuple[tuple[int | None, int | None, int], ...] = ()
    """(item, line, surface) of what is hidden and still there; stretches of a line have no item"""
    surface: Mapping[int, SurfaceFacts] = field(default_factory=dict)
    task: Mapping[int, TaskFacts] = field(default_factory=dict)
    task_surfaces: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    """task -> surfaces it works on or closes"""
    surface_tasks: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    """the other way round"""
    closers: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    """surface -> tasks that close it"""
    unmeasured: Mapping[int, tuple[str, ...]] = field(default_factory=dict)
    """surface -> what is hidden in it and was not measured"""
    shot_surfaces: Mapping[int, tuple[int, ...]] = field(default_factory=dict)
    let_go: tuple[LiftedFacts, ...] = ()
    """every line of what was let go, by surface"""
    lifted: Mapping[str, LiftedFacts] = field(default_factory=dict)
    """node key -> how it was let go; a shot may belong to several surfaces, letting it go once is enough"""
    results_of: Mapping[int, tuple[ResultFacts, ...]] = field(default_factory=dict)
    """inspection -> its results, as are the next two"""
    corrections_of: Mapping[int, tuple[CorrectionFacts, ...]] = field(default_factory=dict)
    visits_of: Mapping[int, tuple[VisitFacts, ...]] = field(default_factory=dict)
    standings: Mapping[int, Mapping[int | None, Standing]] = field(default_factory=dict)
    """inspection -> surface (None: whole building) -> where it stands"""
    added: Mapping[int, datetime] = field(default_factory=dict)
    """surface -> when it was written down, where that is on record"""

    def unseen(self, inspection: InspectionFacts, surface_id: int) -> bool:
        """Whether it passed on the whole building before this surface was written down: nobody said it was seen."""
        if inspection.surface_ids or surface_id not in self.added:
            return False
        found = self.standings[inspection.id][None]
        said = (one for one in self.results_of.get(inspection.id, ()) if one.id == found.result_id)
        return found.passed and any(one.recorded_at < self.added[surface_id] for one in said)

    def word_on(self, inspection_id: int, surface_id: int | None) -> LiftedFacts | None:
        """The authority's word that stands in for an inspection of one surface, unless a later result overtook it.

        One of the whole building is never settled so: the word was said of one surface and frees that one alone.
        """
        line = self.lifted.get(keys.inspection(inspection_id, surface_id)) if surface_id else None
        results = self.results_of.get(inspection_id, ())
        return line if line and word_holds(line.on_day, line.at, results, surface_id) else None


def read_record(session: Session, build_id: int) -> Record:
    """One build's whole record, in a fixed number of queries."""
    parts = planned(session, build_id)
    walls = surfaces.list_surfaces(session, build_id)
    kinds = inspections.list_inspections(session, build_id)
    results = inspections.list_results(session, build_id)
    corrections = inspections.list_corrections(session, build_id)
    results_of = grouped((one.inspection_id, one) for one in results)
    corrections_of = grouped((one.inspection_id, one) for one in corrections)
    visits = inspections.list_visits(session, build_id)
    let_go = surfaces.list_lifted(session, build_id)
    items = [item for item in surfaces.list_items(session, build_id) if item.replaced_on is None]
    hired = list_hired(session, build_id)
    coverings = tuple(one for one in surfaces.list_covers(session, build_id) if one.stands)
    return Record(
        phases=plan.list_phases(session, build_id),
        tasks=parts.tasks,
        needs=parts.needs,
        task_links=parts.links,
        surfaces=walls,
        slots=surfaces.list_slots(session, build_id),
        questions=surfaces.list_questions(session, build_id),
        shots=list_shots(session, build_id),
        permits=inspections.list_permits(session, build_id),
        inspections=kinds,
        visits=visits,
        results=results,
        corrections=corrections,
        fees=inspections.list_fees(session, build_id),
        asked=inspections.list_asked(session, build_id),
        offices=inspections.read_offices(session, build_id),
        changes=inspections.list_plan_changes(session, build_id),
        coverings=coverings,
        cover_steps=surfaces.list_cover_steps(session, build_id) if coverings else (),
        hired=hired,
        hidden=_hidden(session, build_id, items) if hired else (),
        surface={wall.id: wall for wall in walls},
        task=parts.task,
        task_surfaces=parts.task_surfaces,
        surface_tasks=parts.surface_tasks,
        closers=parts.closers,
        unmeasured=grouped((item.surface_id, item.label) for item in items if None in {item.x_nm, item.y_nm}),
        shot_surfaces=grouped((at.shot_id, at.surface_id) for at in surfaces.list_shot_surfaces(session, build_id)),
        let_go=let_go,
        lifted={line.node_key: line for line in let_go},
        results_of=results_of,
        corrections_of=corrections_of,
        visits_of=grouped((visit.inspection_id, visit) for visit in visits),
        added=list_added(session, build_id),
        standings={
            kind.id: standings(kind, results_of.get(kind.id, ()), corrections_of.get(kind.id, ())) for kind in kinds
        },
    )


def _hidden(session: Session, build_id: int, items: list[ItemFacts]) -> tuple[tuple[int | None, int | None, int], ...]:
    runs = (run for run in surfaces.list_runs(session, build_id) if run.line_id)
    return (
        *((item.id, item.line_id, item.surface_id) for item in items),
        *((None, run.line_id, run.surface_id) for run in runs),
    )
