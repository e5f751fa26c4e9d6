"""Offices and their closed days."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render, render_kept
from webapp.inspections import actions, forms, pages
from webapp.inspections.store.holidays import supported
from webapp.plan.guard import ThisBuild
from webapp.values.own_words import own

router = APIRouter()
OFFICE = "inspections/office.html"


@router.get("/offices")
def offices(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "inspections/offices.html", lambda: pages.offices_page(session, here))


@router.get("/offices/new")
def new_office(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, OFFICE, pages.office_page(session, here))


@router.post("/offices")
def add_office(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        form = forms.read_office(sent, supported())
    except BadForm as bad:
        return render(request, OFFICE, pages.office_page(session, here, form=bad.state), status=422)
    office = actions.add_office(session, here.build.id, form)
    answer = f"{here.base}/offices/{office.id}"
    return go_to(saving.remember(answer), say=f"Choose it on each {own('inspection')} that is asked for there.")


@router.get("/offices/{office_id}")
def office(request: Request, session: Reading, here: ThisBuild, office_id: int) -> Response:
    return render(request, OFFICE, pages.office_page(session, here, office_id))


@router.post("/offices/{office_id}")
def edit_office(request: Request, session: Writing, here: ThisBuild, sent: Sending, office_id: int) -> Response:
    try:
        form = forms.read_office(sent, supported())
    except BadForm as bad:
        return render(request, OFFICE, pages.office_page(session, here, office_id, bad.state), status=422)
    actions.edit_office(session, here.build.id, office_id, form)
    return go_to(f"{here.base}/offices/{office_id}", say="Changed. Every day to ask by follows.")


@router.post("/offices/{office_id}/closed")
def add_closed_day(request: Request, session: Writing, here: ThisBuild, sent: Sending, office_id: int) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        form = forms.read_closed_day(sent, here.today)
    except BadForm as bad:
        page = pages.office_page(session, here, office_id, closed_form=bad.state)
        return render(request, OFFICE, page, status=422)
    actions.add_closed_day(session, here.build.id, office_id, form)
    answer = f"{here.base}/offices/{office_id}#days"
    return go_to(saving.remember(answer), say="Counted. Every day to ask by follows.")


@router.post("/offices/{office_id}/closed/{closed_id}/drop")
def drop_closed_day(session: Writing, here: ThisBuild, office_id: int, closed_id: int) -> Response:
    actions.drop_closed_day(session, here.build.id, closed_id)
    return go_to(f"{here.base}/offices/{office_id}#days", say="Taken out. That it stood there is kept below.")
