"""Tasks, phases and inspections in another order."""

from collections.abc import Callable

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core.dependencies import Sending, Writing
from webapp.core.forms import BadForm, FormState, Submitted
from webapp.core.rendering import go_to, render, wants_fragment
from webapp.inspections.store import get_inspection
from webapp.plan import pages as plan
from webapp.plan.guard import Here, ThisBuild
from webapp.plan.store import get_phase, get_task
from webapp.readiness import forms, pages
from webapp.readiness.actions import order as actions
from webapp.readiness.store import Site, site
from webapp.values.words import join_words

router = APIRouter()
Told = tuple[tuple[str, str], ...]


def _moved(
    request: Request,
    session: Session,
    here: Here,
    sent: Submitted,
    about: tuple[str, str],
    act: Callable[[Site, actions.Move], Told],
) -> Response | Told:
    """What `act` told, or the question to answer first. `about`: what is moved, and its list."""
    found = site(session, here.build, here.today)
    form, status = FormState(), 409
    try:
        move = forms.read_move(sent)
    except BadForm as bad:
        form, status, move = bad.state, 422, forms.read_move(Submitted([("to", sent.text("to"))]))
    try:
        return act(found, move)
    except actions.OrderBreaks as breaks:
        page = pages.order_breaks_page(here, found, breaks.lines, *(about[0], sent.text("to"), about[1]), form)
        return render(request, "readiness/order_breaks.html", page, blocks=("broken",), status=status)


@router.post("/tasks/{task_id}/move")
def move_task(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    task = get_task(session, here.build.id, task_id)
    back = f"{here.base}/phases/{task.phase_id}?order=1"

    def act(found: Site, move: actions.Move) -> Told:
        return actions.move_task(session, found, task_id, move)

    told = _moved(request, session, here, sent, (task.title, back), act)
    if isinstance(told, Response):
        return told
    if wants_fragment(request):
        page = plan.phase_page(session, here, task.phase_id, ordering=True)
        return render(request, "plan/phase.html", page, blocks=("tasks",))
    words = [f"“{one}” now stands before “{other}”, which it needs, and still waits for it" for one, other in told]
    return go_to(f"{back}#task-{task_id}", say=f"{join_words(words)}." if words else "")


@router.post("/phases/{phase_id}/move")
def move_phase(request: Request, session: Writing, here: ThisBuild, sent: Sending, phase_id: int) -> Response:
    title = get_phase(session, here.build.id, phase_id).title
    back = f"{here.base}/phases?order=1"

    def act(found: Site, move: actions.Move) -> Told:
        actions.move_phase(session, found, phase_id, move)
        return ()

    told = _moved(request, session, here, sent, (title, back), act)
    if isinstance(told, Response):
        return told
    if wants_fragment(request):
        page = plan.phases_page(session, here, ordering=True)
        return render(request, "plan/phases.html", page, blocks=("phases",))
    return go_to(f"{back}#phase-{phase_id}")


@router.post("/inspections/{code}/move")
def move_inspection(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    inspection = get_inspection(session, here.build.id, code)
    back = f"{here.base}/inspections?order=1"

    def act(found: Site, move: actions.Move) -> Told:
        actions.move_inspection(session, found, inspection.id, move)
        return ()

    told = _moved(request, session, here, sent, (inspection.name, back), act)
    return told if isinstance(told, Response) else go_to(f"{back}#{code}")
