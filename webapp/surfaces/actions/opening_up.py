"""A closed surface opened up, with the work of closing it again: its hours and spend are what the opening cost."""

from datetime import date

from sqlmodel import Session

from webapp.plan import actions as plan
from webapp.plan.actions import PlannedTask
from webapp.plan.store import BuildFacts
from webapp.surfaces.actions.belonging import set_task_surfaces
from webapp.surfaces.actions.covering import open_again
from webapp.surfaces.store import SurfaceFacts

PUTTING_RIGHT = "Putting right"


def open_with_work(
    session: Session,
    build: BuildFacts,
    surface: SurfaceFacts,
    on: date,
    why: str,
    minutes: int,
    phase_id: int | None,
) -> int:
    """As `open_again`, and puts “Close … again” on the list; finishing that asks at the gate. Returns the task's id."""
    work = PlannedTask(
        title=f"Close {surface.code} again",
        kind="checking",
        low_min=minutes // 2,
        likely_min=minutes,
        high_min=minutes * 2,
        note=f"{surface.name} was opened up: {why}",
    )
    phase_id = phase_id or plan.add_phase(session, build.id, PUTTING_RIGHT).row_id
    task = plan.add_task(session, build.id, phase_id, work)
    open_again(session, surface.id, on, why, task.row_id)
    set_task_surfaces(session, build, task.row_id, {surface.id: True})
    return task.row_id
