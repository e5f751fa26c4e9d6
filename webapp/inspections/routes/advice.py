"""What was said besides results: the list, a new one, one put right or taken back."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.inspections import actions, forms, pages, store
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces.store import list_surfaces
from webapp.values.words import plural

router = APIRouter(prefix="/advice")
TEMPLATE = "inspections/advice_form.html"


def _ids(session: Session, here: Here) -> tuple[dict[str, int], dict[str, int]]:
    surfaces = {str(each.id): each.id for each in list_surfaces(session, here.build.id)}
    return surfaces, {str(each.id): each.id for each in store.list_inspections(session, here.build.id)}


@router.get("")
def advice_list(request: Request, session: Reading, here: ThisBuild) -> Response:
    template = "inspections/advice.html"
    return render_kept(request, session, here, template, lambda: pages.advice_list_page(session, here))


@router.get("/new")
def new_advice(
    request: Request, session: Reading, here: ThisBuild, surface: str = "", inspection: str = "", who: str = ""
) -> Response:
    about = pages.blank_about(here, surface, inspection, who[:80])
    return render(request, TEMPLATE, pages.advice_form_page(session, here, about=about))


@router.post("")
def add_advice(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        new, _ = forms.read_advice(sent, here.today, *_ids(session, here))
    except BadForm as bad:
        return render(request, TEMPLATE, pages.advice_form_page(session, here, form=bad.state), status=422)
    made = actions.add_advice(session, here.build.id, new)
    say = "On record as their word. It passes nothing; only a result does."
    return go_to(saving.remember(f"{here.base}/advice/{made.row_id}"), say=say)


@router.get("/{advice_id}")
def advice(request: Request, session: Reading, here: ThisBuild, advice_id: int) -> Response:
    return render(request, TEMPLATE, pages.advice_form_page(session, here, advice_id))


@router.post("/{advice_id}")
def edit_advice(request: Request, session: Writing, here: ThisBuild, sent: Sending, advice_id: int) -> Response:
    store.get_advice(session, here.build.id, advice_id)
    try:
        new, why = forms.read_advice(sent, here.today, *_ids(session, here))
    except BadForm as bad:
        return render(request, TEMPLATE, pages.advice_form_page(session, here, advice_id, bad.state), status=422)
    changed = actions.edit_advice(session, here.build.id, advice_id, new, pages.names_of(session, here), why)
    say = f"Put right: {plural(changed, 'part')}. What it said before is kept." if changed else "Nothing was different."
    return go_to(f"{here.base}/advice/{advice_id}", say=say)


@router.post("/{advice_id}/end")
def end_advice(request: Request, session: Writing, here: ThisBuild, sent: Sending, advice_id: int) -> Response:
    known = store.get_advice(session, here.build.id, advice_id)
    try:
        on, why = forms.read_ended(sent, here.today, known)
    except BadForm as bad:
        state = forms.advice_state(known, here.today)
        kept = type(state)({**state.typed, **bad.state.typed}, bad.state.errors)
        return render(request, TEMPLATE, pages.advice_form_page(session, here, advice_id, kept), status=422)
    actions.end_advice(session, here.build.id, advice_id, on, why)
    return go_to(f"{here.base}/advice/{advice_id}", say="Taken back. It stays readable.")
