"""Before a visit: what to have ready, and the builder's own look at the work."""

from fastapi import APIRouter, Request
from starlette.responses import Response

from webapp.core.dependencies import Reading, Sending, Writing
from webapp.core.forms import BadForm, Submitted
from webapp.core.rendering import go_to, render
from webapp.inspections import store
from webapp.inspections.actions import points as actions
from webapp.inspections.forms import points as forms
from webapp.inspections.pages import preparing as pages
from webapp.inspections.pages.book import read_book
from webapp.inspections.rules.checks import trade_of
from webapp.inspections.rules.kinds import CheckUse
from webapp.plan.guard import Here, ThisBuild
from webapp.values.words import plural

router = APIRouter()
TEMPLATE = "inspections/preparing.html"


@router.get("/visits/{visit_id}/ready")
def ready(request: Request, session: Reading, here: ThisBuild, visit_id: int) -> Response:
    return render(request, TEMPLATE, pages.ready_page(session, here, visit_id))


@router.post("/visits/{visit_id}/ready")
def keep_ready(request: Request, session: Writing, here: ThisBuild, sent: Sending, visit_id: int) -> Response:
    visit = store.get_visit(session, here.build.id, visit_id)
    book = read_book(session, here)
    inspection = book.inspection(visit.inspection_id)
    found = pages.ready_list(session, here, book, visit)
    try:
        ticks = forms.read_ticks(
            sent, found.listed, found.states, lambda line: pages.point_made(line, CheckUse.READY, inspection)
        )
    except BadForm as bad:
        return render(request, TEMPLATE, pages.ready_page(session, here, visit_id, bad.state), status=422)
    kept = actions.keep_ticks(session, here.build.id, inspection.id, ticks, here.today, visit_id=visit_id)
    return go_to(f"{here.base}/visits/{visit_id}/ready", say=_said(kept))


def _said(kept: int) -> str:
    return f"{plural(kept, 'tick')} kept." if kept else "Nothing was different."


@router.get("/inspections/{code}/check")
def check(request: Request, session: Reading, here: ThisBuild, code: str, surface: str = "") -> Response:
    return render(request, TEMPLATE, pages.check_page(session, here, code, surface))


@router.post("/inspections/{code}/check")
def keep_check(request: Request, session: Writing, here: ThisBuild, sent: Sending, code: str) -> Response:
    inspection = store.get_inspection(session, here.build.id, code)
    book = read_book(session, here)
    place = pages.chosen_place(inspection, sent.text("surface"))
    found = pages.check_list(session, here, book, inspection, place)
    try:
        ticks = forms.read_ticks(
            sent, found.listed, found.states, lambda line: pages.point_made(line, CheckUse.SELF_CHECK, inspection)
        )
    except BadForm as bad:
        page = pages.check_page(session, here, code, sent.text("surface"), bad.state)
        return render(request, TEMPLATE, page, status=422)
    visit = book.next_visit(inspection)
    kept = actions.keep_ticks(
        session, here.build.id, inspection.id, ticks, here.today, visit.id if visit else None, place
    )
    where = f"?surface={place}" if place else ""
    return go_to(f"{here.base}/inspections/{code}/check{where}", say=_said(kept))


def _list_of(here: Here, sent: Submitted, use: str, code: str, visit: int | None) -> tuple[CheckUse, str]:
    """Which list is meant, and its address."""
    if use == CheckUse.SELF_CHECK or visit is None:
        surface = sent.text("surface")
        where = f"?surface={surface}" if surface.isdecimal() else ""
        return CheckUse.SELF_CHECK, f"{here.base}/inspections/{code}/check{where}"
    return CheckUse.READY, f"{here.base}/visits/{visit}/ready"


@router.post("/inspections/{code}/points")
def change_points(
    request: Request,
    session: Writing,
    here: ThisBuild,
    sent: Sending,
    code: str,
    use: str = "",
    visit: int | None = None,
) -> Response:
    """One more point; or one of the list said otherwise or taken off: `point` is its key."""
    inspection = store.get_inspection(session, here.build.id, code)
    kind, back = _list_of(here, sent, use, code, visit)
    key = sent.text("point")
    try:
        if not key:
            typed = forms.read_point(sent)
            trade = trade_of(inspection.name, inspection.trade) if kind == CheckUse.SELF_CHECK else ""
            only = inspection.id if kind == CheckUse.READY else None
            actions.add_point(session, here.build.id, actions.NewPoint(kind, typed.words, typed.source, trade, only))
            return go_to(f"{back}#add", say=f"“{typed.words}” is on the list.")
        why = "" if sent.text("words") else forms.read_ending(sent)
    except BadForm as bad:
        page = (
            pages.check_page(session, here, code, sent.text("surface"), bad.state)
            if kind == CheckUse.SELF_CHECK
            else pages.ready_page(session, here, visit or 0, bad.state)
        )
        return render(request, TEMPLATE, page, status=422)
    book = read_book(session, here)
    found = (
        pages.check_list(session, here, book, inspection, pages.chosen_place(inspection, sent.text("surface")))
        if kind == CheckUse.SELF_CHECK
        else pages.ready_list(session, here, book, store.get_visit(session, here.build.id, visit or 0))
    )
    line = next((one for one in found.listed if one.key == key), None)
    if line is None:
        return go_to(back, say="That point is not on the list any more.")
    number = line.row_id or actions.add_point(session, here.build.id, pages.point_made(line, kind, inspection)).row_id
    if why:
        actions.end_point(session, here.build.id, number, why, here.today)
        return go_to(back, say="Off the list. The line stays with its reason.")
    actions.reword_point(session, here.build.id, number, sent.text("words")[:300], here.today)
    return go_to(back, say="Said otherwise. What was ticked before stays with the old words.")
