"""Tasks, phases and inspections in another order: told at once which hold point the new order would break."""

from collections.abc import Sequence
from dataclasses import dataclass

from sqlmodel import Session

from webapp.inspections.actions import order_inspections
from webapp.plan import actions as plan
from webapp.plan.actions.breaches import NewBreach, end_breaches, keep_breach
from webapp.plan.rules.ends import kind_of, number_of
from webapp.plan.rules.kinds import NeedKind
from webapp.plan.rules.moves import placed
from webapp.plan.store import list_phase_tasks, phase_order
from webapp.plan.store.booked import list_breaches
from webapp.readiness.rules.hold_points import Broken, newly
from webapp.readiness.store.hold_points import BreachLine, breach_line, broken_at, mended, open_order
from webapp.readiness.store.site import Site
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict


@dataclass(frozen=True, slots=True)
class Move:
    """Where to: so many places on (`by`), or the place counted from 1 (`to`). `why` keeps what it breaks knowingly."""

    by: int = 0
    to: int = 0
    why: str = ""

    def place(self, order: tuple[int, ...], moved: int) -> tuple[int, ...]:
        return placed(order, moved, self.to - 1 if self.to else order.index(moved) + self.by)


class OrderBreaks(RuleBroken):
    """Nothing was moved: the new order would hide something before it is seen."""

    def __init__(self, lines: tuple[BreachLine, ...]) -> None:
        reasons = tuple(Reason(f"{line.words}.", line.detail, line.href) for line in lines)
        super().__init__(Verdict(reasons), heading="Not moved: a hold point would be broken")
        self.lines = lines


def _ask(found: Site, before: Sequence[Broken], after: Sequence[Broken], move: Move) -> tuple[BreachLine, ...]:
    """What the move breaks anew. Raises OrderBreaks while it is not kept with a reason."""
    lines = tuple(breach_line(found, one) for one in newly(after, before))
    if lines and not move.why:
        raise OrderBreaks(lines)
    return lines


def _settle(session: Session, found: Site, lines: Sequence[BreachLine], broken: Sequence[Broken], move: Move) -> None:
    """Keep what is broken knowingly, and end what the new order mends."""
    rows = list_breaches(session, found.build.id)
    end_breaches(session, mended(rows, broken), found.today)
    for line in lines:
        one = line.broken
        new = NewBreach(
            what_kind=kind_of(one.what),
            what_id=number_of(one.what),
            needs_kind=NeedKind.INSPECTION.value,
            needs_id=one.inspection_id,
            surface_id=one.surface_id,
            words=line.words,
        )
        keep_breach(session, found.build.id, new, move.why, found.today)


def move_task(session: Session, found: Site, task_id: int, move: Move) -> tuple[tuple[str, str], ...]:
    """A task to another place of its phase. Gives the titles (waiter, needed) that now stand the wrong way round.

    Raises OrderBreaks, with nothing moved, when work would hide what is not seen yet and no reason is given.
    """
    phase_id = found.record.task[task_id].phase_id
    own = tuple(task.id for task in list_phase_tasks(session, phase_id))
    order = move.place(own, task_id)
    every = tuple(task.id for task in found.record.tasks)
    rank = dict(zip(own, order, strict=True))
    _reorder(session, found, tuple(rank.get(one, one) for one in every), move)
    return plan.order_tasks(session, found.build.id, phase_id, order)


def move_phase(session: Session, found: Site, phase_id: int, move: Move) -> None:
    """A phase with its tasks to another place. Raises OrderBreaks as `move_task` does."""
    own = tuple(number for number, _ in phase_order(session, found.build.id))
    order = move.place(own, phase_id)
    of_phase = {number: [task.id for task in found.record.tasks if task.phase_id == number] for number in order}
    _reorder(session, found, tuple(task for number in order for task in of_phase[number]), move)
    plan.order_phases(session, found.build.id, order)


def _reorder(session: Session, found: Site, every: tuple[int, ...], move: Move) -> None:
    still_open = set(open_order(found))
    before = broken_at(found, asking=True)
    after = broken_at(found, tuple(one for one in every if one in still_open), asking=True)
    _settle(session, found, _ask(found, before, after, move), after, move)


def move_inspection(session: Session, found: Site, inspection_id: int, move: Move) -> None:
    """An inspection to another place of the list. Raises OrderBreaks as `move_task` does."""
    own = tuple(one.id for one in found.record.inspections)
    order = move.place(own, inspection_id)
    before, after = broken_at(found, asking=True), broken_at(found, inspections=order, asking=True)
    _settle(session, found, _ask(found, before, after, move), after, move)
    order_inspections(session, order)
