"""What a task waits for besides tasks, and what stands before and after a visit: as typed, and one more."""

from collections.abc import Callable, Iterable
from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.inspections.store import get_inspection
from webapp.plan.guard import Here
from webapp.plan.pages.wording import STRENGTHS, Options
from webapp.plan.rules.ends import end_key
from webapp.plan.rules.kinds import NeedKind, Strength, TaskState
from webapp.plan.store import NeedFacts, get_task
from webapp.readiness.store import Site, site
from webapp.readiness.store.ends import Group, end_name, ends_of

SIDES = (
    ("before", "Done before the visit", "The visit waits for the task."),
    ("after", "Waits for the visit", "The task waits until it passed."),
)


@dataclass(frozen=True, slots=True)
class WaitLine:
    """One typed need, by its other end. `drop` is where it is taken out."""

    title: str
    detail: str
    drop: str


@dataclass(frozen=True, slots=True)
class Place:
    """Typed needs of one surface together; `name` is empty for those of no surface."""

    name: str
    lines: tuple[WaitLine, ...]


@dataclass(frozen=True, slots=True)
class TaskWaitsPage:
    sheet: Sheet
    href: str
    title: str
    lines: tuple[Place, ...]
    groups: tuple[Group, ...]
    strengths: tuple[tuple[str, str, str], ...]
    form: FormState


@dataclass(frozen=True, slots=True)
class VisitWaitsPage:
    """`before` is done before the visit, `after` waits for it."""

    sheet: Sheet
    href: str
    name: str
    before: tuple[Place, ...]
    after: tuple[Place, ...]
    sides: tuple[tuple[str, str, str], ...]
    groups: tuple[Group, ...]
    places: Options
    """empty where the visit is of the whole building"""
    strengths: tuple[tuple[str, str, str], ...]
    form: FormState


def task_waits_page(session: Session, here: Here, task_id: int, form: FormState | None = None) -> TaskWaitsPage:
    task = get_task(session, here.build.id, task_id)
    found = site(session, here.build, here.today)
    mine = [
        need
        for need in found.record.needs
        if (need.what_kind, need.what_id) == (NeedKind.TASK, task_id) and need.needs_kind != NeedKind.TASK
    ]
    href = f"{here.base}/tasks/{task_id}"
    place = next(phase.position for phase in found.record.phases if phase.id == task.phase_id)
    return TaskWaitsPage(
        sheet=here.sheet(f"P1-{place}.{task.position}", "Waits", f"What else “{task.title}” waits for"),
        href=href,
        title=task.title,
        lines=_lines(found, mine, _needed, lambda need: f"{href}/needs/{need.id}/drop"),
        groups=ends_of(found),
        strengths=STRENGTHS,
        form=form or FormState.of(strength=Strength.HARD.value),
    )


def visit_waits_page(session: Session, here: Here, code: str, form: FormState | None = None) -> VisitWaitsPage:
    inspection = get_inspection(session, here.build.id, code)
    found = site(session, here.build, here.today)
    own = (NeedKind.INSPECTION, inspection.id)
    href = f"{here.base}/inspections/{inspection.code}"
    before = [need for need in found.record.needs if (need.what_kind, need.what_id) == own]
    after = [need for need in found.record.needs if (need.needs_kind, need.needs_id) == own]

    def drop(need: NeedFacts) -> str:
        return f"{href}/waits/{need.id}/drop"

    return VisitWaitsPage(
        sheet=here.sheet("V2", "Waits", f"Before and after: {inspection.name}"),
        href=href,
        name=inspection.name,
        before=_lines(found, before, _needed, drop),
        after=_lines(found, after, _waiter, drop),
        sides=SIDES,
        groups=(*open_tasks(found), *other_visits(found, inspection.id)),
        places=_places(found, inspection.surface_ids),
        strengths=STRENGTHS,
        form=form or FormState.of(strength=Strength.HARD.value, side="before"),
    )


def open_tasks(found: Site) -> tuple[Group, ...]:
    """The tasks that are not done, by phase."""
    groups = (
        Group(
            phase.title,
            tuple(
                (str(task.id), task.title)
                for task in found.record.tasks
                if task.phase_id == phase.id and task.state != TaskState.DONE
            ),
        )
        for phase in found.record.phases
    )
    return tuple(group for group in groups if group.options)


def other_visits(found: Site, inspection_id: int) -> tuple[Group, ...]:
    """The other inspections of the build, by the key of that end."""
    options = tuple(
        (end_key(NeedKind.INSPECTION, one.id), one.name) for one in found.record.inspections if one.id != inspection_id
    )
    return (Group("Visits", options),) if options else ()


def _places(found: Site, surface_ids: Iterable[int]) -> Options:
    each = tuple((str(place), found.record.surface[place].name) for place in surface_ids)
    return (("", "Every surface of the visit"), *each) if each else ()


def _needed(need: NeedFacts) -> tuple[str, int, int, int]:
    return need.needs_kind, need.needs_id, need.needs_surface_id, need.what_surface_id


def _waiter(need: NeedFacts) -> tuple[str, int, int, int]:
    return need.what_kind, need.what_id, need.what_surface_id, need.needs_surface_id


def _lines(
    found: Site,
    needs: Iterable[NeedFacts],
    end: Callable[[NeedFacts], tuple[str, int, int, int]],
    drop: Callable[[NeedFacts], str],
) -> tuple[Place, ...]:
    """Surface by surface; on each what is still open first."""
    made: dict[str, list[tuple[bool, WaitLine]]] = {}
    for need in needs:
        kind, number, place, here = end(need)
        where = found.record.surface[here].name if here in found.record.surface else ""
        key = end_key(kind, number, place)
        settled = key in found.network and found.network.node(key).settled
        wish = "" if need.strength == Strength.HARD else "a wish"
        detail = ", ".join(part for part in ("settled" if settled else "", wish, need.reason) if part)
        made.setdefault(where, []).append((settled, WaitLine(end_name(found, key), detail, drop(need))))
    return tuple(
        Place(where, tuple(line for _, line in sorted(lines, key=lambda each: each[0])))
        for where, lines in made.items()
    )
