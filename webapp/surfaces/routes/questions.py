"""Questions about a place: ask, settle, open again."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.plan.guard import ThisBuild
from webapp.surfaces import actions, forms, pages, store

router = APIRouter(prefix="/questions")


@router.get("/new")
def new_question(request: Request, session: Reading, here: ThisBuild, surface: str = "") -> Response:
    return render(request, "surfaces/ask.html", pages.ask_page(session, here, surface))


@router.post("")
def ask_question(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        form = forms.read_question(sent, here, store.list_surfaces(session, here.build.id))
    except BadForm as bad:
        page = pages.ask_page(session, here, sent.text("surface"), bad.state)
        return render(request, "surfaces/ask.html", page, status=422)
    made = actions.ask_question(
        session, here.build.id, form.surface_id, form.words, form.kind, form.on, form.who or "me"
    )
    answer = f"{here.base}/questions/{made.row_id}"
    return go_to(saving.remember(answer), say="The question is on record.")


@router.get("/{question_id}")
def question(request: Request, session: Reading, here: ThisBuild, question_id: int) -> Response:
    return render(request, "surfaces/question.html", pages.question_page(session, here, question_id))


@router.post("/{question_id}/settle")
def settle(request: Request, session: Writing, here: ThisBuild, sent: Sending, question_id: int) -> Response:
    asked = store.get_question(session, here.build.id, question_id)
    try:
        form = forms.read_settle(sent, here, asked)
    except BadForm as bad:
        page = pages.question_page(session, here, question_id, bad.state)
        return render(request, "surfaces/question.html", page, status=422)
    actions.settle_question(session, here.build.id, question_id, form.answer, form.on)
    return go_to(f"{here.base}/questions/{question_id}", say="Settled.")


@router.post("/{question_id}/open-again")
def open_again(request: Request, session: Writing, here: ThisBuild, sent: Sending, question_id: int) -> Response:
    try:
        why = forms.read_why(sent, "Write why the answer does not hold.")
    except BadForm as bad:
        page = pages.question_page(session, here, question_id, bad.state)
        return render(request, "surfaces/question.html", page, status=422)
    actions.reopen_question(session, here.build.id, question_id, why)
    return go_to(f"{here.base}/questions/{question_id}", say="The question is open again. The answer stays readable.")
