"""Which surfaces a task or a shot belongs to."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, pages, store

router = APIRouter()
TEMPLATE = "surfaces/belonging.html"


@router.get("/tasks/{task_id}/surfaces")
def of_task(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    return render(request, TEMPLATE, pages.task_page(session, here, task_id), blocks=("panel",))


@router.post("/tasks/{task_id}/surfaces")
def set_of_task(session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    page = pages.task_page(session, here, task_id)
    chosen = {
        surface.id: sent.text(surface.code) == pages.CLOSES
        for surface in store.list_surfaces(session, here.build.id)
        if sent.text(surface.code) in {pages.WORKS, pages.CLOSES}
    }
    actions.set_task_surfaces(session, here.build, task_id, chosen)
    return go_to(page.back, say="Saved.")


@router.get("/footage/{shot_id}/surfaces")
def of_shot(request: Request, session: Reading, here: ThisBuild, shot_id: int) -> Response:
    return render(request, TEMPLATE, pages.shot_page(session, here, shot_id), blocks=("panel",))


@router.post("/footage/{shot_id}/surfaces")
def set_of_shot(session: Writing, here: ThisBuild, sent: Sending, shot_id: int) -> Response:
    page = pages.shot_page(session, here, shot_id)
    chosen = [surface.id for surface in store.list_surfaces(session, here.build.id) if sent.text(surface.code)]
    actions.set_shot_surfaces(session, here.build.id, shot_id, chosen)
    return go_to(page.back, say="Saved.")
