"""A visit moved or called off, with what hangs on it."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.inspections.forms import read_booking
from webapp.inspections.pages.asking import asking_of
from webapp.inspections.pages.book import read_book
from webapp.inspections.store import get_inspection_by_id, get_visit
from webapp.plan.guard import Here, ThisBuild
from webapp.readiness import pages
from webapp.readiness.actions import moving as actions
from webapp.readiness.forms.moving import read_decisions
from webapp.readiness.store import site
from webapp.readiness.store.hanging import hangs_on

router = APIRouter(prefix="/visits/{visit_id}")
TEMPLATE = "readiness/moving.html"


@router.get("/move")
def moving(request: Request, session: Reading, here: ThisBuild, visit_id: int) -> Response:
    return render(request, TEMPLATE, pages.moving_page(session, here, visit_id, calling_off=False))


@router.get("/cancel")
def calling_off(request: Request, session: Reading, here: ThisBuild, visit_id: int) -> Response:
    return render(request, TEMPLATE, pages.moving_page(session, here, visit_id, calling_off=True))


def _answer(here: Here, path: str, say: str, lost: str) -> Response:
    """To the visit; or to the day's form, filled in as lost, when that was ticked."""
    return go_to(f"{here.base}/workdays/log?lost={lost}" if lost else path, say=say)


@router.post("/move")
def move_visit(request: Request, session: Writing, here: ThisBuild, sent: Sending, visit_id: int) -> Response:
    before = get_visit(session, here.build.id, visit_id)
    found = site(session, here.build, here.today)
    hanging = hangs_on(session, found, before.inspection_id)
    try:
        book = read_book(session, here)
        new = read_booking(sent, here.today, asking_of(book, book.inspection(before.inspection_id)))
        decisions = read_decisions(sent, hanging.booked, before.day, new.day, here.today)
    except BadForm as bad:
        page = pages.moving_page(session, here, visit_id, calling_off=False, form=bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.move_visit(session, found, visit_id, new, decisions, sent.text("why")[:400])
    say = "Moved. The day it was booked for before is kept below."
    return _answer(here, f"{here.base}/visits/{visit_id}", say, "rain" if sent.text("lost") else "")


@router.post("/cancel")
def cancel_visit(request: Request, session: Writing, here: ThisBuild, sent: Sending, visit_id: int) -> Response:
    before = get_visit(session, here.build.id, visit_id)
    found = site(session, here.build, here.today)
    hanging = hangs_on(session, found, before.inspection_id)
    try:
        decisions = read_decisions(sent, hanging.booked, before.day, None, here.today)
    except BadForm as bad:
        page = pages.moving_page(session, here, visit_id, calling_off=True, form=bad.state)
        return render(request, TEMPLATE, page, status=422)
    actions.cancel_visit(session, found, visit_id, decisions, sent.text("reason")[:400])
    code = get_inspection_by_id(session, here.build.id, before.inspection_id).code
    say = "Called off. Tell the office too, if you have not yet."
    return _answer(here, f"{here.base}/inspections/{code}", say, "rain" if sent.text("lost") else "")
