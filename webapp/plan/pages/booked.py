"""P2: what is booked for a day, and the form of one."""

from dataclasses import dataclass
from datetime import date

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan import store
from webapp.plan.pages.place import Here
from webapp.plan.pages.wording import Options
from webapp.plan.rules.calling_off import cancel_words
from webapp.plan.rules.kinds import BookedState, TaskState
from webapp.plan.store.booked import (
    BookedChangeFacts,
    BookedFacts,
    get_booked,
    list_booked,
    list_booked_changes,
)
from webapp.values.dates import show_day
from webapp.values.words import capital


@dataclass(frozen=True, slots=True)
class BookedLine:
    """One thing that comes. `flag`: it has to be moved."""

    what: str
    detail: str
    when: str
    flag: bool
    href: str


@dataclass(frozen=True, slots=True)
class BookedPage:
    """All of a build, or those of one task."""

    sheet: Sheet
    ahead: tuple[BookedLine, ...]
    past: tuple[BookedLine, ...]
    task_title: str
    task_href: str
    here: str
    tasks: Options
    form: FormState


@dataclass(frozen=True, slots=True)
class OneBookedPage:
    sheet: Sheet
    what: str
    state: str
    cancel: str
    flag: bool
    ahead: bool
    here: str
    back: str
    tasks: Options
    changes: tuple[BookedChangeFacts, ...]
    form: FormState


def booked_line(base: str, one: BookedFacts, task: str, today: date) -> BookedLine:
    parts = (
        f"For “{task}”" if task else "",
        cancel_words(one.day, one.cancel_by, one.cancel_days, today),
        capital(one.note),
    )
    day = show_day(one.day, today) if one.day else "day not set"
    past = "" if one.ahead else one.state
    return BookedLine(
        what=one.what,
        detail=". ".join(part.rstrip(".") for part in parts if part),
        when=", ".join(part for part in (day, one.window, past) if part),
        flag=one.state == BookedState.TO_MOVE,
        href=f"{base}/booked/{one.id}",
    )


def _tasks(session: Session, here: Here) -> Options:
    still = (task for task in store.list_tasks(session, here.build.id) if task.state != TaskState.DONE)
    return (("", "No task in particular"), *((str(task.id), task.title) for task in still))


def booked_page(session: Session, here: Here, task_id: int | None = None, form: FormState | None = None) -> BookedPage:
    """Raises NotFound for a task that is not there."""
    task = store.get_task(session, here.build.id, task_id) if task_id else None
    titles = {one.id: one.title for one in store.list_tasks(session, here.build.id)}
    found = [one for one in list_booked(session, here.build.id) if task is None or one.task_id == task.id]
    ahead: list[BookedLine] = []
    past: list[BookedLine] = []
    for one in found:
        title = titles.get(one.task_id or 0, "") if task is None else ""
        (ahead if one.ahead else past).append(booked_line(here.base, one, title, here.today))
    return BookedPage(
        sheet=here.sheet("P2", "Booked", f"Booked for “{task.title}”" if task else "Booked"),
        ahead=tuple(ahead),
        past=tuple(reversed(past)),
        task_title=task.title if task else "",
        task_href=f"{here.base}/tasks/{task.id}" if task else "",
        here=f"{here.base}/booked",
        tasks=_tasks(session, here),
        form=form or FormState.of(task=str(task_id or "")),
    )


def one_booked_page(session: Session, here: Here, booked_id: int, form: FormState | None = None) -> OneBookedPage:
    one = get_booked(session, here.build.id, booked_id)
    return OneBookedPage(
        sheet=here.sheet("P2", "Booked", one.what),
        what=one.what,
        state=one.state,
        cancel=cancel_words(one.day, one.cancel_by, one.cancel_days, here.today),
        flag=one.state == BookedState.TO_MOVE,
        ahead=one.ahead,
        here=f"{here.base}/booked/{one.id}",
        back=f"{here.base}/booked",
        tasks=_tasks(session, here),
        changes=list_booked_changes(session, booked_id),
        form=form or _as_form(one),
    )


def _as_form(one: BookedFacts) -> FormState:
    return FormState.of(
        what=one.what,
        task=str(one.task_id or ""),
        day=one.day.isoformat() if one.day else "",
        window=one.window,
        cancel_by=one.cancel_by,
        cancel_days=str(one.cancel_days or ""),
        note=one.note,
    )
