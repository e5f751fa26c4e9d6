"""Which shots are owed before which step, the ones that cannot be filmed again first."""

from collections.abc import Sequence
from dataclasses import dataclass
from typing import Generic, Protocol, TypeVar


class Owed(Protocol):
    """What ordering needs to know of a shot."""

    @property
    def task_id(self) -> int | None: ...
    @property
    def task(self) -> str | None: ...
    @property
    def task_state(self) -> str | None: ...
    @property
    def strength(self) -> str: ...
    @property
    def once(self) -> bool: ...
    @property
    def state(self) -> str: ...


AnyShot = TypeVar("AnyShot", bound=Owed)


@dataclass(frozen=True, slots=True)
class Step(Generic[AnyShot]):
    """A task with what is to be filmed before or at it; `task_id` is None for what belongs to no task.

    `missed`: the task is done, so what could be filmed once only may be gone.
    """

    task_id: int | None
    title: str
    missed: bool
    shots: tuple[AnyShot, ...]


def owed_by_step(shots: Sequence[AnyShot]) -> tuple[Step[AnyShot], ...]:
    """Owed shots under their tasks, in the order given; steps still to come first, then done ones, then no task.

    Within a step a must comes before a wish, and what can be filmed only once before what can be filmed any time.
    """
    groups: dict[int | None, list[AnyShot]] = {}
    for shot in shots:
        if shot.state == "owed":
            groups.setdefault(shot.task_id, []).append(shot)
    steps = [_step(task_id, owed) for task_id, owed in groups.items()]
    return tuple(sorted(steps, key=lambda step: (step.task_id is None, step.missed)))


def _step(task_id: int | None, owed: Sequence[AnyShot]) -> Step[AnyShot]:
    first = owed[0]
    ordered = sorted(owed, key=lambda shot: (shot.strength != "must", not shot.once))
    return Step(task_id, first.task or "", first.task_state == "done", tuple(ordered))
