"""What is booked for a day."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.plan import store
from webapp.plan.actions import booked as actions
from webapp.plan.forms.booked import read_booked, read_booked_state
from webapp.plan.guard import ThisBuild
from webapp.plan.pages import booked as pages

router = APIRouter(prefix="/builds/{build}/booked")


@router.get("")
def booked(request: Request, session: Reading, here: ThisBuild, task: int | None = None) -> Response:
    return render(request, "plan/booked.html", pages.booked_page(session, here, task))


@router.post("")
def book(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    tasks = [task.id for task in store.list_tasks(session, here.build.id)]
    try:
        new = read_booked(sent, here.today, tasks)
    except BadForm as bad:
        return render(request, "plan/booked.html", pages.booked_page(session, here, form=bad.state), status=422)
    actions.book(session, here.build.id, new)
    answer = f"{here.base}/tasks/{new.task_id}" if new.task_id else f"{here.base}/booked"
    return go_to(saving.remember(answer), say=f"“{new.what}” is booked.")


@router.get("/{booked_id}")
def one_booked(request: Request, session: Reading, here: ThisBuild, booked_id: int) -> Response:
    return render(request, "plan/one_booked.html", pages.one_booked_page(session, here, booked_id))


@router.post("/{booked_id}")
def edit(request: Request, session: Writing, here: ThisBuild, sent: Sending, booked_id: int) -> Response:
    tasks = [task.id for task in store.list_tasks(session, here.build.id)]
    try:
        new = read_booked(sent, here.today, tasks)
    except BadForm as bad:
        page = pages.one_booked_page(session, here, booked_id, bad.state)
        return render(request, "plan/one_booked.html", page, status=422)
    actions.edit_booked(session, here.build.id, booked_id, new, sent.text("why")[:400])
    return go_to(f"{here.base}/booked", say="Changed. What it said before is kept.")


@router.post("/{booked_id}/state")
def state(session: Writing, here: ThisBuild, sent: Sending, booked_id: int) -> Response:
    actions.set_booked_state(session, here.build.id, booked_id, read_booked_state(sent), sent.text("why")[:400])
    return go_to(f"{here.base}/booked", say="Written down.")
