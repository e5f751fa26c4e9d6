"""What stops it, what may be covered, and the gate."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Config, Known, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.inspections.store import get_inspection
from webapp.photos.actions import keeping
from webapp.plan.actions import drop_need
from webapp.plan.guard import ThisBuild
from webapp.plan.store import get_task
from webapp.readiness import actions, forms, pages
from webapp.readiness.store import site
from webapp.surfaces.store import get_surface
from webapp.values.verdict import Way

router = APIRouter()


@router.get("/what-stops")
def what_stops(
    request: Request,
    session: Reading,
    here: ThisBuild,
    phase: int | None = None,
    task: int | None = None,
    surface: str = "",
    all: bool = False,  # noqa: A002 (the name in the address)
) -> Response:
    asking = pages.Asking(phase, task, surface, whole=all)
    template = "readiness/what_stops.html"
    return render_kept(request, session, here, template, lambda: pages.what_stops_page(session, here, asking))


@router.get("/tasks/{task_id}/stops")
def task_stops(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    template, blocks = "readiness/stops.html", ("panel",)
    return render_kept(request, session, here, template, lambda: pages.stops_panel(session, here, task_id), blocks)


@router.get("/before-cover")
def covers(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "readiness/covers.html", lambda: pages.covers_page(session, here))


@router.get("/house-file")
def house_file(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "readiness/house.html", lambda: pages.house_page(session, here))


@router.get("/surfaces")
def surfaces(request: Request, session: Reading, here: ThisBuild, order: bool = False) -> Response:
    template = "readiness/surfaces.html"
    return render_kept(request, session, here, template, lambda: pages.surfaces_page(session, here, ordering=order))


@router.get("/surfaces/{code}/standing")
def standing(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template, blocks = "readiness/standing.html", ("panel",)
    return render_kept(request, session, here, template, lambda: pages.standing_page(session, here, code), blocks)


@router.get("/surfaces/{code}/before-cover")
def before_cover(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    template = "readiness/before_cover.html"
    return render_kept(request, session, here, template, lambda: pages.before_cover_page(session, here, code))


@router.get("/surfaces/{code}/cover")
def close_form(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    actions.may_close(session, here.build, get_surface(session, here.build.id, code), here.today)
    return render(request, "readiness/close.html", pages.close_page(session, here, code))


@router.post("/surfaces/{code}/cover")
def close_surface(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = get_surface(session, here.build.id, code)
    found = actions.may_close(session, here.build, surface, here.today)
    try:
        form = forms.read_closing(sent, here, found, surface)
    except BadForm as bad:
        return render(request, "readiness/close.html", pages.close_page(session, here, code, bad.state), status=422)
    actions.close_surface(session, found, surface, form.on, form.who, form.layers)
    return go_to(f"{here.base}/surfaces/{surface.code}/before-cover", say=f"{surface.name} is closed.")


@router.get("/surfaces/{code}/let-go")
def letting_form(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "readiness/let_go.html", pages.letting_page(session, here, code))


@router.post("/surfaces/{code}/let-go")
def let_go(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, code: str) -> Response:
    surface = get_surface(session, here.build.id, code)
    keep = keeping(session, config.photos, config.picture_mb)
    try:
        letting = forms.read_letting(sent, here, site(session, here.build, here.today), surface, keep)
    except BadForm as bad:
        return render(request, "readiness/let_go.html", pages.letting_page(session, here, code, bad.state), status=422)
    actions.let_go(session, here.build, surface, letting, here.today)
    return go_to(f"{here.base}/surfaces/{surface.code}/before-cover", say="Let go. The reason stays with the surface.")


@router.post("/tasks/{task_id}/finish")
def finish_task(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, seen: Known, task_id: int
) -> Response:
    task = get_task(session, here.build.id, task_id)
    try:
        on = forms.read_finishing(sent, here)
    except BadForm as bad:
        page = pages.finish_page(session, here, task_id, bad.state)
        return render(request, "readiness/finish.html", page, status=422)
    actions.refuse_clash(session, site(session, here.build, here.today), (task_id,), seen)
    closed = actions.finish_task(session, here.build, task_id, on, here.today)
    said = f"“{task.title}” is done." + "".join(f" {surface.name} is closed." for surface in closed)
    return go_to(f"{here.base}/tasks/{task_id}", say=said)


@router.get("/tasks/{task_id}/day")
def done_form(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    return render(request, "readiness/done_day.html", pages.done_page(session, here, task_id))


@router.post("/tasks/{task_id}/day")
def correct_day(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    pages.done_page(session, here, task_id)
    try:
        on, why = forms.read_done_day(sent, here)
    except BadForm as bad:
        page = pages.done_page(session, here, task_id, bad.state)
        return render(request, "readiness/done_day.html", page, status=422)
    found = site(session, here.build, here.today)
    actions.correct_done_day(session, found, task_id, on, why)
    return go_to(f"{here.base}/tasks/{task_id}", say="The day is put right. The old one stays in the history.")


@router.get("/tasks/{task_id}/waits")
def task_waits(request: Request, session: Reading, here: ThisBuild, task_id: int) -> Response:
    return render(request, "readiness/waits.html", pages.task_waits_page(session, here, task_id))


@router.post("/tasks/{task_id}/waits")
def add_task_wait(request: Request, session: Writing, here: ThisBuild, sent: Sending, task_id: int) -> Response:
    get_task(session, here.build.id, task_id)
    found = site(session, here.build, here.today)
    try:
        typed = forms.read_task_wait(sent, found, task_id)
    except BadForm as bad:
        page = pages.task_waits_page(session, here, task_id, bad.state)
        return render(request, "readiness/waits.html", page, status=422)
    href = f"{here.base}/tasks/{task_id}/waits"
    actions.add_wait(session, found, typed, Way("Leave it as it was", href))
    return go_to(href, say="Written down.")


@router.get("/inspections/{code}/waits")
def visit_waits(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "readiness/visit_waits.html", pages.visit_waits_page(session, here, code))


@router.post("/inspections/{code}/waits")
def add_visit_wait(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    inspection = get_inspection(session, here.build.id, code)
    found = site(session, here.build, here.today)
    try:
        typed = forms.read_visit_wait(sent, found, inspection)
    except BadForm as bad:
        page = pages.visit_waits_page(session, here, code, bad.state)
        return render(request, "readiness/visit_waits.html", page, status=422)
    href = f"{here.base}/inspections/{inspection.code}/waits"
    actions.add_wait(session, found, typed, Way("Leave it as it was", href))
    return go_to(href, say="Written down.")


@router.post("/inspections/{code}/waits/{need_id}/drop")
def drop_visit_wait(session: Writing, here: ThisBuild, code: str, need_id: int) -> Response:
    inspection = get_inspection(session, here.build.id, code)
    drop_need(session, here.build.id, need_id)
    return go_to(f"{here.base}/inspections/{inspection.code}/waits", say="Taken out.")
