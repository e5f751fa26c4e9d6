"""Which surfaces a task works on or closes, which a shot is taken of: panels of lower sheets, reached by address."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.sheets import Sheet
from webapp.footage.store import get_shot, list_steps
from webapp.plan.guard import Here
from webapp.surfaces import store
from webapp.values.errors import NotFound

NONE, WORKS, CLOSES = "", "works", "closes"


@dataclass(frozen=True, slots=True)
class BelongingRow:
    """One surface with what is chosen for it: nothing, works (or: taken of it), closes."""

    code: str
    name: str
    href: str
    chosen: str


@dataclass(frozen=True, slots=True)
class BelongingPage:
    """`closing`: whether closing can be chosen (for a task), not only belonging (for a shot)."""

    sheet: Sheet
    heading: str
    title: str
    closing: bool
    rows: tuple[BelongingRow, ...]
    chosen: tuple[BelongingRow, ...]
    action: str
    back: str
    surfaces: str


def _page(session: Session, here: Here, sheet: Sheet, path: str, title: str, chosen: dict[int, str]) -> BelongingPage:
    rows = tuple(
        BelongingRow(surface.code, surface.name, f"{here.base}/surfaces/{surface.code}", chosen.get(surface.id, NONE))
        for surface in store.list_surfaces(session, here.build.id)
    )
    closing = path.startswith("/tasks")
    return BelongingPage(
        sheet=sheet,
        heading="Surfaces it works on or closes" if closing else "Surfaces it is taken of",
        title=title,
        closing=closing,
        rows=rows,
        chosen=tuple(row for row in rows if row.chosen),
        action=f"{here.base}{path}/surfaces",
        back=f"{here.base}{path}",
        surfaces=f"{here.base}/surfaces/new",
    )


def task_page(session: Session, here: Here, task_id: int) -> BelongingPage:
    title = next((step.title for step in list_steps(session, here.build.id) if step.id == task_id), None)
    if title is None:
        raise NotFound("There is no such task here.")
    links = store.list_task_surfaces(session, here.build.id)
    chosen = {link.surface_id: CLOSES if link.closes else WORKS for link in links if link.task_id == task_id}
    return _page(session, here, here.sheet("P1", "Phases", title), f"/tasks/{task_id}", title, chosen)


def shot_page(session: Session, here: Here, shot_id: int) -> BelongingPage:
    shot = get_shot(session, here.build.id, shot_id)
    links = store.list_shot_surfaces(session, here.build.id)
    chosen = {link.surface_id: WORKS for link in links if link.shot_id == shot_id}
    return _page(session, here, here.sheet("F1", "Footage", shot.what), f"/footage/{shot_id}", shot.what, chosen)
