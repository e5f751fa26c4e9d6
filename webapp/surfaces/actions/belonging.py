"""Which surfaces a task works on or closes, and which a shot is taken of."""

from collections.abc import Collection, Mapping

from sqlmodel import Session, select

from webapp.plan import actions as plan
from webapp.plan.rules.kinds import TaskState
from webapp.plan.store import BuildFacts, TaskFacts, get_task
from webapp.surfaces import store
from webapp.surfaces.models import ShotSurface, TaskSurface
from webapp.surfaces.store import SurfaceFacts
from webapp.values.errors import RuleBroken
from webapp.values.verdict import Reason, Verdict, Way
from webapp.values.words import join_words


def set_task_surfaces(session: Session, build: BuildFacts, task_id: int, chosen: Mapping[int, bool]) -> None:
    """Say which surfaces a task works on (False) or closes (True), by surface id; what it was before stays readable.

    Raises RuleBroken for a done task that would now close a surface: nobody asked at the gate whether it may.
    """
    task = get_task(session, build.id, task_id)
    surfaces = {surface_id: store.surface_by_id(session, build.id, surface_id) for surface_id in chosen}
    there = {row.surface_id: row for row in session.exec(select(TaskSurface).where(TaskSurface.task_id == task_id))}
    before = {surface_id: row.closes for surface_id, row in there.items()}
    if task.state == TaskState.DONE:
        new = [surfaces[one] for one, closes in chosen.items() if closes and not before.get(one)]
        if new:
            raise _past_the_gate(build, task, new)
    names = {surface.id: surface.name for surface in store.list_surfaces(session, build.id)}
    plan.note_surfaces(session, task_id, _said(before, names), _said(chosen, names))
    for surface_id, row in there.items():
        if surface_id not in chosen:
            session.delete(row)
    for surface_id, closes in chosen.items():
        row = there.get(surface_id) or TaskSurface(task_id=task_id, surface_id=surface_id)
        row.closes = closes
        session.add(row)


def _said(chosen: Mapping[int, bool], names: Mapping[int, str]) -> str:
    """ "closes East wall, works on Ceiling and Floor" in the order of the round; "no surface" """
    closes = [name for one, name in names.items() if chosen.get(one)]
    works = [name for one, name in names.items() if chosen.get(one) is False]
    parts = [f"{verb} {join_words(found)}" for verb, found in (("closes", closes), ("works on", works)) if found]
    return ", ".join(parts) or "no surface"


def _past_the_gate(build: BuildFacts, task: TaskFacts, surfaces: list[SurfaceFacts]) -> RuleBroken:
    named = join_words([surface.name for surface in surfaces])
    sentence = f"“{task.title}” is done already, and nobody asked then whether {named} may be covered."
    detail = "Reopen the task, choose what it closes, and finish it again: finishing asks that question."
    owed = (
        Way(f"See what {one.name} still owes", f"{build.base}/surfaces/{one.code}/before-cover") for one in surfaces
    )
    task_href = f"{build.base}/tasks/{task.id}"
    return RuleBroken(
        Verdict((Reason(sentence, detail),)), "Not saved", (Way("Reopen the task", f"{task_href}#stands"), *owed)
    )


def set_shot_surfaces(session: Session, build_id: int, shot_id: int, chosen: Collection[int]) -> None:
    """Say which surfaces a shot is taken of, by surface id."""
    for surface_id in chosen:
        store.surface_by_id(session, build_id, surface_id)
    there = session.exec(select(ShotSurface).where(ShotSurface.shot_id == shot_id)).all()
    for row in there:
        if row.surface_id not in chosen:
            session.delete(row)
    known = {row.surface_id for row in there}
    session.add_all(ShotSurface(shot_id=shot_id, surface_id=row_id) for row_id in chosen if row_id not in known)
