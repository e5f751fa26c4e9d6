"""The phases of a build, and one phase with its tasks."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan import store
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import KINDS, WHO, Options, count_words, state_words, task_words, wait_words
from webapp.plan.rules.kinds import TaskState
from webapp.plan.rules.moves import too_early
from webapp.values.own_words import own
from webapp.values.words import plural

CLEAN_SHEET = "Nothing is recorded yet, so nothing stops you. Three lines are enough to begin, and any can wait."


@dataclass(frozen=True, slots=True)
class PhaseLine:
    id: int
    number: int
    title: str
    purpose: str
    href: str
    counts: str
    next_step: str
    """the one task to turn to, with what it is; empty where nothing is left to do"""


@dataclass(frozen=True, slots=True)
class PhasesPage:
    sheet: Sheet
    base: str
    lede: str
    phases: tuple[PhaseLine, ...]
    ordering: bool
    form: FormState
    first_lines: tuple[tuple[str, str, str], ...]


@dataclass(frozen=True, slots=True)
class TaskLine:
    id: int
    title: str
    detail: str
    href: str
    state: str
    """empty for what is not started, since nearly all are"""
    wait: str
    early: str
    """what it needs and yet stands before"""


@dataclass(frozen=True, slots=True)
class PhasePage:
    sheet: Sheet
    base: str
    href: str
    stops_href: str
    title: str
    purpose: str
    counts: str
    to_do: tuple[TaskLine, ...]
    done: tuple[TaskLine, ...]
    ordering: bool
    form: FormState
    kinds: Options
    who: Options
    added: bool
    """the form is fresh after a task was added, so the next one can be typed at once"""

    @property
    def tasks(self) -> tuple[TaskLine, ...]:
        return self.to_do + self.done


@dataclass(frozen=True, slots=True)
class PhaseEditPage:
    sheet: Sheet
    href: str
    form: FormState


def phases_page(session: Session, here: Here, form: FormState | None = None, *, ordering: bool = False) -> PhasesPage:
    phases = store.list_phases(session, here.build.id)
    counts = store.count_tasks(session, here.build.id)
    steps = store.next_steps(session, here.build.id, here.today)
    lines = tuple(
        PhaseLine(
            id=phase.id,
            number=number,
            title=phase.title,
            purpose=phase.purpose,
            href=f"{here.base}/phases/{phase.id}",
            counts=count_words(counts.get(phase.id, {})),
            next_step=_next_words(steps.get(phase.id)),
        )
        for number, phase in enumerate(phases, 1)
    )
    return PhasesPage(
        sheet=here.sheet("P1", "Phases", "" if phases else "A clean sheet"),
        base=here.base,
        lede=_lede(counts, len(phases)),
        phases=lines,
        ordering=ordering and len(lines) > 1,
        form=form or FormState(),
        first_lines=_first_lines(here.base),
    )


def _lede(counts: Mapping[int, Mapping[str, int]], phases: int) -> str:
    if not phases:
        return CLEAN_SHEET
    still = sum(1 for by_state in counts.values() if set(by_state) - {TaskState.DONE.value})
    return f"{plural(phases, 'phase')} in your order, {still or 'none'} with something still to do."


def _next_words(step: store.NextStep | None) -> str:
    if step is None:
        return ""
    if step.state == TaskState.UNDER_WAY:
        return f"Under way: {step.title}"
    return f"Next: {step.title}; something comes before it" if step.held else f"Next: {step.title}"


def _first_lines(base: str) -> tuple[tuple[str, str, str], ...]:
    return (
        (
            "Draw the outline",
            "Which walls, ceilings, floors and trenches will be closed. They carry the rest.",
            f"{base}/surfaces",
        ),
        (
            f"Copy your {own('permit')} card",
            "The number stays private. Type its own rule for lapsing.",
            f"{base}/permits",
        ),
        ("Write down a phase", "One line each. The order can be changed later.", "#f-title"),
    )


def phase_page(
    session: Session,
    here: Here,
    phase_id: int,
    form: FormState | None = None,
    *,
    ordering: bool = False,
    added: bool = False,
) -> PhasePage:
    phase = store.get_phase(session, here.build.id, phase_id)
    tasks = store.list_phase_tasks(session, phase_id)
    early = _early_words(tasks, store.needs_within(session, phase_id))
    lines = tuple(_task_line(here, task, early.get(task.id, "")) for task in tasks)
    done = {task.id for task in tasks if task.state == TaskState.DONE}
    counts: dict[str, int] = {}
    for task in tasks:
        counts[task.state] = counts.get(task.state, 0) + 1
    return PhasePage(
        sheet=here.sheet(f"P1-{phase.position}", "Phase", phase.title),
        base=here.base,
        href=f"{here.base}/phases/{phase_id}",
        stops_href=f"{here.base}/what-stops?phase={phase_id}",
        title=phase.title,
        purpose=phase.purpose,
        counts=count_words(counts),
        to_do=lines if ordering else tuple(line for line in lines if line.id not in done),
        done=() if ordering else tuple(line for line in lines if line.id in done),
        ordering=ordering and len(lines) > 1,
        form=form or FormState.of(low="1", likely="2", high="4", who="self"),
        kinds=KINDS,
        who=WHO,
        added=added,
    )


def _early_words(tasks: tuple[store.TaskFacts, ...], needs: tuple[tuple[int, int], ...]) -> dict[int, str]:
    """By task, what it needs and yet stands before, as long as both are open."""
    by_id = {task.id: task for task in tasks}
    found: dict[int, str] = {}
    for waiter, needed in too_early(tuple(by_id), needs):
        if TaskState.DONE.value not in (by_id[waiter].state, by_id[needed].state):
            found.setdefault(waiter, f"Stands before “{by_id[needed].title}”, which it needs")
    return found


def _task_line(here: Here, task: store.TaskFacts, early: str) -> TaskLine:
    return TaskLine(
        id=task.id,
        title=task.title,
        detail=task_words(task),
        href=f"{here.base}/tasks/{task.id}",
        state=_short_state(task, here.today),
        wait=wait_words(task, here.today),
        early=early,
    )


def _short_state(task: store.TaskFacts, today: date) -> str:
    if task.state == TaskState.NOT_STARTED:
        return ""
    return task.state if task.state != TaskState.DONE else state_words(task, today).removeprefix("done ")


def phase_edit_page(session: Session, here: Here, phase_id: int, form: FormState | None = None) -> PhaseEditPage:
    phase = store.get_phase(session, here.build.id, phase_id)
    return PhaseEditPage(
        sheet=here.sheet(f"P1-{phase.position}", "Phase", f"Change {phase.title}"),
        href=f"{here.base}/phases/{phase_id}",
        form=form or FormState.of(title=phase.title, purpose=phase.purpose),
    )
