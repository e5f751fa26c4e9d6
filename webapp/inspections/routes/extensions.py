"""More time for a permit: asked for, answered, taken back; and the facts to print with the request."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.inspections import actions, forms, pages, store
from webapp.papers.store import paper_choices
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild
from webapp.values.own_words import own

router = APIRouter()
TEMPLATE = "inspections/extension.html"


@router.get("/permits/{code}/facts")
def permit_facts(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, "inspections/permit_facts.html", pages.permit_facts_page(session, here, code))


@router.get("/permits/{code}/extensions/new")
def new_extension(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    permit = store.get_permit(session, here.build.id, code)
    return render(request, TEMPLATE, pages.extension_page(session, here, permit))


@router.post("/permits/{code}/extensions")
def ask_extension(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    permit = store.get_permit(session, here.build.id, code)
    try:
        form = forms.read_extension(sent, here, permit.issued_on)
    except BadForm as bad:
        page = pages.extension_page(session, here, permit, ask_form=bad.state)
        return render(request, TEMPLATE, page, status=422)
    made = actions.ask_extension(session, here.build.id, permit, form)
    answer = f"{here.base}/extensions/{made.id}"
    return go_to(saving.remember(answer), say="Kept. The facts to send with it are one tap away.")


@router.get("/extensions/{extension_id}")
def extension(request: Request, session: Reading, here: ThisBuild, extension_id: int) -> Response:
    permit, found = store.get_extension(session, here.build.id, extension_id)
    return render(request, TEMPLATE, pages.extension_page(session, here, permit, found))


@router.post("/extensions/{extension_id}")
def amend_extension(request: Request, session: Writing, here: ThisBuild, sent: Sending, extension_id: int) -> Response:
    permit, found = store.get_extension(session, here.build.id, extension_id)
    try:
        form = forms.read_extension(sent, here, permit.issued_on)
    except BadForm as bad:
        page = pages.extension_page(session, here, permit, found, ask_form=bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.amend_extension(session, here.build.id, permit, found, form)
    return go_to(
        f"{here.base}/extensions/{extension_id}", say=f"Put right. What stood there is kept with the {own('permit')}."
    )


@router.post("/extensions/{extension_id}/answer")
def answer_extension(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, extension_id: int
) -> Response:
    permit, found = store.get_extension(session, here.build.id, extension_id)
    papers = [value for value, _ in paper_choices(session, here.build.id)]
    keep = keeping(session, config.photos, config.picture_mb)
    lapses = pages.rules_end(session, here, permit)
    try:
        form = forms.read_extension_answer(sent, here.today, found.asked_on, lapses, papers, keep)
    except BadForm as bad:
        page = pages.extension_page(session, here, permit, found, form=bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.answer_extension(session, permit, found, form)
    return go_to(
        f"{here.base}/permits/{permit.code}",
        say=f"Written down. The {own('permit')}’s last day follows what is on paper.",
    )


@router.post("/extensions/{extension_id}/withdraw")
def withdraw_extension(session: Writing, here: ThisBuild, extension_id: int) -> Response:
    permit, found = store.get_extension(session, here.build.id, extension_id)
    actions.withdraw_extension(session, permit, found, here.today)
    return go_to(f"{here.base}/permits/{permit.code}", say="Taken back. It stays in the history.")
