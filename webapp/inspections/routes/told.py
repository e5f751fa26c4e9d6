"""Reading back: what was said of a surface or at an inspection, what to show again, what to put right."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading
from webapp.core.rendering import render_kept
from webapp.inspections import pages
from webapp.plan.guard import ThisBuild

router = APIRouter()
HISTORY = "inspections/history.html"


@router.get("/surfaces/{code}/said")
def said_of_surface(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template, blocks = "inspections/said.html", ("panel",)
    return render_kept(request, session, here, template, lambda: pages.said_page(session, here, code), blocks)


@router.get("/surfaces/{code}/history")
def surface_history(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render_kept(request, session, here, HISTORY, lambda: pages.surface_history(session, here, code))


@router.get("/inspections/{code}/history")
def inspection_history(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render_kept(request, session, here, HISTORY, lambda: pages.inspection_history(session, here, code))


@router.get("/inspections/{code}/again")
def again(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template = "inspections/again.html"
    return render_kept(request, session, here, template, lambda: pages.again_page(session, here, code))


@router.get("/to-put-right")
def to_put_right(request: Request, session: Reading, here: ThisBuild) -> Response:
    template = "inspections/put_right.html"
    return render_kept(request, session, here, template, lambda: pages.put_right_page(session, here))
