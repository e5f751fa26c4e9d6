"""The list to begin with."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.inspections import actions
from webapp.inspections.forms.starting import read_starting
from webapp.inspections.pages.starting import starting_ground, starting_page
from webapp.plan.guard import ThisBuild
from webapp.values.words import plural

router = APIRouter()


@router.get("/inspections/start")
def start(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "inspections/starting.html", starting_page(session, here))


@router.post("/inspections/start")
def begin(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        chosen = read_starting(sent, starting_ground(session, here))
    except BadForm as bad:
        return render(request, "inspections/starting.html", starting_page(session, here, bad.state), status=422)
    for form in chosen:
        actions.add_inspection(session, here.build.id, form)
    say = f"{plural(len(chosen), 'line')} on the list. Names, order and surfaces are yours to change."
    return go_to(saving.remember(f"{here.base}/inspections"), say=say)
