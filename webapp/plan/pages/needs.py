"""The needs of one task: taken out, added."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan import store
from webapp.plan.pages.ends import NeedLine, around
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import STRENGTHS, Options
from webapp.plan.rules.kinds import Strength, TaskState


@dataclass(frozen=True, slots=True)
class NeedsPage:
    sheet: Sheet
    href: str
    title: str
    needs: tuple[NeedLine, ...]
    also: str
    """what else it waits for, by kind: it is named on a sheet of its own"""
    phases: Options
    phase_id: int
    tasks: Options
    """those of the chosen phase; one phase at a time, because a long build has thousands"""
    strengths: tuple[tuple[str, str, str], ...]
    form: FormState


def needs_page(
    session: Session, here: Here, task_id: int, phase_id: int | None = None, form: FormState | None = None
) -> NeedsPage:
    task = store.get_task(session, here.build.id, task_id)
    chosen = store.get_phase(session, here.build.id, phase_id or task.phase_id)
    phases = store.list_phases(session, here.build.id)
    place = next(phase.position for phase in phases if phase.id == task.phase_id)
    offered = store.list_phase_tasks(session, chosen.id)
    written = around(session, here, task_id)
    return NeedsPage(
        sheet=here.sheet(f"P1-{place}.{task.position}", "Needs", f"What “{task.title}” needs"),
        href=f"{here.base}/tasks/{task_id}",
        title=task.title,
        needs=written.needs,
        also=written.also_needs,
        phases=tuple((str(phase.id), phase.title) for phase in phases),
        phase_id=chosen.id,
        tasks=(("", "Choose"), *(_option(other) for other in offered if other.id != task_id)),
        strengths=STRENGTHS,
        form=form or FormState.of(strength=Strength.HARD.value),
    )


def _option(task: store.TaskFacts) -> tuple[str, str]:
    return str(task.id), f"{task.title} (done)" if task.state == TaskState.DONE else task.title
