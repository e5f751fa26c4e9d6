"""Pages of money."""

from typing import Annotated

from fastapi import APIRouter, Query, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.money import actions, forms, pages
from webapp.photos.actions import keeping
from webapp.plan.guard import ThisBuild

router = APIRouter(prefix="/builds/{build}")
Turn = Annotated[int, Query(ge=1, le=10_000)]


@router.get("/spend")
def spend(
    request: Request, session: Reading, here: ThisBuild, kind: str = "", phase: str = "", turn: Turn = 1
) -> Response:
    template = "money/spend.html"
    return render_kept(request, session, here, template, lambda: pages.spend_page(session, here, kind, phase, turn))


@router.post("/spend")
def add_spend(request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    phases = pages.phase_choices(session, here.build.id)
    try:
        form = forms.read_spend(sent, here, phases, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        return render(request, "money/spend.html", pages.spend_page(session, here, form=bad.state), status=422)
    line = actions.record_spend(session, here.build.id, form)
    say = pages.saved_words(line.total_cents, line.what, here.build.currency)
    return go_to(saving.remember(f"{here.base}/spend"), say=say)


@router.get("/spend/{spend_id}")
def spend_line(request: Request, session: Reading, here: ThisBuild, spend_id: int) -> Response:
    return render(request, "money/line.html", pages.spend_line_page(session, here, spend_id))


@router.post("/spend/{spend_id}")
def amend_spend(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, spend_id: int
) -> Response:
    phases = pages.phase_choices(session, here.build.id)
    try:
        form = forms.read_spend(sent, here, phases, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.spend_line_page(session, here, spend_id, bad.state)
        return render(request, "money/line.html", page, status=422)
    changed = actions.amend_spend(session, here.build.id, spend_id, form, forms.read_why(sent))
    return go_to(f"{here.base}/spend/{spend_id}", say=pages.amended_words(changed))
