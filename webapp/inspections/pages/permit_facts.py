"""The facts for a request for more time, on one sheet to print: days, visits, progress, reason.

No spend, no viewers, no notes of the builder's own: an office gets what is on record of its permit and of the work.
"""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.inspections import store
from webapp.inspections.pages.book import Book, read_book
from webapp.inspections.pages.clock import PermitLine, permit_line
from webapp.inspections.rules.facts import PermitFacts, VisitFacts
from webapp.inspections.rules.kinds import Outcome, ResultState
from webapp.plan import store as plan
from webapp.plan.guard import Here
from webapp.plan.rules.kinds import TaskState
from webapp.values.dates import show_date, show_long_day
from webapp.values.own_words import own
from webapp.values.words import plural

TELLING = "editing"


@dataclass(frozen=True, slots=True)
class VisitRow:
    day: str
    what: str
    said: str


@dataclass(frozen=True, slots=True)
class ProgressRow:
    name: str
    words: str


@dataclass(frozen=True, slots=True)
class PermitFactsPage:
    sheet: Sheet
    permit: PermitLine
    reason: str
    reason_href: str
    visits: tuple[VisitRow, ...]
    phases: tuple[ProgressRow, ...]
    surfaces: tuple[ProgressRow, ...]
    back: str


def permit_facts_page(session: Session, here: Here, code: str) -> PermitFactsPage:
    book = read_book(session, here)
    permit = store.get_permit(session, here.build.id, code)
    kept = [each for each in permit.extensions if each.withdrawn_on is None]
    newest = kept[-1] if kept else None
    base = f"{here.base}/permits/{permit.code}"
    return PermitFactsPage(
        sheet=here.sheet(f"V1-{permit.code}", own("Permits"), f"Facts for more time: {permit.name}"),
        permit=permit_line(book, permit),
        reason=newest.why if newest else "",
        reason_href=f"{here.base}/extensions/{newest.id}" if newest else f"{base}/extensions/new",
        visits=_visits(book, permit),
        phases=_phases(session, here.build.id),
        surfaces=_surfaces(book, permit),
        back=base,
    )


def _visits(book: Book, permit: PermitFacts) -> tuple[VisitRow, ...]:
    """All visits under this permit, by day, also those that failed or looked at nothing."""
    names = {each.id: each.name for each in book.inspections if each.permit_id == permit.id}
    shown = [each for each in book.visits if each.inspection_id in names]
    return tuple(
        VisitRow(show_long_day(each.day) if each.day else "Day not set", names[each.inspection_id], _said(book, each))
        for each in shown
    )


def _said(book: Book, visit: VisitFacts) -> str:
    if visit.outcome != Outcome.CAME:
        return f"{visit.outcome[:1].upper()}{visit.outcome[1:]}"
    of_it = [each for each in book.results if each.visit_id == visit.id and each.state != ResultState.REPLACED]
    parts = [
        f"{book.name(each.surface_id)}: {each.kind}{', withdrawn' if each.state == ResultState.WITHDRAWN else ''}"
        for each in of_it
    ]
    return "; ".join(parts) or "Came"


def _phases(session: Session, build_id: int) -> tuple[ProgressRow, ...]:
    """What is done of each phase, and its last day. Cutting episodes is no work under a permit."""
    tasks = [task for task in plan.list_tasks(session, build_id) if task.kind != TELLING]
    lines = []
    for phase in plan.list_phases(session, build_id):
        own = [task for task in tasks if task.phase_id == phase.id]
        done = [task for task in own if task.state == TaskState.DONE]
        if not own:
            continue
        last = max((task.done_on for task in done if task.done_on), default=None)
        until = f", the last on {show_date(last)}" if last else ""
        words = f"{len(done)} of {plural(len(own), 'task')} done{until}" if done else "not begun"
        if not done and any(task.state == TaskState.UNDER_WAY for task in own):
            words = "begun"
        lines.append(ProgressRow(phase.title, words))
    return tuple(lines)


def _surfaces(book: Book, permit: PermitFacts) -> tuple[ProgressRow, ...]:
    """Of each surface what passed under this permit, and whether it is closed."""
    kinds = [each for each in book.inspections if each.permit_id == permit.id]
    lines = []
    for surface in book.surfaces.values():
        found = [(each.name, book.standings(each).get(surface.id)) for each in kinds]
        passed = [f"{name} passed {show_date(at.day)}" for name, at in found if at and at.passed and at.day]
        owed = [f"{name}: {at.words}" for name, at in found if at and not at.passed]
        closed = f"closed on {show_date(surface.covered_on)}" if surface.covered_on else "open"
        lines.append(ProgressRow(surface.name, "; ".join((closed, *passed, *owed))))
    return tuple(lines)
