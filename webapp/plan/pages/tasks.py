"""One task: what it is, what it needs, the cautions before it begins, and how it stands."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan import store
from webapp.plan.pages.ends import Around, around
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import (
    KINDS,
    WAIT_LENGTHENS,
    WEATHER,
    WHO,
    Options,
    estimate_words,
    planned_wait_words,
    state_words,
    wait_words,
    who_words,
)
from webapp.plan.rules.cautions import CLOSING, Caution, cautions_for
from webapp.plan.rules.dangers import BEFORE, Before, how_words
from webapp.plan.rules.kinds import TaskState, Weather
from webapp.plan.store.dangers import dangers_of
from webapp.values.dates import show_date, show_day
from webapp.values.duration import field_hours

GIVE_THE_DAY = "The wait is counted from the day the task was done. Give that day below; until then it stays open."


@dataclass(frozen=True, slots=True)
class Alone:
    """A task that is no work for one alone: how it is done, what to read before, where telling somebody is kept."""

    how: str
    before: tuple[Before, ...]
    href: str


@dataclass(frozen=True, slots=True)
class HistoryLine:
    what: str
    detail: str


@dataclass(frozen=True, slots=True)
class TaskPage:
    sheet: Sheet
    base: str
    href: str
    stops_href: str
    phase_title: str
    phase_href: str
    title: str
    facts: tuple[tuple[str, str], ...]
    """label and value: kind of work, hours, hands, weather"""
    note: str
    one_go: bool
    state: str
    """how it stands in words; `may_start` and its sisters say which forms are shown"""
    may_start: bool
    may_finish: bool
    may_reopen: bool
    done_on_known: bool
    wait: str
    wait_detail: str
    around: Around
    cautions: tuple[Caution, ...]
    closing: str
    alone: Alone | None
    """what to read before it is begun alone; None where nothing was ticked"""
    history: tuple[HistoryLine, ...]
    form: FormState


@dataclass(frozen=True, slots=True)
class TaskEditPage:
    sheet: Sheet
    href: str
    form: FormState
    kinds: Options
    who: Options
    weather: Options
    phases: Options
    dangers: Options
    has_start: bool


def task_page(session: Session, here: Here, task_id: int, form: FormState | None = None) -> TaskPage:
    task = store.get_task(session, here.build.id, task_id)
    phase = store.get_phase(session, here.build.id, task.phase_id)
    wait = wait_words(task, here.today)
    return TaskPage(
        sheet=here.sheet(f"P1-{phase.position}.{task.position}", "Task", task.title),
        base=here.base,
        href=f"{here.base}/tasks/{task_id}",
        stops_href=f"{here.base}/what-stops?task={task_id}",
        phase_title=phase.title,
        phase_href=f"{here.base}/phases/{phase.id}",
        title=task.title,
        facts=_facts(task),
        note=task.note,
        one_go=task.one_go,
        state=state_words(task, here.today),
        may_start=task.state in (TaskState.NOT_STARTED, TaskState.REOPENED),
        may_finish=task.state != TaskState.DONE,
        may_reopen=task.state == TaskState.DONE,
        done_on_known=task.done_on is not None,
        wait=wait,
        wait_detail=_wait_detail(task) if wait else "",
        around=around(session, here, task_id),
        cautions=cautions_for(task.kind, task.title, task.hands),
        closing=CLOSING,
        alone=_alone(session, here, task),
        history=_history(session, task_id, here.today),
        form=form or FormState.of(on=show_date(here.today)),
    )


def _alone(session: Session, here: Here, task: store.TaskFacts) -> Alone | None:
    dangers = dangers_of(session, here.build.id).get(task.id, ())
    if not dangers or task.state == TaskState.DONE:
        return None
    before = tuple(BEFORE[danger] for danger in dangers)
    return Alone(how_words(dangers), before, f"{here.base}/alone?task={task.id}")


def _facts(task: store.TaskFacts) -> tuple[tuple[str, str], ...]:
    facts = [
        ("Kind of work", task.kind.capitalize()),
        ("Hours, all hands", estimate_words(task)),
        ("Who", who_words(task).capitalize()),
    ]
    if task.weather == Weather.DRY:
        facts.append(("Weather", "Dry only"))
    if task.wait_days:
        facts.append(("Wait afterwards", planned_wait_words(task)))
    return tuple(facts)


def _wait_detail(task: store.TaskFacts) -> str:
    reason = f"{task.wait_reason[:1].upper()}{task.wait_reason[1:]}. " if task.wait_reason else ""
    if task.done_on is None:
        return f"{reason}{GIVE_THE_DAY}"
    return f"{reason}{WAIT_LENGTHENS}"


def _history(session: Session, task_id: int, today: date) -> tuple[HistoryLine, ...]:
    return tuple(
        HistoryLine(
            what=f"{change.was[:1].upper()}{change.was[1:]}, then {change.became}",
            detail=", ".join(
                part
                for part in (
                    change.on_day and show_day(change.on_day, today),
                    change.why,
                    f"written {show_day(change.at.date(), today)}",
                )
                if part
            ),
        )
        for change in store.task_history(session, task_id)
    )


def task_edit_page(session: Session, here: Here, task_id: int, form: FormState | None = None) -> TaskEditPage:
    task = store.get_task(session, here.build.id, task_id)
    phases = store.list_phases(session, here.build.id)
    place = next(phase.position for phase in phases if phase.id == task.phase_id)
    return TaskEditPage(
        sheet=here.sheet(f"P1-{place}.{task.position}", "Task", f"Change {task.title}"),
        href=f"{here.base}/tasks/{task_id}",
        form=form or _as_form(task, dangers_of(session, here.build.id).get(task_id, ())),
        kinds=KINDS[1:],
        who=WHO,
        weather=WEATHER,
        phases=tuple((str(phase.id), phase.title) for phase in phases),
        dangers=tuple((danger, f"{before.how[:1].upper()}{before.how[1:]}") for danger, before in BEFORE.items()),
        has_start=task.started_on is not None,
    )


def _as_form(task: store.TaskFacts, dangers: tuple[str, ...]) -> FormState:
    said = FormState.of(
        title=task.title,
        phase_id=str(task.phase_id),
        kind=task.kind,
        who=task.who,
        hands=str(task.hands),
        weather=task.weather,
        low=field_hours(task.low_min),
        likely=field_hours(task.likely_min),
        high=field_hours(task.high_min),
        wait_days=str(task.wait_days or ""),
        wait_reason=task.wait_reason,
        one_go="yes" if task.one_go else "",
        note=task.note,
        started_on=show_date(task.started_on) if task.started_on else "",
    )
    return FormState({**said.typed, "danger": dangers})
