"""Points of a trench or slab that are found again from two fixed points."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.merging import merged
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store

router = APIRouter(prefix="/surfaces/{code}/ties")
TEMPLATE = "surfaces/tie.html"


@router.get("/new")
def new_tie(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, TEMPLATE, pages.tie_page(session, here, code))


@router.post("")
def add_tie(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    surface = store.get_surface(session, here.build.id, code)
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = forms.read_tie(sent, here, surface, store.ties_of(session, here.build.id, surface.id))
    except BadForm as bad:
        return render(request, TEMPLATE, pages.tie_page(session, here, code, 0, bad.state), status=422)
    made = actions.add_tie(session, surface.id, draft)
    back = f"{here.base}/surfaces/{surface.code}#ties"
    return go_to(saving.remember(back), say=f"“{made.name}” can be found again.")


@router.get("/{tie_id}")
def tie(request: Request, session: Reading, here: ThisBuild, code: str, tie_id: int) -> Response:
    return render(request, TEMPLATE, pages.tie_page(session, here, code, tie_id))


@router.post("/{tie_id}")
def save_tie(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, tie_id: int) -> Response:
    """Put right; with `gone` it holds no more and stays listed with the day; with `there` it holds after all."""
    surface = store.get_surface(session, here.build.id, code)
    known = store.tie_on(session, here.build.id, surface, tie_id)
    back = f"{here.base}/surfaces/{surface.code}#ties"
    if sent.text("gone"):
        actions.remove_tie(session, here.build.id, known.id, here.today)
        return go_to(back, say=f"“{known.name}” is drawn no more. It stays listed.")
    others = [one for one in store.ties_of(session, here.build.id, surface.id) if one.id != known.id]
    try:
        sent = merged(sent, pages.tie_page(session, here, code, tie_id).form)
        draft = forms.read_tie(sent, here, surface, others)
    except BadForm as bad:
        return render(request, TEMPLATE, pages.tie_page(session, here, code, tie_id, bad.state), status=422)
    if sent.text("there"):
        actions.return_tie(session, here.build.id, known.id, draft)
        return go_to(back, say=f"“{draft.name}” is drawn again.")
    actions.edit_tie(session, here.build.id, known.id, draft)
    return go_to(back, say="Saved. What it said before stays readable.")
