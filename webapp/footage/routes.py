"""Pages of footage."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.footage import actions, forms, pages, store
from webapp.plan.guard import ThisBuild

router = APIRouter(prefix="/builds/{build}/footage")


def _task_ids(session: Reading, here: ThisBuild) -> set[int]:
    return {step.id for step in store.list_steps(session, here.build.id)}


@router.get("")
def footage(request: Request, session: Reading, here: ThisBuild, all: str = "") -> Response:  # noqa: A002 (as in the address)
    template = "footage/footage.html"
    return render_kept(request, session, here, template, lambda: pages.footage_page(session, here, bool(all)))


@router.get("/new")
def new_shot(request: Request, session: Reading, here: ThisBuild, task: int = 0) -> Response:
    return render(request, "footage/edit.html", pages.edit_page(session, here, task_id=task))


@router.post("")
def add_shot(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    try:
        draft = forms.read_shot(sent, _task_ids(session, here))
    except BadForm as bad:
        return render(request, "footage/edit.html", pages.edit_page(session, here, form=bad.state), status=422)
    made = actions.add_shot(session, here.build.id, draft)
    return go_to(f"{here.base}/footage/{made.row_id}", say=f"“{made.what}” is on the list.")


@router.get("/{shot_id}")
def shot(request: Request, session: Reading, here: ThisBuild, shot_id: int) -> Response:
    return render(request, "footage/shot.html", pages.shot_page(session, here, shot_id))


@router.get("/{shot_id}/edit")
def edit(request: Request, session: Reading, here: ThisBuild, shot_id: int) -> Response:
    return render(request, "footage/edit.html", pages.edit_page(session, here, shot_id))


@router.post("/{shot_id}/edit")
def save(request: Request, session: Writing, here: ThisBuild, sent: Sending, shot_id: int) -> Response:
    known = store.get_shot(session, here.build.id, shot_id)
    try:
        draft = forms.read_shot(sent, _task_ids(session, here))
    except BadForm as bad:
        page = pages.edit_page(session, here, shot_id, form=bad.state)
        return render(request, "footage/edit.html", page, status=422)
    actions.edit_shot(session, here.build.id, known.id, draft)
    return go_to(f"{here.base}/footage/{known.id}", say="Saved. What it said before stays readable.")


@router.post("/{shot_id}/filmed")
def film(request: Request, session: Writing, here: ThisBuild, sent: Sending, shot_id: int) -> Response:
    known = store.get_shot(session, here.build.id, shot_id)
    try:
        form = forms.read_filmed(sent, here.today)
    except BadForm as bad:
        page = pages.shot_page(session, here, shot_id, "filmed", bad.state)
        return render(request, "footage/shot.html", page, status=422)
    actions.film(session, known.id, form.on, form.where, form.files)
    return go_to(f"{here.base}/footage", say=f"Filmed: {known.what}.")


@router.post("/{shot_id}/skip")
def skip(request: Request, session: Writing, here: ThisBuild, sent: Sending, shot_id: int) -> Response:
    known = store.get_shot(session, here.build.id, shot_id)
    try:
        form = forms.read_why(sent, here.today, "Write why it is skipped; the reason stays on record for ever.")
    except BadForm as bad:
        page = pages.shot_page(session, here, shot_id, "why", bad.state)
        return render(request, "footage/shot.html", page, status=422)
    actions.skip_shot(session, known.id, form.on, form.why)
    return go_to(f"{here.base}/footage", say=f"Skipped: {known.what}.")


@router.post("/{shot_id}/owed")
def not_filmed(request: Request, session: Writing, here: ThisBuild, sent: Sending, shot_id: int) -> Response:
    known = store.get_shot(session, here.build.id, shot_id)
    try:
        form = forms.read_why(sent, here.today, "Write why it is owed again.")
    except BadForm as bad:
        page = pages.shot_page(session, here, shot_id, "why", bad.state)
        return render(request, "footage/shot.html", page, status=422)
    actions.not_filmed(session, known.id, form.why)
    return go_to(f"{here.base}/footage/{known.id}", say="It is owed again. What was noted before stays readable.")
