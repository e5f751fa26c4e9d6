"""The forms at the gate: closing a surface, finishing a task, putting the day of a done one right."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import get_task
from webapp.readiness.pages.before_cover import NOUNS, ProofLine, proof_lines
from webapp.readiness.store import site
from webapp.surfaces.rules.kinds import SurfaceKind
from webapp.surfaces.store import get_surface
from webapp.values.dates import show_date
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class ClosePage:
    """`settled` is what the closing will be frozen with."""

    sheet: Sheet
    name: str
    noun: str
    form: FormState
    action: str
    back: str
    settled: tuple[ProofLine, ...]


@dataclass(frozen=True, slots=True)
class FinishPage:
    sheet: Sheet
    title: str
    form: FormState
    action: str
    back: str


@dataclass(frozen=True, slots=True)
class DonePage:
    """`closed`: surfaces whose closing has the same day and moves with it."""

    sheet: Sheet
    title: str
    form: FormState
    action: str
    back: str
    closed: tuple[str, ...]


def close_page(session: Session, here: Here, code: str, form: FormState | None = None) -> ClosePage:
    surface = get_surface(session, here.build.id, code)
    noun = NOUNS[SurfaceKind(surface.kind)]
    href = f"{here.base}/surfaces/{surface.code}"
    return ClosePage(
        sheet=here.sheet(f"W2-{surface.code}", "Before cover", f"Close the {noun}", surface.facing),
        name=surface.name,
        noun=noun,
        form=form or FormState.of(on=show_date(here.today), who="me", layers=surface.closed_by),
        action=f"{href}/cover",
        back=f"{href}/before-cover",
        settled=proof_lines(site(session, here.build, here.today), surface.id),
    )


def finish_page(session: Session, here: Here, task_id: int, form: FormState) -> FinishPage:
    task = get_task(session, here.build.id, task_id)
    href = f"{here.base}/tasks/{task.id}"
    return FinishPage(
        sheet=here.sheet("P1", "Phases", "Not finished yet"),
        title=task.title,
        form=form,
        action=f"{href}/finish",
        back=href,
    )


def done_page(session: Session, here: Here, task_id: int, form: FormState | None = None) -> DonePage:
    """Raises NotFound for a task that is not done."""
    task = get_task(session, here.build.id, task_id)
    if task.state != TaskState.DONE:
        raise NotFound("This task is not done; it has no day to put right.")
    record = site(session, here.build, here.today).record
    closed = (record.surface[surface_id] for surface_id, closers in record.closers.items() if task_id in closers)
    href = f"{here.base}/tasks/{task.id}"
    return DonePage(
        sheet=here.sheet("P1", "Phases", "The day it was done"),
        title=task.title,
        form=form or FormState.of(on=show_date(task.done_on) if task.done_on else ""),
        action=f"{href}/day",
        back=href,
        closed=tuple(surface.name for surface in closed if task.done_on and surface.covered_on == task.done_on),
    )
