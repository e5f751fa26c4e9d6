"""A visit: what came of it, that nothing was looked at, another day, called off."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.inspections import actions, forms, pages
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild
from webapp.values.own_words import own

router = APIRouter(prefix="/visits/{visit_id}")


@router.get("")
def visit(
    request: Request, session: Reading, here: ThisBuild, visit_id: int, do: str = "result", hired: str = ""
) -> Response:
    page = pages.visit_page(session, here, visit_id, do=do, hired=hired)
    return render(request, "inspections/visit.html", page)


@router.post("/result")
def record_result(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, visit_id: int
) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    about = pages.visit_context(session, here, visit_id)
    keep = keeping(session, config.photos, config.picture_mb)
    if sent.text("then") == "row":
        state, rows = forms.one_row_more(sent, keep)
        return render(request, "inspections/visit.html", pages.visit_page(session, here, visit_id, state, rows=rows))
    try:
        record = forms.read_visit(sent, here, about, keep)
    except BadForm as bad:
        page = pages.visit_page(session, here, visit_id, bad.state)
        return render(request, "inspections/visit.html", page, status=422)
    actions.record_result(session, here.build.id, visit_id, record, here.today)
    more = sent.text("then") == "more"
    answer = f"{here.base}/visits/{visit_id}#said" if more else f"{here.base}/inspections/{about.inspection.code}"
    return go_to(
        saving.remember(answer),
        say="Saved. Write down the next thing that was said." if more else "The result is on record.",
    )


@router.post("/not-ready")
def not_ready(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, visit_id: int
) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    about = pages.visit_context(session, here, visit_id)
    try:
        keep = keeping(session, config.photos, config.picture_mb)
        told = forms.read_not_ready(sent, here, about.issued_on, keep, about.hired)
    except BadForm as bad:
        page = pages.visit_page(session, here, visit_id, bad.state, "not-ready")
        return render(request, "inspections/visit.html", page, status=422)
    actions.not_ready(session, here.build.id, visit_id, told)
    answer = f"{here.base}/inspections/{about.inspection.code}"
    return go_to(
        saving.remember(answer), say="Nothing was looked at: neither passed nor failed. The visit is still owed."
    )


@router.post("/day")
def correct_day(request: Request, session: Writing, here: ThisBuild, sent: Sending, visit_id: int) -> Response:
    about = pages.visit_context(session, here, visit_id)
    try:
        day, why = forms.read_right_day(sent, here.today, about.issued_on)
    except BadForm as bad:
        page = pages.visit_page(session, here, visit_id, bad.state, "day")
        return render(request, "inspections/visit.html", page, status=422)
    actions.correct_visit_day(session, here.build.id, visit_id, day, why)
    return go_to(
        f"{here.base}/visits/{visit_id}", say=f"The day is put right; its results and the {own('permit')} follow."
    )
