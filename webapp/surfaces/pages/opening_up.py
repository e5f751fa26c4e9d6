"""The form of a closed surface that is opened up again."""

from dataclasses import dataclass

from sqlmodel import Session

from webapp.core.forms import FormState
from webapp.core.sheets import Sheet
from webapp.plan.guard import Here
from webapp.plan.store import list_phases, list_tasks
from webapp.surfaces import store
from webapp.values.dates import show_date


@dataclass(frozen=True, slots=True)
class OpenPage:
    sheet: Sheet
    form: FormState
    surface: str
    code: str
    action: str
    back: str
    phases: tuple[tuple[str, str], ...]


def open_page(session: Session, here: Here, code: str, form: FormState | None = None) -> OpenPage:
    surface = store.get_surface(session, here.build.id, code)
    back = f"{here.base}/surfaces/{surface.code}"
    links = store.list_task_surfaces(session, here.build.id)
    closing = {one.task_id for one in links if one.surface_id == surface.id and one.closes}
    phase = next((task.phase_id for task in list_tasks(session, here.build.id) if task.id in closing), None)
    phases = tuple((str(one.id), one.title) for one in list_phases(session, here.build.id))
    state = FormState.of(on=show_date(here.today), work="1", hours="2", phase=str(phase or ""))
    return OpenPage(
        sheet=here.sheet(f"W1-{surface.code}", surface.name),
        form=form or state,
        surface=surface.name,
        code=surface.code,
        action=f"{back}/open-again",
        back=back,
        phases=phases or (("", "a new one, “Putting right”"),),
    )
