"""A surface that was covered before it was cleared: its form, its sheet, the steps and the cost of the way out."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild
from webapp.readiness import actions, forms, pages
from webapp.surfaces.actions import take_step
from webapp.surfaces.store import get_mistake, get_surface

router = APIRouter()
FORM, SHEET = "readiness/covered_already.html", "readiness/covering.html"


@router.get("/surfaces/{code}/covered-already")
def mistake_form(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    site = actions.may_be_mistaken(session, here.build, get_surface(session, here.build.id, code), here.today)
    return render(request, FORM, pages.mistake_page(session, here, site, code))


@router.post("/surfaces/{code}/covered-already")
def cover_by_mistake(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    surface = get_surface(session, here.build.id, code)
    site = actions.may_be_mistaken(session, here.build, surface, here.today)
    try:
        mistake = forms.read_mistake(sent, here, [phase.id for phase in site.record.phases])
    except BadForm as bad:
        return render(request, FORM, pages.mistake_page(session, here, site, code, bad.state), status=422)
    made = actions.cover_by_mistake(session, site, surface, mistake)
    say = f"On record. {surface.name} is not cleared; the way out is on your list of tasks."
    return go_to(saving.remember(f"{here.base}/coverings/{made}"), say=say)


@router.get("/coverings/{cover_id}")
def covering(request: Request, session: Reading, here: ThisBuild, cover_id: int) -> Response:
    return render_kept(request, session, here, SHEET, lambda: pages.covering_page(session, here, cover_id))


@router.post("/coverings/{cover_id}/steps")
def add_step(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, cover_id: int
) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    cover = get_mistake(session, here.build.id, cover_id)
    try:
        step = forms.read_step(sent, here, cover, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.covering_page(session, here, cover_id, step=bad.state)
        return render(request, SHEET, page, status=422)
    take_step(session, here.build.id, cover_id, step)
    say = "It is open again. All of this stays on record." if step.whole else "Written down."
    return go_to(saving.remember(f"{here.base}/coverings/{cover_id}#steps"), say=say)


@router.post("/coverings/{cover_id}/cost")
def add_cost(request: Request, session: Writing, here: ThisBuild, sent: Sending, cover_id: int) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    cover = get_mistake(session, here.build.id, cover_id)
    try:
        form = forms.read_cost(sent, here)
    except BadForm as bad:
        page = pages.covering_page(session, here, cover_id, cost=bad.state)
        return render(request, SHEET, page, status=422)
    actions.add_cost(session, here.build, cover, form.day, form.what, form.cents)
    return go_to(saving.remember(f"{here.base}/coverings/{cover_id}#work"), say="The cost is with it, and in Spend.")
