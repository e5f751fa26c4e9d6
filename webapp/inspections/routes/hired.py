"""Hired trades: the list, one trade, what is waited for, and their bills."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm
from webapp.core.rendering import go_to, render
from webapp.hired import actions, forms
from webapp.hired.store import HiredFacts, WaitFacts, get_hired, get_wait
from webapp.inspections import store
from webapp.inspections.actions.hired import it_came, keep_what_came, wait_again, works_under
from webapp.inspections.pages import hired as pages
from webapp.inspections.pages import hired_forms
from webapp.inspections.pages.naming import name_things
from webapp.papers.actions import Taken, keeping_paper
from webapp.papers.rules.kinds import AboutKind
from webapp.papers.rules.things import by_key
from webapp.papers.store import list_papers
from webapp.plan.guard import Here, ThisBuild

router = APIRouter(prefix="/hired")
ONE, FORM, WAIT = "hired/hired.html", "hired/form.html", "hired/wait.html"


def _permits(session: Session, here: Here) -> tuple[str, ...]:
    return tuple(one.code for one in store.list_permits(session, here.build.id))


@router.get("")
def trades(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, "hired/list.html", pages.hired_list(session, here))


@router.get("/new")
def new(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render(request, FORM, hired_forms.hired_form_page(session, here))


@router.post("")
def add(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        read = forms.read_hired(sent, here.today, by_key(name_things(session, here)), _permits(session, here))
    except BadForm as bad:
        return render(request, FORM, hired_forms.hired_form_page(session, here, form=bad.state), status=422)
    hired = actions.add_hired(session, here.build.id, read.draft, read.parts)
    works_under(session, here.build.id, hired.row_id, read.permit)
    return go_to(saving.remember(f"{here.base}/hired/{hired.code}"), say="On record. The name stays private.")


@router.get("/{code}")
def one(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, ONE, pages.hired_page(session, here, code))


@router.get("/{code}/edit")
def edit(request: Request, session: Reading, here: ThisBuild, code: str) -> Response:
    return render(request, FORM, hired_forms.hired_form_page(session, here, code))


@router.post("/{code}/edit")
def change(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    hired = get_hired(session, here.build.id, code)
    try:
        read = forms.read_hired(sent, here.today, by_key(name_things(session, here)), _permits(session, here))
    except BadForm as bad:
        return render(request, FORM, hired_forms.hired_form_page(session, here, code, bad.state), status=422)
    actions.amend_hired(session, here.build.id, code, read.draft, read.parts, read.why)
    works_under(session, here.build.id, hired.id, read.permit)
    return go_to(f"{here.base}/hired/{code}", say="Put right. What stood there before is kept below.")


@router.post("/{code}/waits")
def wait_for(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    try:
        draft = forms.read_wait(sent, here.today)
    except BadForm as bad:
        return render(request, ONE, pages.hired_page(session, here, code, wait=bad.state), status=422)
    actions.wait_for(session, here.build.id, code, draft)
    return go_to(saving.remember(f"{here.base}/hired/{code}#waits"), say="It is on the list.")


@router.post("/{code}/bills")
def bill(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    try:
        spend_id = forms.read_bill(sent, pages.bills_offered(session, here.build.id))
    except BadForm as bad:
        return render(request, ONE, pages.hired_page(session, here, code, bill=bad.state), status=422)
    actions.link_bill(session, here.build.id, code, spend_id)
    return go_to(f"{here.base}/hired/{code}#bills", say="The bill is theirs.")


@router.post("/{code}/end")
def end(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    try:
        on = forms.read_ended(sent, here.today)
    except BadForm as bad:
        return render(request, ONE, pages.hired_page(session, here, code, end=bad.state), status=422)
    actions.end_hired(session, here.build.id, code, on)
    return go_to(f"{here.base}/hired/{code}", say="Done here. What is still waited for stays on the list.")


@router.get("/{code}/waits/{wait_id}")
def wait(request: Request, session: Reading, here: ThisBuild, code: str, wait_id: int) -> Response:
    get_hired(session, here.build.id, code)
    return render(request, WAIT, hired_forms.wait_page(session, here, wait_id))


def _kept_as(session: Session, here: Here, hired: HiredFacts, found: WaitFacts, came: forms.Came) -> int | None:
    """The paper it came as: the one that was named, or a new one of what was sent."""
    if came.taken == Taken():
        return came.paper_id
    visits = {one.visit_id for one in store.list_results(session, here.build.id) if one.id in came.shows}
    about = [(AboutKind.VISIT.value, visit_id) for visit_id in sorted(visits)]
    return keep_what_came(session, here.build.id, hired, found, came.taken, came.on, about)


@router.post("/{code}/waits/{wait_id}/came")
def came(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, code: str, wait_id: int
) -> Response:
    hired, found = get_wait(session, here.build.id, wait_id)
    known = hired_forms.papers_known(list_papers(session, here.build.id))
    try:
        shows = [key for key, *_ in hired_forms.waiting_results(session, here, hired, found)]
        told = forms.read_came(sent, here.today, known, shows, keeping_paper(session, config), config.papers)
    except BadForm as bad:
        return render(request, WAIT, hired_forms.wait_page(session, here, wait_id, came=bad.state), status=422)
    it_came(session, here.build.id, wait_id, told.on, _kept_as(session, here, hired, found, told), told.shows)
    more = " What was passed on by word rests on it now." if told.shows else ""
    return go_to(f"{here.base}/hired/{code}", say=f"{found.words}: it is here, and stops nothing any more.{more}")


@router.post("/{code}/waits/{wait_id}/drop")
def drop(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, wait_id: int) -> Response:
    try:
        on, why = forms.read_dropped(sent, here.today)
    except BadForm as bad:
        return render(request, WAIT, hired_forms.wait_page(session, here, wait_id, drop=bad.state), status=422)
    actions.drop_wait(session, here.build.id, wait_id, on, why)
    return go_to(f"{here.base}/hired/{code}", say="It is waited for no more. The line stays.")


@router.post("/{code}/waits/{wait_id}/again")
def again(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str, wait_id: int) -> Response:
    try:
        why = forms.read_again(sent)
    except BadForm as bad:
        return render(request, WAIT, hired_forms.wait_page(session, here, wait_id, drop=bad.state), status=422)
    words = wait_again(session, here.build.id, wait_id, why)
    more = " What rested on it is their word again, and frees nothing." if words else ""
    return go_to(f"{here.base}/hired/{code}", say=f"It is waited for again.{more}")
