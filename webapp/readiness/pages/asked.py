"""What the address asks about: a phase, a task, a surface, or nothing: then the phase that closes a surface next."""

from collections.abc import Collection
from dataclasses import dataclass

from webapp.readiness.rules import keys
from webapp.readiness.rules.wording import inside
from webapp.readiness.store import Site, first_held_phase, left_of_phase
from webapp.values.errors import NotFound


@dataclass(frozen=True, slots=True)
class Asking:
    """The query of the address; `whole`: long lists are not cut."""

    phase_id: int | None = None
    task_id: int | None = None
    surface: str = ""
    whole: bool = False


@dataclass(frozen=True, slots=True)
class Asked:
    """`all` are the keys still open, `blocked` those that cannot start, `own` the phase's own work."""

    heading: str
    all: tuple[str, ...]
    blocked: tuple[str, ...]
    own: Collection[str]
    phase_id: int | None
    query: str
    back_label: str = ""
    back_href: str = ""


def _one(found: Site, key: str, heading: str, query: str, back: tuple[str, str]) -> Asked:
    settled = found.network.node(key).settled
    blocked = () if settled or found.network.can_start(key) else (key,)
    return Asked(heading, () if settled else (key,), blocked, (), None, query, *back)


def _phase(found: Site, phase_id: int) -> Asked:
    phase = next((phase for phase in found.record.phases if phase.id == phase_id), None)
    if phase is None:
        raise NotFound("There is no such phase in this build.")
    network = found.network
    still = left_of_phase(found, phase_id)
    blocked = tuple(key for key in still if not network.can_start(key))
    back = (f"The phase: {phase.title}", f"{found.build.base}/phases/{phase.id}")
    return Asked(
        f"What stops {inside(phase.title)}?", still, blocked, frozenset(still), phase_id, f"phase={phase_id}", *back
    )


def _task(found: Site, task_id: int) -> Asked:
    task = found.record.task.get(task_id)
    if task is None:
        raise NotFound("There is no such task in this build.")
    back = ("Back to the task", f"{found.build.base}/tasks/{task_id}")
    return _one(found, keys.task(task_id), f"What stops “{task.title}”?", f"task={task_id}", back)


def _surface(found: Site, code: str) -> Asked:
    surface = next((one for one in found.record.surfaces if one.code.casefold() == code.casefold()), None)
    if surface is None:
        raise NotFound(f"There is no surface “{code}” in this build.")
    back = (f"{surface.name} before cover", f"{found.build.base}/surfaces/{surface.code}/before-cover")
    heading = f"What stops closing {inside(surface.name)}?"
    return _one(found, keys.cover(surface.id), heading, f"surface={surface.code}", back)


def find_asked(found: Site, asking: Asking) -> Asked:
    """Raises NotFound for what this build does not have."""
    if asking.task_id is not None:
        return _task(found, asking.task_id)
    if asking.surface:
        return _surface(found, asking.surface)
    phase_id = asking.phase_id if asking.phase_id is not None else first_held_phase(found)
    if phase_id is not None:
        return _phase(found, phase_id)
    return Asked("What stops it?", (), (), (), None, "")
