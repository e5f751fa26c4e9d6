"""Changes from what was approved: the list, a new one, the answer to one."""

from fastapi import APIRouter, Request
from sqlmodel import Session
from starlette.responses import Response

from webapp.core import once
from webapp.core.dependencies import Config, Reading, Sending, Writing
from webapp.core.forms import BadForm, FormState, Submitted
from webapp.core.rendering import go_to, render, render_kept
from webapp.inspections import actions, forms, pages, store
from webapp.photos.actions import keeping
from webapp.plan.guard import Here, ThisBuild
from webapp.surfaces.store import ItemFacts, get_item, list_surfaces, surface_by_id
from webapp.values.errors import NotFound

router = APIRouter(prefix="/changes")
NEW, SHEET = "inspections/change_new.html", "inspections/change.html"


@router.get("")
def changes(request: Request, session: Reading, here: ThisBuild) -> Response:
    return render_kept(request, session, here, "inspections/changes.html", lambda: pages.changes_page(session, here))


def _item(session: Session, here: Here, sent: Submitted) -> ItemFacts | None:
    """The thing that is moved, if one is. Raises NotFound for one that stands in its old state already."""
    if not (number := sent.text("item")):
        return None
    item = get_item(session, here.build.id, int(number) if number.isdecimal() else 0)
    if item.replaced_on is not None:
        raise NotFound(f"“{item.label}” was moved from there already. Open it where it is now.")
    return item


@router.get("/new")
def new_change(request: Request, session: Reading, here: ThisBuild) -> Response:
    """Of a thing in two steps: without `to` its new place is asked, with it what the move touches."""
    asked = Submitted(request.query_params.multi_items())
    item = _item(session, here, asked)
    if item is None:
        return render(request, NEW, pages.any_page(session, here))
    if not asked.text("to"):
        return render(request, NEW, pages.where_page(session, here, item))
    try:
        where = forms.read_where(asked, here, item, pages.read_ground(session, here))
    except BadForm as bad:
        return render(request, NEW, pages.where_page(session, here, item, bad.state), status=422)
    offered = store.offered_for_move(session, here.build.id, item, where.move.surface_id)
    return render(request, NEW, pages.moved_page(session, here, item, where, offered, FormState(asked.typed())))


@router.post("")
def add_change(request: Request, session: Writing, here: ThisBuild, sent: Sending) -> Response:
    saving = once.saving(session, sent)
    if saving.before:
        return go_to(saving.before)
    item = _item(session, here, sent)
    if item is not None:
        return _add_move(request, session, here, sent, item, saving)
    codes = {one.code: one.id for one in list_surfaces(session, here.build.id)}
    try:
        change, touched = forms.read_any(sent, here, store.offered_for_any(session, here.build.id), codes)
    except BadForm as bad:
        return render(request, NEW, pages.any_page(session, here, bad.state), status=422)
    made = actions.record_change(session, here.build, change, touched)
    return go_to(saving.remember(f"{here.base}/changes/{made}"), say="The change is on record.")


def _add_move(
    request: Request, session: Session, here: Here, sent: Submitted, item: ItemFacts, saving: once.Saving
) -> Response:
    """A move that touches nothing approved is only moved; else it is a change that somebody has to agree to."""
    try:
        where = forms.read_where(sent, here, item, pages.read_ground(session, here))
    except BadForm as bad:
        return render(request, NEW, pages.where_page(session, here, item, bad.state), status=422)
    offered = store.offered_for_move(session, here.build.id, item, where.move.surface_id)
    if not store.asks(session, here.build.id, where.move, offered, on_the_plan=where.approved):
        actions.move_thing(session, here.build.id, where.move, here.today)
        to = surface_by_id(session, here.build.id, where.move.surface_id)
        say = f"“{item.label}” has its new place. The old one stays on record."
        return go_to(saving.remember(f"{here.base}/surfaces/{to.code}#hidden"), say=say)
    places = tuple(dict.fromkeys((item.surface_id, where.move.surface_id)))
    try:
        change, touched = forms.read_moved(sent, here, offered, places)
    except BadForm as bad:
        page = pages.moved_page(session, here, item, where, offered, bad.state, bad.state)
        return render(request, NEW, page, status=422)
    made = actions.record_change(session, here.build, change, touched, where.move)
    return go_to(saving.remember(f"{here.base}/changes/{made}"), say="Moved, and the change is on record.")


@router.get("/{change_id}")
def change(request: Request, session: Reading, here: ThisBuild, change_id: int) -> Response:
    return render_kept(request, session, here, SHEET, lambda: pages.change_page(session, here, change_id))


@router.post("/{change_id}/answer")
def answer_change(
    request: Request, session: Writing, here: ThisBuild, sent: Sending, config: Config, change_id: int
) -> Response:
    store.get_plan_change(session, here.build.id, change_id)
    try:
        answer = forms.read_answer(sent, here, keeping(session, config.photos, config.picture_mb))
    except BadForm as bad:
        page = pages.change_page(session, here, change_id, answer=bad.state)
        return render(request, SHEET, page, status=422)
    actions.answer_change(session, here.build.id, change_id, answer)
    return go_to(f"{here.base}/changes/{change_id}", say="Written down. What it said before is kept below.")


@router.post("/{change_id}/words")
def correct_change(request: Request, session: Writing, here: ThisBuild, sent: Sending, change_id: int) -> Response:
    store.get_plan_change(session, here.build.id, change_id)
    try:
        change, why = forms.read_right(sent, here)
    except BadForm as bad:
        page = pages.change_page(session, here, change_id, right=bad.state)
        return render(request, SHEET, page, status=422)
    actions.correct_change(session, here.build.id, change_id, change, why)
    return go_to(f"{here.base}/changes/{change_id}", say="Put right. What it said before is kept below.")
