"""W5: circuits and lines of the build, their forms, their order, and the panel list."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.merging import merged
from webapp.core.rendering import go_to, render, render_kept
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store

router = APIRouter(prefix="/services")
FORM, LINE = "surfaces/line_form.html", "surfaces/line.html"
EARLIER, LATER = -1, 1


@router.get("")
def services(request: Request, session: Reading, here: ThisBuild, order: str = "") -> Response:
    """With `order=1` the list in which they are put in order is open."""
    template = "surfaces/services.html"
    return render_kept(request, session, here, template, lambda: pages.services_page(session, here, order == "1"))


@router.get("/new")
def new_line(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, FORM, pages.line_form_page(session, here))


@router.post("")
def add_line(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = forms.read_line_draft(sent, store.list_lines(session, here.build.id))
    except BadForm as bad:
        return render(request, FORM, pages.line_form_page(session, here, "", bad.state), status=422)
    made = actions.add_line(session, here.build.id, draft)
    return go_to(
        saving.remember(f"{here.base}/services/{made.code}"),
        say=f"{made.code} is on the list. Choose it at its boxes and runs.",
    )


@router.get("/panel")
def panel(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "surfaces/panel.html", lambda: pages.panel_page(session, here))


@router.get("/{code}")
def line(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render_kept(request, session, here, LINE, lambda: pages.line_page(session, here, code))


@router.get("/{code}/edit")
def edit_line(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, FORM, pages.line_form_page(session, here, code))


@router.post("/{code}/edit")
def save_line(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_line(session, here.build.id, code)
    try:
        sent = merged(sent, pages.line_form_page(session, here, code).form)
        draft = forms.read_line_draft(sent, store.list_lines(session, here.build.id), known)
    except BadForm as bad:
        return render(request, FORM, pages.line_form_page(session, here, code, bad.state), status=422)
    actions.edit_line(session, here.build.id, known.id, draft)
    return go_to(f"{here.base}/services/{draft.code}", say="Saved. What it said before stays readable.")


@router.post("/{code}/end")
def end_line(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_line(session, here.build.id, code)
    try:
        on = forms.read_end(sent, here)
    except BadForm as bad:
        return render(request, LINE, pages.line_page(session, here, code, bad.state), status=422)
    actions.end_line(session, here.build.id, known.id, on)
    return go_to(f"{here.base}/services/{known.code}", say=f"{known.code} is out of use. It stays listed.")


@router.post("/{code}/use")
def use_line(session: Writing, here: ThisBuild, code: str) -> Response:
    known = store.get_line(session, here.build.id, code)
    actions.use_line(session, here.build.id, known.id, here.base)
    return go_to(f"{here.base}/services/{known.code}", say=f"{known.code} is in use again.")


@router.post("/{code}/move")
def move_line(session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    known = store.get_line(session, here.build.id, code)
    actions.move_line(session, here.build.id, known.id, EARLIER if sent.text("to") == "earlier" else LATER)
    return go_to(f"{here.base}/services?order=1#order-{known.code}")
